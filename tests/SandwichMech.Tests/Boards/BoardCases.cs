using System.Globalization;

namespace SandwichMech.Tests.Boards;

/// <summary>A mistake or an oddity that is expected: where, in which field, and words that its message has to hold.</summary>
public sealed record Expected(int? Line, string? Field, IReadOnlyList<string> Words);

/// <summary>The good board with some lines changed, and what is to be said about it.</summary>
public sealed record BoardCase(string Kind, string Title, string Text, IReadOnlyList<Expected> Expected)
{
    public override string ToString() => $"{Kind}: {Title}";
}

/// <summary>
/// Reads the case files in Wrong/. A case begins with '== title'; '- line' takes a line out of the good board, the '+ line's
/// below it stand in its place (without a '-' they go to the end); '! line | field | words | words' is one expected mistake,
/// with '-' for no line or no field.
/// </summary>
public static class BoardCases
{
    public static string Repository { get; } = FindRepository();

    public static string Folder { get; } = Path.Combine(Repository, "tests", "SandwichMech.Tests", "Boards", "Wrong");

    public static string GoodBoard { get; } = File.ReadAllText(Path.Combine(Folder, "good-board.toml"));

    public static string Demo(string file) => Path.Combine(Repository, "shared", "demo", file);

    public static IReadOnlyList<BoardCase> In(string file) => [.. Read(Path.Combine(Folder, file))];

    /// <summary>Files of one kind of mistake each.</summary>
    public static IReadOnlyList<string> Kinds { get; } =
        [.. Directory.GetFiles(Folder, "*.txt").Select(f => Path.GetFileName(f)).Where(f => f is not ("unusual.txt" or "three-mistakes.txt")).Order()];

    private static IEnumerable<BoardCase> Read(string file)
    {
        string kind = Path.GetFileNameWithoutExtension(file);
        string? title = null;
        var edits = new List<(string? Old, List<string> New)>();
        var expected = new List<Expected>();
        foreach (string line in File.ReadAllLines(file).Append("== end"))
        {
            switch (line.Length < 2 ? "" : line[..2])
            {
                case "==":
                    if (title is not null)
                    {
                        yield return new(kind, title, Edited(edits, file), [.. expected]);
                    }

                    (title, edits, expected) = (line[2..].Trim(), [], []);
                    break;
                case "- ":
                    edits.Add((line[2..], []));
                    break;
                case "+ ":
                    if (edits.Count == 0)
                    {
                        edits.Add((null, []));
                    }

                    edits[^1].New.Add(line[2..].Replace("␀", "\0", StringComparison.Ordinal).Replace("␛", "\u001b", StringComparison.Ordinal).Replace("␍", "\r", StringComparison.Ordinal).Replace("␉", "\t", StringComparison.Ordinal));
                    break;
                case "! ":
                    string[] cells = [.. line[2..].Split(" | ").Select(cell => cell.Trim())];
                    expected.Add(new(cells[0] == "-" ? null : int.Parse(cells[0], CultureInfo.InvariantCulture), cells[1] == "-" ? null : cells[1], cells[2..]));
                    break;
                default:
                    Assert.True(title is null || string.IsNullOrWhiteSpace(line), $"{file}: '{line}' is not understood");
                    break;
            }
        }
    }

    private static string Edited(List<(string? Old, List<string> New)> edits, string file)
    {
        List<string> lines = [.. GoodBoard.TrimEnd('\n').Split('\n')];
        foreach (var (old, replacement) in edits)
        {
            int at = old is null ? lines.Count : lines.IndexOf(old);
            Assert.True(at >= 0, $"{file}: the good board has no line '{old}'");
            if (old is not null)
            {
                lines.RemoveAt(at);
            }

            lines.InsertRange(at, replacement);
        }

        return string.Join('\n', lines) + "\n";
    }

    private static string FindRepository()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "SandwichMech.sln")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException("SandwichMech.sln is in no folder above the tests.");
    }
}
