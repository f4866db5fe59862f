using System.Globalization;
using System.Text.Json.Serialization;
using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.UseCases;

/// <summary>One thickness that is varied: which, and its values.</summary>
/// <param name="Name">outer, inner, skins or core.</param>
/// <param name="Values">m, rising.</param>
public sealed record Varied(string Name, [property: JsonPropertyName("values_m")] IReadOnlyList<double> Values);

/// <summary>One board of the sweep.</summary>
public sealed record SweepRow(
    [property: JsonPropertyName("values_m")] IReadOnlyList<double> Values,
    [property: JsonPropertyName("bending_stiffness_along_n_m")] double StiffnessAlong,
    [property: JsonPropertyName("bending_stiffness_along_low50_n_m")] double StiffnessAlongLow50,
    [property: JsonPropertyName("bending_stiffness_along_high50_n_m")] double StiffnessAlongHigh50,
    [property: JsonPropertyName("bending_stiffness_along_low90_n_m")] double StiffnessAlongLow90,
    [property: JsonPropertyName("bending_stiffness_along_high90_n_m")] double StiffnessAlongHigh90,
    [property: JsonPropertyName("bending_stiffness_across_n_m")] double StiffnessAcross,
    [property: JsonPropertyName("bending_stiffness_across_low50_n_m")] double StiffnessAcrossLow50,
    [property: JsonPropertyName("bending_stiffness_across_high50_n_m")] double StiffnessAcrossHigh50,
    [property: JsonPropertyName("bending_stiffness_across_low90_n_m")] double StiffnessAcrossLow90,
    [property: JsonPropertyName("bending_stiffness_across_high90_n_m")] double StiffnessAcrossHigh90,
    [property: JsonPropertyName("areal_density_kg_m2")] double ArealDensity,
    [property: JsonPropertyName("mass_kg")] double Mass,
    [property: JsonPropertyName("mass_low50_kg")] double MassLow50,
    [property: JsonPropertyName("mass_high50_kg")] double MassHigh50,
    [property: JsonPropertyName("mass_low90_kg")] double MassLow90,
    [property: JsonPropertyName("mass_high90_kg")] double MassHigh90,
    [property: JsonPropertyName("modes_hz")] IReadOnlyList<double> Modes,
    [property: JsonPropertyName("modes_low50_hz")] IReadOnlyList<double> ModesLow50,
    [property: JsonPropertyName("modes_high50_hz")] IReadOnlyList<double> ModesHigh50,
    [property: JsonPropertyName("modes_low90_hz")] IReadOnlyList<double> ModesLow90,
    [property: JsonPropertyName("modes_high90_hz")] IReadOnlyList<double> ModesHigh90,
    [property: JsonPropertyName("equal_solid_thickness_m")] double SolidThickness,
    [property: JsonPropertyName("equal_solid_thickness_low50_m")] double SolidThicknessLow50,
    [property: JsonPropertyName("equal_solid_thickness_high50_m")] double SolidThicknessHigh50,
    [property: JsonPropertyName("equal_solid_thickness_low90_m")] double SolidThicknessLow90,
    [property: JsonPropertyName("equal_solid_thickness_high90_m")] double SolidThicknessHigh90,
    [property: JsonPropertyName("saved_kg")] double Saved,
    [property: JsonPropertyName("saved_low50_kg")] double SavedLow50,
    [property: JsonPropertyName("saved_high50_kg")] double SavedHigh50,
    [property: JsonPropertyName("saved_low90_kg")] double SavedLow90,
    [property: JsonPropertyName("saved_high90_kg")] double SavedHigh90);

/// <summary>What `sweep` answers: the figures over one or two thicknesses.</summary>
public sealed record SweepResult
{
    /// <summary>The board's name.</summary>
    public required string Board { get; init; }
    /// <summary>What is varied, the first slowest.</summary>
    public required IReadOnlyList<Varied> Varied { get; init; }
    /// <summary>How the solid of equal stiffness is found.</summary>
    public required string Criterion { get; init; }
    /// <summary>Wood of the solid top.</summary>
    public required string SolidWood { get; init; }
    /// <summary>One row a board.</summary>
    public required IReadOnlyList<SweepRow> Rows { get; init; }
    /// <summary>What the solid of equal stiffness was looked at on: the layup alone, the board's outline, a strip, a rectangle.</summary>
    public required string By { get; init; }
    /// <summary>How the edge is held; nothing without an outline.</summary>
    public required string? Edge { get; init; }
    /// <summary>What the modes stand for.</summary>
    public required string Means { get; init; }
    /// <summary>Estimated numerical error of the modes; nothing for those of a rectangle, which are exact for it.</summary>
    public required double? RelativeNumericalError { get; init; }
    /// <summary>The solid top that the board file names, as D along and across in N·m; none without a thickness.</summary>
    [JsonPropertyName("named_solid_bending_stiffness_n_m")] public required IReadOnlyList<double>? NamedSolid { get; init; }
    /// <summary>Its thickness, m.</summary>
    [JsonPropertyName("named_solid_thickness_m")] public required double? NamedSolidThickness { get; init; }
    /// <summary>How the intervals were found: by exact derivatives, or by sampled boards.</summary>
    public required string Intervals { get; init; }
    /// <summary>Boards that were sampled for each row; 0 where none were.</summary>
    public required int SampledBoards { get; init; }
    /// <summary>What is unusual or left out.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
}

