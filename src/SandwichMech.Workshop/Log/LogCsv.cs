using System.Globalization;
using System.Text;
using SandwichMech.Core.Building;
using SandwichMech.Core.Identification;
using SandwichMech.Workshop.Pieces;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Workshop.Log;

/// <summary>Tables for spreadsheets: SI units in the column names, points for decimals. What is in force, and what was corrected with the entry that did it.</summary>
internal static class LogCsv
{
    private const string
        Readings = "board,entry,recorded_utc,at_utc,stage,quantity,place,mass_kg,length_m,share,temperature_k,frequency_hz,deviation_si,as_typed,corrected_by",
        Predictions = "board,entry,recorded_utc,stage,figure,unit,value_si,low_90_si,high_90_si,version,corrected_by",
        Notes = "board,entry,recorded_utc,kind,text,corrected_by",
        Boards = "board,name,file,sha256,margin_m,targets,at_utc",
        Pieces = "piece,kind,material,name,outer_wood,inner_wood,adhesive,mass_kg,length_m,width_m,mean_thickness_m,density_kg_m3";

    internal static void Write(ShopLog log, string folder)
    {
        if (File.Exists(folder))
        {
            throw new InputException("--csv", $"{folder} is a file: give a folder");
        }

        IReadOnlyList<LoggedBoard> boards = log.Boards();
        LogEntry[] entries = [.. boards.SelectMany(b => log.BoardEntries(b.Number))];
        (string Name, string Head, IEnumerable<object?[]> Rows)[] tables =
        [
            ("readings.csv", Readings, entries.Where(e => e.Built is not null).SelectMany(Reading)),
            ("predictions.csv", Predictions, entries.Where(e => e.Given is not null).Select(e => new object?[]
            {
                e.Board, e.Number, e.Recorded, BuildWords.Of(e.Given!.Stage), e.Given.Figure, e.Given.Unit, e.Given.Value, e.Given.Low90, e.Given.High90, e.Given.Version, e.CorrectedBy,
            })),
            ("notes.csv", Notes, entries.Where(e => e.Kind is EntryKind.Note or EntryKind.Decision or EntryKind.Attachment or EntryKind.Withdrawn)
                .Select(e => new object?[] { e.Board, e.Number, e.Recorded, e.Kind, e.Attached?.Name ?? e.AsTyped, e.CorrectedBy })),
            ("boards.csv", Boards, boards.Select(b => new object?[] { b.Number, b.Start.Name, b.Start.File, b.Start.Sha256, b.Start.Margin, string.Join("; ", b.Start.Targets), b.At })),
            ("pieces.csv", Pieces, log.Pieces().Select(p => Piece(p, PieceFigures.Of(PieceMaterials.InTime(log.Readings(p.Number)).Select(e => e.Reading).OfType<Reading>())))),
        ];
        foreach ((string name, string head, _) in tables)
        {
            string path = Path.Combine(folder, name);
            if (Directory.Exists(path) || (File.Exists(path) && File.ReadLines(path).FirstOrDefault() != head))
            {
                throw new InputException(path, "is there already and is no such table of a log: choose another folder");
            }
        }

        Directory.CreateDirectory(folder);
        foreach ((string name, string head, IEnumerable<object?[]> rows) in tables)
        {
            var text = new StringBuilder(head).Append("\r\n");
            foreach (object?[] row in rows)
            {
                text.AppendJoin(',', row.Select(Cell)).Append("\r\n");
            }

            WholeFile.Write(Path.Combine(folder, name), Encoding.UTF8.GetBytes(text.ToString()), "the table");
        }
    }

    private static IEnumerable<object?[]> Reading(LogEntry e)
    {
        BuildReading reading = e.Built!;
        (string quantity, string of) = (BuildWords.Of(reading.Quantity), BuildWords.Unit(reading.Quantity));
        for (int i = 0; i < reading.Values.Count; i++)
        {
            double value = reading.Values[i];
            object? If(string unit) => of == unit ? value : null;
            yield return
            [
                e.Board, e.Number, e.Recorded, e.At, BuildWords.Of(reading.Stage), quantity, i + 1, If("kg"), If("m"), If(""), If("K"), If("Hz"), reading.Deviation, e.AsTyped, e.CorrectedBy,
            ];
        }
    }

    private static object?[] Piece(Piece p, PieceFigures f) =>
        [p.Number, ShopLog.Word(p.Kind), p.Material, p.Name, p.OuterWood, p.InnerWood, p.Adhesive, f.Mass?.Value, f.Length?.Value, f.Width?.Value, f.Thickness?.Mean.Value, f.Density?.Value];

    /// <summary>A cell by RFC 4180; a text that a spreadsheet would take for a formula gets a ' before it.</summary>
    internal static string Cell(object? value)
    {
        switch (value)
        {
            case null:
                return "";
            case DateTimeOffset time:
                return ShopLog.Time(time);
            case string text:
                string safe = text.Length > 0 && "=+-@\t\r".Contains(text[0], StringComparison.Ordinal) ? "'" + text : text;
                return safe.AsSpan().IndexOfAny("\",\r\n;") >= 0 ? $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : safe;
            default:
                return Convert.ToString(value, CultureInfo.InvariantCulture)!;
        }
    }
}
