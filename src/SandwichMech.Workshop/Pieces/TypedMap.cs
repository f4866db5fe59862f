using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Pieces;

/// <summary>A map of thickness as typed or as it stands in a file: numbers in rows, and one unit for all of them.</summary>
/// <param name="Rows">The numbers as typed, in rows.</param>
/// <param name="Unit">As typed.</param>
/// <param name="Spread">As "± 0.02 mm"; may be empty.</param>
/// <param name="AsTyped">All of it on one line, for the log.</param>
internal sealed partial record TypedMap(IReadOnlyList<string[]> Rows, string Unit, string Spread, string AsTyped)
{
    /// <summary>How it is typed.</summary>
    internal const string Form = "2.02 1.98 2.00; 2.05 2.01 1.99 mm";

    private const int LargestFile = 200_000, MostInRow = 60;

    private static readonly string[] FileEndings = [".CSV", ".TSV", ".TXT"];

    /// <summary>Reads a map, or the file that it stands in.</summary>
    /// <param name="text">As typed, or a file's name.</param>
    /// <returns>The map, or what is wrong with it.</returns>
    /// <exception cref="InputException">The file cannot be read.</exception>
    internal static (TypedMap? Map, string? Problem) Read(string text)
    {
        string line = TypedText.OneLine(text);
        bool isFile = FileEndings.Contains(Path.GetExtension(line).ToUpperInvariant());
        (string[] rows, string unit) = isFile ? OfFile(text.Trim()) : (line.Split(';'), "");
        // A semicolon behind the last row ends it.
        if (rows.Length > 1 && string.IsNullOrWhiteSpace(rows[^1])) { rows = rows[..^1]; }
        (string last, string spread) = rows[^1].IndexOf('±', StringComparison.Ordinal) is > -1 and var at ? (rows[^1][..at], rows[^1][at..]) : (rows[^1], "");
        string[][] words = [.. rows[..^1].Append(last).Select(Words)];
        string[] units = [.. words.SelectMany(w => w).Where(IsWord).Distinct(), .. unit.Length == 0 ? Array.Empty<string>() : [Words(unit.Split('±')[0]).FirstOrDefault() ?? ""]];
        string[][] numbers = [.. words.Select(w => w.Where(x => !IsWord(x)).ToArray())];
        if (Problem(numbers, units, isFile) is { } problem) { return (null, problem); }
        if (unit.Contains('±', StringComparison.Ordinal)) { spread = unit[unit.IndexOf('±', StringComparison.Ordinal)..]; }
        string whole = $"{string.Join("; ", numbers.Select(r => string.Join(' ', r)))} {units[0]}{(spread.Length > 0 ? " " + spread.Trim() : "")}";
        return (new(numbers, units[0], spread.Trim(), isFile ? $"{Path.GetFileName(line)}: {whole}" : line), null);
    }

    private static string? Problem(string[][] numbers, string[] units, bool isFile)
    {
        string form = isFile ? "the unit in the file's first line, below it a row of numbers a line, from the lower end up" : $"rows from the lower end up, as \"{Form}\"";
        if (numbers.All(r => r.Length == 0)) { return $"holds no numbers: write {form}"; }
        if (units.Length == 0) { return $"a unit is missing: write {(isFile ? "mm or in in the file's first line" : "it once, behind the last number, mm or in")}"; }
        if (units.Length > 1) { return $"names more than one unit ({string.Join(", ", units.Select(TypedText.Short))}): write one unit for all numbers, mm or in"; }
        if (numbers.Length < 2) { return $"holds one row: write two rows or more, parted by a semicolon ({form}); places on one line go to --thickness"; }
        int empty = Array.FindIndex(numbers, r => r.Length == 0);
        if (empty >= 0) { return string.Create(CultureInfo.InvariantCulture, $"row {empty + 1} is empty: write its numbers, or leave the row out"); }
        int ragged = Array.FindIndex(numbers, r => r.Length != numbers[0].Length);
        if (ragged >= 0) { return string.Create(CultureInfo.InvariantCulture, $"row {ragged + 1} has {numbers[ragged].Length} numbers and row 1 has {numbers[0].Length}: every row needs a reading at each place across"); }
        return numbers[0].Length < 2 ? $"has one place in each row: read two or more from left to right in each ({form}); places on one line go to --thickness"
            : numbers.Length > MostInRow || numbers[0].Length > MostInRow ? string.Create(CultureInfo.InvariantCulture, $"has more than {MostInRow} rows or places in a row: read fewer places")
            : null;
    }

    // Numbers and units, also where they stand together; a comma before a blank parts, any other marks decimals.
    private static string[] Words(string row) => Glued().Replace(row.Replace(", ", " ", StringComparison.Ordinal), "$1 $2").Split(' ', StringSplitOptions.RemoveEmptyEntries);

    private static bool IsWord(string word) => !char.IsAsciiDigit(word[0]) && word[0] is not ('-' or '+' or '.' or ',');

    // The first line names the unit; cells are parted by semicolons or tabs, or else by commas.
    private static (string[] Rows, string Unit) OfFile(string path)
    {
        byte[] bytes = GivenFile.Bytes(path, "thickness map", LargestFile);
        if (bytes.Length > LargestFile || bytes.AsSpan().Contains((byte)0)) { throw new InputException(path, "is no table of thicknesses: save it as CSV, with the unit in the first line and a row of numbers a line"); }
        string[] lines = [.. Encoding.UTF8.GetString(bytes).TrimStart('\uFEFF').Split('\n').Select(l => l.Trim()).Where(l => l.Trim(',', ';', '\t', ' ').Length > 0 && !l.StartsWith('#'))];
        if (lines.Length < 2) { throw new InputException(path, "holds no rows: write the unit (mm or in) in the first line, and below it a row of numbers a line"); }
        bool comma = !lines.Any(l => l.Contains(';', StringComparison.Ordinal) || l.Contains('\t', StringComparison.Ordinal));
        string Cells(string l) => TypedText.OneLine(string.Join(' ', l.Split(comma ? [','] : [';', '\t']).Select(c => c.Trim().Trim('"'))));
        string unit = Cells(lines[0]);
        return Words(unit.Split('±')[0]).Any(IsWord) ? ([.. lines.Skip(1).Select(Cells)], unit) : throw new InputException(path, "a unit is missing: write mm or in in the first line, above the rows");
    }

    [GeneratedRegex(@"([0-9.,])([a-zA-Z″""′'])")]
    private static partial Regex Glued();
}