/// <summary>Sweeps one or two thicknesses of a board.</summary>
public static class SweepBoard
{
    /// <summary>What may be varied.</summary>
    public static readonly IReadOnlyList<string> Names = ["outer", "inner", "skins", "core"];

    private const string HowToWrite = "write for example \"outer 0.4 mm to 1.0 mm by 0.1 mm\" or \"core 1.5 mm to 3 mm in 7 steps\"";
    private const int DefaultSteps = 13, MostSteps = 401, MostRows = 5000, MostSampled = 2_000_000;

    /// <summary>Reads what is to be varied: NAME FROM to TO [by STEP | in N steps].</summary>
    /// <param name="text">As typed.</param>
    /// <returns>The thickness and its values.</returns>
    /// <exception cref="InputException">It cannot be read; the message says how to write it.</exception>
    public static Varied Read(string text)
    {
        string[] words = text.Split(' ', 2, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (words.Length < 2)
        {
            throw Refuse(text, HowToWrite);
        }

        if (!Names.Contains(words[0]))
        {
            throw Refuse(text, $"'{words[0]}' cannot be varied; {string.Join(", ", Names)} can; {HowToWrite}");
        }

        string[] ends = words[1].Split(" to ");
        if (ends.Length != 2)
        {
            throw Refuse(text, HowToWrite);
        }

        (string to, string? by) = Split(ends[1], " by ");
        (to, string? count) = Split(to, " in ", " steps");
        double low = Thickness(ends[0]), high = Thickness(to), step = by is null ? 0 : Length(by);
        if (high <= low)
        {
            throw Refuse(text, "the second thickness must be larger than the first");
        }

        int steps = by is not null ? (int)Math.Min(MostSteps + 1, Math.Floor((high - low) / step + 1e-9) + 1)
            : count is null ? DefaultSteps
            : int.TryParse(count, NumberStyles.None, CultureInfo.InvariantCulture, out int n) ? n
            : throw Refuse(text, $"'{count}' is not a number of steps; {HowToWrite}");
        if (steps is < 2 or > MostSteps)
        {
            throw Refuse(text, $"that makes {(steps < 2 ? "fewer than 2" : $"more than {MostSteps}")} values; choose another step");
        }

        return new(words[0], [.. Enumerable.Range(0, steps).Select(i => low + (by is null ? (high - low) * i / (steps - 1) : step * i))]);

        double Length(string typed)
        {
            ReadResult read = TypedValues.Read(typed, Dimension.Length);
            return read.Value is not { } value ? throw Refuse(text, read.Problem!)
                : value.Value > 0 ? value.Value
                : throw Refuse(text, $"'{typed.Trim()}' must be above zero");
        }

        double Thickness(string typed) => Length(typed) is var value and > 0.05e-3 and < 0.1
            ? value
            : throw Refuse(text, $"'{typed.Trim()}' is no thickness of a skin or core: between 0.05 mm and 100 mm is possible");
    }

    /// <summary>Sweeps.</summary>
    /// <param name="file">The board as read.</param>
    /// <param name="varied">One or two thicknesses.</param>
    /// <param name="progress">Told the share done, 0 to 1.</param>
    /// <param name="sampled">Intervals of the layup's figures from sampled boards, in the place of exact derivatives; every row has the same draws.</param>
    /// <returns>One row a board.</returns>
    /// <exception cref="InputException">None or more than two thicknesses, one of them twice, or too many boards.</exception>
    public static SweepResult Run(BoardFile file, IReadOnlyList<Varied> varied, Action<double>? progress = null, SampleWish? sampled = null)
    {
        if (varied.Count is 0 or > 2)
        {
            throw new InputException("--vary", $"one or two thicknesses can be varied; {HowToWrite}");
        }

        if (varied.Count == 2 && (varied[0].Name == varied[1].Name || (varied.Any(v => v.Name == "skins") && varied.Any(v => v.Name is "outer" or "inner"))))
        {
            throw new InputException("--vary", $"'{varied[0].Name}' and '{varied[1].Name}' would vary the same thickness twice");
        }

        var points = varied.Count == 1
            ? varied[0].Values.Select(v => new[] { v }).ToList()
            : [.. varied[0].Values.SelectMany(v => varied[1].Values.Select(w => new[] { v, w }))];
        if (points.Count > MostRows)
        {
            throw new InputException("--vary", $"that makes {points.Count} boards; at most {MostRows}: choose larger steps");
        }

        if (sampled is not null && (long)points.Count * sampled.Boards > MostSampled)
        {
            throw new InputException("--samples", string.Create(CultureInfo.InvariantCulture, $"{points.Count} boards of the sweep, each drawn {sampled.Boards} times, are more than {MostSampled}: choose fewer samples or larger steps"));
        }

        Board board = file.Board.UnderWeight(), ofModes = file.Board.ForModes();
        Board At(Board of, double[] point) => varied.Zip(point, (v, value) => (v.Name, value)).Aggregate(of, (b, v) => With(b, v.Name, v.value));
        SweptOutline? outline = board.Shape is null ? null : SweptOutline.Of(file, At(ofModes, [.. varied.Select(v => v.Values[v.Values.Count / 2])]));
        IReadOnlyList<OutlineRow>? onOutline = outline?.Rows(varied, point => At(ofModes, point), share => progress?.Invoke(0.95 * share));
        Draws? draws = sampled is null ? null : sampled.Draws(withSources: false) with { Progress = null };
        var rows = new List<SweepRow>(points.Count);
        for (int i = 0; i < points.Count; i++)
        {
            rows.Add(Row(file, At(board, points[i]), points[i], onOutline?[i], draws));
            progress?.Invoke((i + 1.0) / points.Count);
        }

        Laminate? solid = board.Solid.Thickness is { } h ? Board.SolidPlate(board.Solid.Wood, h.Value) : null;
        return new()
        {
            Board = board.Name,
            Varied = varied,
            Criterion = BoardFields.NameOf(file.Criterion),
            SolidWood = board.Solid.Wood.Name,
            Rows = rows,
            By = SolidsOnOutline.By(file.Criterion, outline?.HasSolids ?? false),
            Edge = board.Shape is { } shape ? OutlineSolving.EdgeWords(shape) : null,
            Means = outline?.Means ?? EstimateBoard.RectangleMeans,
            RelativeNumericalError = outline?.Error,
            Intervals = SampleWish.Words(sampled, outline is null ? null : outline.HasSolids ? "modes and equal solids on the outline" : "modes on the outline", withSources: false),
            SampledBoards = sampled?.Boards ?? 0,
            NamedSolid = solid is null ? null : [solid.Bending.M11, solid.Bending.M22],
            NamedSolidThickness = board.Solid.Thickness?.Value,
            Warnings = [.. file.Warnings.Select(w => w.ToString()), .. EstimateBoard.Cautions(board)],
        };
    }

    /// <summary>The board with one thickness changed; its tolerance in mm stays.</summary>
    /// <param name="board">The board.</param>
    /// <param name="name">One of <see cref="Names"/>; for skins the value is the outer's and the inner keeps its ratio.</param>
    /// <param name="value">m.</param>
    /// <returns>The changed board.</returns>
    public static Board With(Board board, string name, double value)
    {
        return name switch
        {
            "outer" => board with { Outer = board.Outer with { Thickness = board.Outer.Thickness.MovedTo(value) } },
            "inner" => board with { Inner = board.Inner with { Thickness = board.Inner.Thickness.MovedTo(value) } },
            "core" => board with { Core = board.Core with { Height = board.Core.Height.MovedTo(value) } },
            _ => With(With(board, "inner", board.Inner.Thickness.Value * value / board.Outer.Thickness.Value), "outer", value),
        };
    }

    private static SweepRow Row(BoardFile file, Board board, double[] point, OutlineRow? onOutline, Draws? draws)
    {
        IPredicting<BoardFigures> figures = SolidsOnOutline.Figures(file, board, draws);
        BoardFigures f = figures.Nominal;
        Prediction along = figures.Positive(x => x.Laminate.Bending.M11), across = figures.Positive(x => x.Laminate.Bending.M22);
        Prediction mass = figures.Positive(x => x.Mass);
        SolidRow layup = EstimateBoard.Solid(figures, board, file.Criterion, "layup");
        (Prediction thickness, Prediction saved) = onOutline?.Solid is { } solid ? (solid.Thickness, solid.Saved(EqualStiffness.Saved(board, solid.Thickness.Value))) : (layup.Thickness, layup.Saved);
        IReadOnlyList<Prediction> modes = onOutline?.Frequencies ?? [.. f.Modes.Select(m => figures.Positive(x => x.FrequencyOf(m)))];
        return new(
            point,
            along.Value, along.Low50, along.High50, along.Low90, along.High90,
            across.Value, across.Low50, across.High50, across.Low90, across.High90,
            f.Laminate.ArealMass,
            mass.Value, mass.Low50, mass.High50, mass.Low90, mass.High90,
            [.. modes.Select(m => m.Value)], [.. modes.Select(m => m.Low50)], [.. modes.Select(m => m.High50)], [.. modes.Select(m => m.Low90)], [.. modes.Select(m => m.High90)],
            thickness.Value, thickness.Low50, thickness.High50, thickness.Low90, thickness.High90,
            saved.Value, saved.Low50, saved.High50, saved.Low90, saved.High90);
    }

    private static (string Before, string? After) Split(string text, string at, string end = "")
    {
        int i = text.LastIndexOf(at, StringComparison.Ordinal);
        return i < 0 || !text.TrimEnd().EndsWith(end, StringComparison.Ordinal)
            ? (text, null)
            : (text[..i], text[(i + at.Length)..].TrimEnd()[..^end.Length].Trim());
    }

    private static InputException Refuse(string text, string why) => new([new("--vary", null, $"'{text}'", why)]);
}
