using System.Globalization;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Materials;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Pieces;

/// <summary>A piece of the log as a material that a board may be made of: one of the first two, or why not.</summary>
/// <param name="Wood">The wood of a wooden piece.</param>
/// <param name="Core">The core of a core sheet.</param>
/// <param name="Problem">Why there is none, in one line.</param>
public sealed record PieceMaterial(Listed<Wood>? Wood, Listed<CoreMaterial>? Core, string? Problem)
{
    /// <summary>How it is called: "piece 14 (Sitka spruce)".</summary>
    public string Name => Wood?.Name ?? Core?.Name ?? "";

    /// <summary>Its mean thickness, m, where it was measured: no skin made of it is thicker, and a core sheet is as high.</summary>
    public double? Thickness { get; init; }

    /// <summary>What of it was measured, to be shown back: "density 424 kg/m³ by weighing, all else by the table".</summary>
    public string Measured => Wood?.Note ?? Core?.Note ?? "";

    /// <summary>A piece that a board file has named before, so that nothing is read or fitted twice.</summary>
    /// <param name="number">The piece's number.</param>
    /// <param name="tables">The file's tables.</param>
    /// <returns>The piece; nothing where it has not been named.</returns>
    public static PieceMaterial? In(int number, MaterialTables tables)
    {
        string name = PieceMaterials.NameOf(number);
        return MaterialTables.Find(tables.Woods, name) is { } wood ? new(wood, null, null)
            : MaterialTables.Find(tables.Cores, name) is { } core ? new(null, core, null)
            : null;
    }
}

/// <summary>Finds a piece of the log by its number.</summary>
/// <param name="number">The piece's number.</param>
/// <param name="tables">Where the material that it is of is looked up.</param>
/// <returns>The piece, or why it cannot be used.</returns>
public delegate PieceMaterial PieceLookup(int number, MaterialTables tables);

/// <summary>Makes materials of pieces: the table's material, with what was measured in the place of what was tabulated.</summary>
public static class PieceMaterials
{
    private const string Word = "piece ";

    /// <summary>The number in "piece 14".</summary>
    /// <param name="typed">What was typed where a material is named.</param>
    /// <returns>The number; nothing where no piece is named.</returns>
    public static int? Number(string typed) => typed.Trim() is { } text && text.StartsWith(Word, StringComparison.OrdinalIgnoreCase)
        && int.TryParse(text.AsSpan(Word.Length).Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? number : null;

    internal static string NameOf(int number) => string.Create(CultureInfo.InvariantCulture, $"{Word}{number}");

    /// <summary>A piece of a log as a material.</summary>
    /// <param name="log">The log.</param>
    /// <param name="number">The piece's number.</param>
    /// <param name="tables">Where the material that it is of is looked up.</param>
    /// <returns>The material, or why there is none.</returns>
    public static PieceMaterial Of(ShopLog log, int number, MaterialTables tables)
    {
        IReadOnlyList<Piece> all = log.Pieces();
        if (all.FirstOrDefault(p => p.Number == number) is not { } piece)
        {
            return new(null, null, ShopLog.NoPiece(number, all));
        }

        IReadOnlyList<LogEntry> readings = InTime(log.Readings(number));
        string name = NameOf(number), called = $"{name} ({piece.Material})", measured = Measured(readings);
        double? thickness = PieceFigures.Of(readings.Select(e => e.Reading!)).Thickness?.Mean.Value;
        return piece.Kind switch
        {
            PieceKind.Wood => MaterialTables.Find(tables.Woods, piece.Material) is { } wood
                ? new PieceMaterial(wood with { Item = WoodOf(piece, readings, wood.Item) with { Name = called }, Name = called, Also = [name], Note = measured }, null, null) { Thickness = thickness }
                : Unknown(),
            PieceKind.Core => MaterialTables.Find(tables.Cores, piece.Material) is { } core
                ? new PieceMaterial(null, core with { Item = CoreOf(piece, readings, core.Item) with { Name = called }, Name = called, Also = [name], Note = measured }, null) { Thickness = thickness }
                : Unknown(),
            _ => new(null, null, $"{name} is a sandwich, and neither wood nor core: name the pieces or materials that it was made of"),
        };

        PieceMaterial Unknown() => new(null, null, $"{name} is of '{piece.Material}', which no table here holds: give the folder of your own tables with --materials FOLDER");
    }

    /// <summary>The wood of a piece: what was weighed, bent and tapped goes before the table's.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="readings">Its readings in force, in the order of time.</param>
    /// <param name="ofTable">The wood that it is of.</param>
    /// <returns>The wood; moduli as a tap finds them where the piece was bent or tapped, else the table's.</returns>
    public static Wood WoodOf(Piece piece, IReadOnlyList<LogEntry> readings, Wood ofTable)
    {
        Reading[] all = [.. readings.Select(e => e.Reading!)];
        Wood weighed = PieceFigures.Of(all).Density is { } density ? ofTable with { Density = density } : ofTable;
        Wood? found = HasTests(all) && PieceEvidence.OfWood(ofTable, all).Evidence is { } evidence ? Identify.Run(evidence.Before, evidence.Observed).Wood() : null;
        return found ?? weighed;
    }

    private static bool HasTests(IEnumerable<Reading> readings) => readings.Any(r => r is BendingReading or TapReading);

    /// <summary>The core of a piece: what was measured goes before the table's.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="readings">Its readings in force, in the order of time.</param>
    /// <param name="ofTable">The core that it is of.</param>
    /// <returns>The core; moduli are the table's.</returns>
    public static CoreMaterial CoreOf(Piece piece, IReadOnlyList<LogEntry> readings, CoreMaterial ofTable) =>
        PieceFigures.Of(readings.Select(e => e.Reading!)).Density is { } density ? ofTable with { Density = density } : ofTable;

    private static string Measured(IReadOnlyList<LogEntry> readings) => HasTests(readings.Select(e => e.Reading!)) ? "density and stiffness by its readings (`measure` shows them)"
        : PieceFigures.Of(readings.Select(e => e.Reading!)).Density is { } density
        ? $"density {Display.Text(density.Value, Shown.Density, UnitSystem.Metric)} by weighing, all else by the table"
        : "not yet weighed and measured, so all is by the table";

    /// <summary>Readings in the order in which they were read, not in which they were written down.</summary>
    /// <param name="readings">Entries.</param>
    /// <returns>The same, by time and then by number.</returns>
    public static IReadOnlyList<LogEntry> InTime(IEnumerable<LogEntry> readings) => [.. readings.OrderBy(e => e.At).ThenBy(e => e.Number)];
}
