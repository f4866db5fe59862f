using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>Which unit was likely meant, where the number is right and the unit wrong or missing.</summary>
internal static class Slip
{
    /// <summary>The same number in the unit that makes it usual; null where it is usual as it stands, or none does.</summary>
    /// <param name="kind">The field's kind.</param>
    /// <param name="typed">What was typed, with its unit.</param>
    /// <returns>As "0.030 in".</returns>
    internal static string? Of(TypedKind kind, string typed)
    {
        string line = TypedText.OneLine(typed).Split('±')[0].TrimEnd();
        if (!NumberReader.BeginsWithNumber(line) || NumberReader.Read(line) is not { Problem: null } number)
        {
            return null;
        }

        bool isUsual = KnownUnits.Find(number.Rest) is { } unit && kind.Usual.Contains(unit.ToSi(number.Value));
        return isUsual ? null : Usual(kind, number);
    }

    /// <summary>A bare number with the unit that makes it usual; null where none does.</summary>
    /// <param name="kind">The field's kind.</param>
    /// <param name="bare">A number without a unit.</param>
    /// <returns>As "0.76 mm".</returns>
    internal static string? WithUnit(TypedKind kind, string bare)
    {
        string line = TypedText.OneLine(bare);
        return NumberReader.BeginsWithNumber(line) && NumberReader.Read(line) is { Problem: null, Rest: "" } number
            ? Usual(kind, number)
            : null;
    }

    /// <summary>Of several units that would do, the one that brings the number nearest to the middle of what is usual.</summary>
    private static string? Usual(TypedKind kind, NumberReading number)
    {
        double middle = Math.Sqrt(Math.Abs(kind.Usual.LowSi * kind.Usual.HighSi));
        return kind.Units.Select(KnownUnits.Named)
            .Where(unit => kind.Usual.Contains(unit.ToSi(number.Value)))
            .OrderBy(unit => Math.Abs(Math.Log(unit.ToSi(number.Value) / middle)))
            .FirstOrDefault()?.Behind(number.Text);
    }
}
