using System.Text.Json.Serialization;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Limits;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;

namespace SandwichMech.Workshop.UseCases;

/// <summary>What `margins` is told besides the board; what is not told is taken, and said.</summary>
public sealed record MarginsWish
{
    /// <summary>Strings, edge and bridge.</summary>
    public DeflectWish Strings { get; init; } = new();
    /// <summary>Pressure of the vacuum, Pa.</summary>
    public double? Vacuum { get; init; }
    /// <summary>Largest pressure of clamps, Pa.</summary>
    public double? Clamps { get; init; }
    /// <summary>Relative humidity of the room that the outer skin had come to when it was bonded, percent.</summary>
    public double? OuterHumidity { get; init; }
    /// <summary>The same of the inner skin.</summary>
    public double? InnerHumidity { get; init; }
}

/// <summary>One limit.</summary>
/// <param name="Case">In the maker's words.</param>
/// <param name="Unit">Of load and resistance: Pa, N/m or m.</param>
/// <param name="Governing">Skin and direction in which it is nearest.</param>
/// <param name="X">Where, from the lower end, m; nothing where it is everywhere.</param>
/// <param name="Y">From the centre line, m.</param>
/// <param name="Load">What it has to bear; nothing where none acts this way or none is known.</param>
/// <param name="Resistance">What it bears; nothing where no source gives it.</param>
/// <param name="Margin">Resistance over load.</param>
/// <param name="ChanceExceeded">Chance that the margin is below 1.</param>
/// <param name="KnockDown">Factor on theory's perfect value that the resistance holds.</param>
/// <param name="Source">Of formula and strength.</param>
/// <param name="Notes">Validity, judgement, what is missing.</param>
public sealed record MarginRow(
    string Case, string Unit, string Governing,
    [property: JsonPropertyName("x_m")] double? X, [property: JsonPropertyName("y_m")] double? Y,
    Prediction? Load, Prediction? Resistance, Prediction? Margin, double? ChanceExceeded, double KnockDown, string Source, IReadOnlyList<string> Notes);

/// <summary>Stress in a skin at a humidity.</summary>
/// <param name="Skin">Which.</param>
/// <param name="Held">Whether the board is kept flat and from stretching, as on a stiff rim; else it is free.</param>
/// <param name="Along">Along the grain, Pa, tension positive.</param>
/// <param name="Across">Across the grain, Pa.</param>
public sealed record LockedRow(
    string Skin, bool Held, [property: JsonPropertyName("along_pa")] Prediction Along, [property: JsonPropertyName("across_pa")] Prediction Across);

/// <summary>The board at a humidity.</summary>
/// <param name="Humidity">Relative humidity, percent.</param>
/// <param name="Moisture">Content that the skins come to, percent of the dry mass.</param>
/// <param name="CurvatureAlong">Of the free board, 1/m, positive where it is hollow inside.</param>
/// <param name="CurvatureAcross">The same across.</param>
/// <param name="BowAlong">Rise over the length, m.</param>
/// <param name="BowAcross">Rise over the width, m.</param>
/// <param name="Stresses">In both skins.</param>
public sealed record HumidityRow(
    [property: JsonPropertyName("humidity_percent")] double Humidity,
    [property: JsonPropertyName("moisture_percent")] double Moisture,
    [property: JsonPropertyName("curvature_along_per_m")] Prediction CurvatureAlong,
    [property: JsonPropertyName("curvature_across_per_m")] Prediction CurvatureAcross,
    [property: JsonPropertyName("bow_along_m")] Prediction? BowAlong,
    [property: JsonPropertyName("bow_across_m")] Prediction? BowAcross,
    IReadOnlyList<LockedRow> Stresses);

/// <summary>How much more the board gives way in time.</summary>
/// <param name="Low">Least factor on a deflection.</param>
/// <param name="High">Usual largest.</param>
/// <param name="Source">Where from.</param>
public sealed record CreepFactor(double Low, double High, string Source);

/// <summary>What `margins` answers.</summary>
public sealed record MarginsResult
{
    /// <summary>The board's name.</summary>
    public required string Board { get; init; }
    /// <summary>How the edge is held; nothing without an outline.</summary>
    public required string? Edge { get; init; }
    /// <summary>What is in the model and what is not.</summary>
    public required string Means { get; init; }
    /// <summary>The strings; nothing without an outline.</summary>
    public required StringsRow? Strings { get; init; }
    /// <summary>All limits.</summary>
    public required IReadOnlyList<MarginRow> Margins { get; init; }
    /// <summary>The case that is likeliest to be exceeded, of those that are known.</summary>
    public required string? Governing { get; init; }
    /// <summary>Cases whose resistance no source gives.</summary>
    public required IReadOnlyList<string> NotKnown { get; init; }
    /// <summary>Dry and damp air; nothing where a skin's shrinkage is not known.</summary>
    public required IReadOnlyList<HumidityRow> Humidity { get; init; }
    /// <summary>In time.</summary>
    public required CreepFactor Creep { get; init; }
    /// <summary>What was taken without being told.</summary>
    public required IReadOnlyList<string> ReadBack { get; init; }
    /// <summary>What is unusual, and what to take care of.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
}

/// <summary>Sets a board beside all that can break or spoil it.</summary>
public static class MarginsBoard
{
    /// <summary>Dry and damp air that a board has to bear, percent. Judgement.</summary>
    public const double Dry = 30, Damp = 70;

    /// <summary>Humidity of a shop that bonds. Common practice, no source.</summary>
    public const double UsualHumidity = 45;

