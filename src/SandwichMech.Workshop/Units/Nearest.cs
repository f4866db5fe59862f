namespace SandwichMech.Workshop.Units;

/// <summary>The known name that a mistyped one most likely stands for.</summary>
public static class Nearest
{
    /// <summary>Finds the nearest of the known names, for 'did you mean'.</summary>
    /// <param name="typed">The name as typed.</param>
    /// <param name="known">The names that exist.</param>
    /// <returns>The nearest name, the first of equals, or null when none is near.</returns>
    /// <remarks>
    /// Case does not count. In order: the name itself; names a few slips away (one in three letters; Damerau-Levenshtein
    /// distance with neighbours swapped at most once, Damerau 1964); names that begin so; names that hold the typed words.
    /// </remarks>
    public static string? Name(string typed, IEnumerable<string> known)
    {
        ArgumentNullException.ThrowIfNull(typed);
        ArgumentNullException.ThrowIfNull(known);
        var wanted = Folded(typed);
        if (wanted.Length == 0)
        {
            return null;
        }

        string? nearest = null;
        var least = double.PositiveInfinity;
        foreach (var name in known)
        {
            if (Penalty(wanted, Folded(name)) is { } penalty && penalty < least)
            {
                (nearest, least) = (name, penalty);
            }
        }

        return nearest;
    }

    private static string Folded(string text) => text.Trim().ToUpperInvariant();

    /// <summary>How far a name is from what was typed; null when too far to be meant.</summary>
    private static double? Penalty(string typed, string name)
    {
        var slips = Slips(typed, name);
        if (slips <= Allowed(typed))
        {
            return slips;
        }

        if (typed.Length >= 2 && name.StartsWith(typed, StringComparison.Ordinal))
        {
            return 1.5;
        }

        var words = Words(name);
        var total = 2.5;
        foreach (var word in Words(typed))
        {
            var least = words.Select(other => Slips(word, other)).DefaultIfEmpty(int.MaxValue).Min();
            if (least > Allowed(word))
            {
                return null;
            }

            total += least;
        }

        return Words(typed).Length > 0 ? total : null;
    }

    // One slip in three letters, and never all letters of a short name.
    private static int Allowed(string typed) => typed.Length < 2 ? 0 : Math.Max(1, typed.Length / 3);

    private static string[] Words(string name) => name.Split([' ', '-', '_', ',', '/'], StringSplitOptions.RemoveEmptyEntries);

    /// <summary>Least number of letters inserted, left out, changed or swapped with their neighbour.</summary>
    private static int Slips(string a, string b)
    {
        var rows = new int[3][];
        for (var i = 0; i < rows.Length; i++)
        {
            rows[i] = new int[b.Length + 1];
        }

        for (var j = 0; j <= b.Length; j++)
        {
            rows[0][j] = j;
        }

        for (var i = 1; i <= a.Length; i++)
        {
            var row = rows[i % 3];
            var above = rows[(i - 1) % 3];
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var changed = a[i - 1] == b[j - 1] ? 0 : 1;
                row[j] = Math.Min(Math.Min(above[j] + 1, row[j - 1] + 1), above[j - 1] + changed);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                {
                    row[j] = Math.Min(row[j], rows[(i - 2) % 3][j - 2] + 1);
                }
            }
        }

        return rows[a.Length % 3][b.Length];
    }
}