    internal const double Temperature = 20;
    private const string Caution =
        "these margins replace no test: load an offcut of your own bond until it fails, and bring a new top up to pitch in steps, with eye protection and nobody's face in line with the strings";

    private const string Means =
        "line loads from first-order shear theory on the outline, at once and linear, where the board is plain sandwich: let-in wood and what lies on it, bars and the bond lines themselves (peel, shear) are not judged; peaks at the ends of bars and at corners grow as the mesh gets finer";

    /// <summary>Finds the margins.</summary>
    /// <param name="file">The board as read.</param>
    /// <param name="wish">What it has to bear.</param>
    /// <returns>All limits.</returns>
    /// <exception cref="InputException">The edge is free, or the bridge does not lie on the board.</exception>
    public static MarginsResult Run(BoardFile file, MarginsWish wish)
    {
        file = file with { Board = file.Board.UnderWeight() };
        Board board = file.Board;
        var taken = new List<string>();
        Strung? strung = board.Shape is null ? null : DeflectBoard.Strings(file, wish.Strings, taken);
        IReadOnlyList<LoadedPlace> places = strung is null ? [] : OutlineSolving.Try(file, "line loads",
            () => BoardDeflection.Solve(board, strung.Edge, strung.Foot, strung.Load, wish.Strings.Accuracy).LineLoads());
        if (wish.Vacuum is null) { taken.Add($"vacuum not given: {BoardLoads.FullVacuum / 1000:F1} kPa, more than any pump can bring"); }
        var loads = new BoardLoads { Places = places, Vacuum = wish.Vacuum ?? BoardLoads.FullVacuum, Clamps = wish.Clamps ?? 0 };
        IReadOnlyList<string> unknown = HumidityWarp.Unknown(board);
        HumidityState[] airs = unknown.Count > 0 ? [] : Airs(board, wish, taken);
        LimitReport report = new([.. BoardLimits.Of(board, loads).Limits, .. airs.Take(1).Select(dry => HumidityWarp.Splitting(board, dry))]);
        if (strung is not null) { taken.Add($"the strings' load, and how the plate passes it on, is taken as known to {loads.Spread * 100:F0} % (judgement)"); }
        return new()
        {
            Board = board.Name,
            Edge = strung is null ? null : OutlineSolving.EdgeWords(strung.Shape, strung.Edge),
            Means = Means,
            Strings = strung is null ? null : new(strung.Load.Tension, strung.Load.Height, strung.Load.BreakAngle, strung.Load.Pull, strung.Load.Down),
            Margins = [.. report.Limits.Select(Row)],
            Governing = report.Governing?.Name,
            NotKnown = [.. report.NotKnown.Select(l => l.Name)],
            Humidity = [.. airs.Select(Row)],
            Creep = new(Creep.Least, Creep.Largest, Creep.Source),
            ReadBack = [.. taken, .. file.ReadBack],
            Warnings =
            [
                .. file.Warnings.Select(w => w.ToString()),
                .. board.Shape is null ? [$"without an outline nothing is known of the strings' load: add [{BoardFields.OutlineLower.Table.Name}] with lower, waist and upper for these margins"] : Array.Empty<string>(),
                .. strung is not null && places.All(p => p.Force == default) ? ["the skins are alike, so the model leaves the pull in the board's plane out: it adds to the stresses, and crimping is not judged"] : Array.Empty<string>(),
                .. unknown.Select(w => $"warp is not known: no source gives the shrinkage of {w}; add shrinkage_r_percent to a table of your own (--materials)"),
                Caution,
            ],
        };
    }

    /// <summary>The limits in the press and under usual strings, without those of dry and damp air.</summary>
    internal static LimitReport Limits(BoardFile file)
    {
        Strung? strung = file.Board.Shape is null ? null : DeflectBoard.Strings(file, new(), []);
        return BoardLimits.Of(file.Board, strung is null ? new() : new()
        {
            Places = BoardDeflection.Solve(file.Board, strung.Edge, strung.Foot, strung.Load, new DeflectWish().Accuracy).LineLoads(),
        });
    }

    private static HumidityState[] Airs(Board board, MarginsWish wish, List<string> taken)
    {
        if (wish.OuterHumidity is null || wish.InnerHumidity is null) { taken.Add($"humidity when bonded not given: {UsualHumidity:F0} % (common practice, no source), {HumidityWarp.ContentSpread} % of moisture either way for each skin"); }
        var bonded = new BondedMoisture(Content(wish.OuterHumidity), Content(wish.InnerHumidity));
        return [.. new[] { Dry, Damp }.Select(h => HumidityWarp.At(board, bonded, h, Temperature))];

        static double Content(double? humidity) => Moisture.Equilibrium(humidity ?? UsualHumidity, Temperature);
    }

    private static HumidityRow Row(HumidityState s) => new(
        s.Humidity, s.Moisture, s.CurvatureAlong, s.CurvatureAcross, s.BowAlong, s.BowAcross,
        [.. s.Stresses.Select(x => new LockedRow(x.Skin, x.Restraint == Restraint.Held, x.Along, x.Across))]);

    private static MarginRow Row(Limit l) => new(
        l.Name, l.Kind switch { LimitKind.Stress => "Pa", LimitKind.LineForce => "N/m", _ => "m" },
        l.Governing, l.At?.X, l.At?.Y, l.Load, l.Resistance, l.Margin, l.ChanceExceeded, l.KnockDown, l.Source, l.Notes);
}
