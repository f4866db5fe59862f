using System.Text.Json.Serialization;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;

namespace SandwichMech.Workshop.UseCases;

/// <summary>What `deflect` is told besides the board; what is not told is taken, and said.</summary>
public sealed record DeflectWish
{
    /// <summary>Tension of all strings together, N.</summary>
    public double? Tension { get; init; }
    /// <summary>Height of the strings above the board at the bridge, m.</summary>
    public double? Height { get; init; }
    /// <summary>Break angle over the bridge to a tailpiece, rad; nothing where the strings are tied to the bridge.</summary>
    public double? BreakAngle { get; init; }
    /// <summary>How the edge is held.</summary>
    public EdgeHold? Edge { get; init; }
    /// <summary>From the board's lower end to the middle of the bridge, m.</summary>
    public double? At { get; init; }
    /// <summary>Extent of the bridge's foot along the grain, m.</summary>
    public double? Along { get; init; }
    /// <summary>Extent of the bridge's foot across, m.</summary>
    public double? Across { get; init; }
    /// <summary>Wanted relative numerical error.</summary>
    public double Accuracy { get; init; } = 2e-3;
}

/// <summary>The bridge's foot.</summary>
public sealed record BridgeFoot(
    [property: JsonPropertyName("at_m")] double At, [property: JsonPropertyName("along_m")] double Along, [property: JsonPropertyName("across_m")] double Across);

/// <summary>The strings' load.</summary>
/// <param name="Tension">All strings, N.</param>
/// <param name="Height">Above the board, m.</param>
/// <param name="BreakAngle">To a tailpiece, rad; null where they are tied to the bridge.</param>
/// <param name="Pull">Force towards the nut, N.</param>
/// <param name="Down">Force onto the board, N.</param>
public sealed record StringsRow(
    [property: JsonPropertyName("tension_n")] double Tension,
    [property: JsonPropertyName("height_m")] double Height,
    [property: JsonPropertyName("break_angle_rad")] double? BreakAngle,
    [property: JsonPropertyName("pull_n")] double Pull,
    [property: JsonPropertyName("down_n")] double Down);

/// <summary>A place of largest deflection.</summary>
public sealed record DeflectedRow(
    [property: JsonPropertyName("x_m")] double X, [property: JsonPropertyName("y_m")] double Y, [property: JsonPropertyName("deflection_m")] Prediction Deflection);

/// <summary>A point of the centre line.</summary>
public sealed record SectionPoint([property: JsonPropertyName("x_m")] double X, [property: JsonPropertyName("deflection_m")] double Deflection);

/// <summary>How much more wood gives way in time.</summary>
/// <param name="Low">Least factor on what is shown.</param>
/// <param name="High">Usual largest.</param>
/// <param name="LowRotation">The bridge's turn with the least factor, rad.</param>
/// <param name="HighRotation">The same with the largest, rad.</param>
/// <param name="Source">Where from.</param>
public sealed record CreepRange(
    double Low, double High, [property: JsonPropertyName("low_rotation_rad")] double LowRotation, [property: JsonPropertyName("high_rotation_rad")] double HighRotation, string Source);

/// <summary>What `deflect` answers.</summary>
public sealed record DeflectResult
{
    /// <summary>The board's name.</summary>
    public required string Board { get; init; }
    /// <summary>How the edge is held.</summary>
    public required string Edge { get; init; }
    /// <summary>What is in the model and what is not.</summary>
    public required string Means { get; init; }
    /// <summary>The strings.</summary>
    public required StringsRow Strings { get; init; }
    /// <summary>The bridge's foot.</summary>
    public required BridgeFoot Bridge { get; init; }
    /// <summary>Turn of the bridge towards the nut, rad.</summary>
    [JsonPropertyName("bridge_rotation_rad")] public required Prediction Rotation { get; init; }
    /// <summary>Where the board sinks most (deflection negative).</summary>
    public required DeflectedRow Sinks { get; init; }
    /// <summary>Where it rises most.</summary>
    public required DeflectedRow Rises { get; init; }
    /// <summary>Mean sinking of the foot per force onto it, m/N.</summary>
    [JsonPropertyName("deflection_per_force_m_per_n")] public required Prediction PerForce { get; init; }
    /// <summary>Its inverse, N/m.</summary>
    [JsonPropertyName("stiffness_at_bridge_n_per_m")] public required Prediction Stiffness { get; init; }
    /// <summary>Turn of the foot per moment, rad/(N·m).</summary>
    [JsonPropertyName("rotation_per_moment_rad_per_n_m")] public required Prediction PerMoment { get; init; }
    /// <summary>The solid top with the same stiffness at the bridge: same outline, hole, edge and foot.</summary>
    public required SolidRow Solid { get; init; }
    /// <summary>In time.</summary>
    public required CreepRange Creep { get; init; }
    /// <summary>Deflection along the centre line; nothing where the soundhole is.</summary>
    public required IReadOnlyList<SectionPoint> CentreLine { get; init; }
    /// <summary>Estimated numerical error of the figures.</summary>
    public required double RelativeNumericalError { get; init; }
    /// <summary>Triangles of the mesh.</summary>
    public required int Triangles { get; init; }
    /// <summary>Unknowns.</summary>
    public required int Unknowns { get; init; }
    /// <summary>What was taken without being told.</summary>
    public required IReadOnlyList<string> ReadBack { get; init; }
    /// <summary>What is unusual, and what to take care of.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
}

/// <summary>The result and the deflection that it came from, which the picture needs.</summary>
/// <param name="Result">What is shown and written as JSON.</param>
/// <param name="Field">Where the deflection is given.</param>
/// <param name="Deflection">m at the nodes, positive outwards.</param>
/// <param name="Shape">The board's outline and regions.</param>
/// <param name="Foot">The bridge's foot.</param>
public sealed record DeflectAnswer(DeflectResult Result, ShapeField Field, IReadOnlyList<double> Deflection, BoardShape Shape, Curve Foot);

/// <summary>A board with its bridge and strings on it.</summary>
internal sealed record Strung(BoardShape Shape, EdgeHold Edge, BridgeFoot Bridge, StringLoad Load, Curve Foot);

/// <summary>Solves a board under its strings.</summary>
public static class DeflectBoard
{
    /// <summary>Tension of six classical strings. Common practice, no source.</summary>
    public const double UsualTension = 400;

    /// <summary>Height of the strings above the board at a classical bridge. Common practice, no source.</summary>
    public const double UsualHeight = 11e-3;

    // A classical bridge's foot. Common practice, no source.
    private const double UsualAlong = 28e-3, UsualAcross = 190e-3;
    private const int SectionPoints = 121;
    private const string Caution =
        "string tension is stored energy: bring a new top up to pitch in steps, with eye protection and nobody's face in line with the strings; experience and a test come before these figures";

    private const string Large = "the board moves by more than half its thickness: there the stretch of its plane, which is left out, would hold it back";

    /// <summary>Solves.</summary>
    /// <param name="file">The board as read.</param>
    /// <param name="wish">Strings, edge and bridge.</param>
    /// <returns>The result and its field.</returns>
    /// <exception cref="InputException">The board has no outline, the edge is free, or the bridge does not lie on the board.</exception>
    public static DeflectAnswer Run(BoardFile file, DeflectWish wish)
    {
        file = file with { Board = file.Board.UnderWeight() };
        var taken = new List<string>();
        (BoardShape shape, EdgeHold edge, BridgeFoot bridge, StringLoad strings, Curve foot) = Strings(file, wish, taken);
        (BoardDeflection d, SolidOnOutline solid) = OutlineSolving.Try(file, "deflections", () =>
        {
            BoardDeflection own = BoardDeflection.Solve(file.Board, edge, foot, strings, wish.Accuracy);
            return (own, EqualOnOutline.Solid(OutlineCriterion.AtBridge(file.Board, edge, foot)) ?? throw SolidsOnOutline.Refusal(file, new(file.Board.Solid.Wood.Name)));
        });
        Prediction f = d.PerForce;
        double thickness = file.Board.Laminate().Thickness;
        bool large = Math.Max(d.Rises.Deflection.Value, -d.Sinks.Deflection.Value) > thickness / 2;
        return new(new()
        {
            Board = file.Board.Name,
            Edge = OutlineSolving.EdgeWords(shape, edge),
            Means = OutlineSolving.Model + ", at once and linear; the edge cannot move in its plane, as rim and block hold it; " + OutlineSolving.NotIn(shape, shape.DomeAlong == 0 && shape.DomeAcross == 0 ? ["dome"] : []) + (shape.Regions.Any(r => r.Change is GluedBar) ? "" : ", which would make it stiffer")
                + (shape.IsHeld(EdgeHold.Rim, edge) ? $"; {OutlineSolving.RimMeans}" : ""),
            Strings = new(strings.Tension, strings.Height, strings.BreakAngle, strings.Pull, strings.Down),
            Bridge = bridge,
            Rotation = d.Tilt,
            Sinks = Row(d.Sinks),
            Rises = Row(d.Rises),
            PerForce = f,
            Stiffness = new(1 / f.Value, 1 / f.High50, 1 / f.Low50, 1 / f.High90, 1 / f.Low90, f.MostlyFrom),
            PerMoment = d.PerMoment,
            Solid = new("stiffness at the bridge", file.Board.Solid.Wood.Name, SolidsOnOutline.OnBridge, solid.Thickness, solid.Mass, solid.Saved, solid.SavedShare),
            Creep = new(Core.Limits.Creep.Least, Core.Limits.Creep.Largest, Core.Limits.Creep.Least * d.Tilt.Value, Core.Limits.Creep.Largest * d.Tilt.Value, Core.Limits.Creep.Source),
            CentreLine = CentreLine(d),
            RelativeNumericalError = d.RelativeNumericalError,
            Triangles = d.Triangles,
            Unknowns = d.Unknowns,
            ReadBack = [.. taken, .. file.ReadBack],
            Warnings =
            [
                .. file.Warnings.Select(w => w.ToString()),
                .. Enumerable.Repeat(Large, large ? 1 : 0),
                Caution,
            ],
        }, d.Field, d.Deflection, shape, foot);
    }

    /// <summary>The board's edge, bridge and strings; what is not told is taken, and said.</summary>
    internal static Strung Strings(BoardFile file, DeflectWish wish, List<string> taken)
    {
        BoardShape shape = OutlineSolving.ShapeOf(file, "deflections", "nothing of it can be said without");
        EdgeHold edge = Edge(shape, wish, taken);
        BridgeFoot bridge = Bridge(file, shape, wish, taken);
        var strings = new StringLoad(wish.Tension ?? UsualTension, wish.Height ?? UsualHeight, wish.BreakAngle);
        if (wish.Tension is null) { taken.Add($"tension not given: about {UsualTension:F0} N for six classical strings (common practice, no source)"); }
        if (wish.Height is null) { taken.Add($"height not given: {UsualHeight * 1000:F0} mm from the board to the strings at the bridge (common practice, no source)"); }
        Curve foot = Shapes.Rectangle(new(bridge.At - bridge.Along / 2, -bridge.Across / 2, bridge.At + bridge.Along / 2, bridge.Across / 2));
        CheckInside(shape, foot);
        return new(shape, edge, bridge, strings, foot);
    }

    private static EdgeHold Edge(BoardShape shape, DeflectWish wish, List<string> taken)
    {
        if (wish.Edge is { } told) { return told; }
        if (shape.Edge != EdgeHold.Free || shape.Stretches.Count > 0) { return shape.Edge; }
        taken.Add("the board file's edge is free, as for a tap test, and a free board cannot bear strings: taken as on a rim (--edge says otherwise)");
        return EdgeHold.Rim;
    }

    private static BridgeFoot Bridge(BoardFile file, BoardShape shape, DeflectWish wish, List<string> taken)
    {
        Box? patch = OutlineSolving.Bridge(shape)?.Border[0].Bounds();
        if (wish.At is null && patch is null)
        {
            throw new InputException(file.Path, $"where the bridge stands is not known: add [bridge] or [{BoardFields.BridgePatchAt.Table.Name}] to the board file, or say --at \"{BoardFields.BridgePatchAt.Example}\" (from the lower end to its middle)");
        }

        if (patch is null && (wish.Along is null || wish.Across is null))
        {
            taken.Add($"size of the bridge's foot not given: {UsualAlong * 1000:F0} mm along by {UsualAcross * 1000:F0} mm across (common practice, no source)");
        }

        return new(
            wish.At ?? patch!.Value.Middle.X,
            wish.Along ?? (patch is { } p ? p.MaxX - p.MinX : UsualAlong),
            wish.Across ?? (patch is { } q ? q.MaxY - q.MinY : UsualAcross));
    }

    private static void CheckInside(BoardShape shape, Curve foot)
    {
        const int points = 40;
        var border = Enumerable.Range(0, points * foot.Segments.Count).Select(i => foot.At(i / (double)points)).ToList();
        if (!border.TrueForAll(shape.Outline.Contains))
        {
            throw new InputException("--at", "the bridge's foot reaches beyond the outline: move it (--at), or make it smaller (--along, --across)");
        }

        if (shape.Holes.Any(h => border.Exists(h.Contains) || foot.Contains(h.Segments[0].P0)))
        {
            throw new InputException("--at", "the bridge's foot reaches the soundhole: move it (--at), or make it smaller (--along, --across)");
        }
    }

    private static DeflectedRow Row(DeflectedPlace place) => new(place.At.X, place.At.Y, place.Deflection);

    private static SectionPoint[] CentreLine(BoardDeflection d)
    {
        Box box = d.Field.Nodes.Aggregate(Box.Empty, (b, p) => b.With(p));
        double near = 1e-3 * (box.MaxY - box.MinY);
        (ShapeField field, Func<IReadOnlyList<double>, double[]> values) = d.Field.Finer();
        double[,] grid = field.OnGrid(values(d.Deflection), new(box.MinX, -near, box.MaxX, near), SectionPoints, 3);
        return [.. Enumerable.Range(0, SectionPoints)
            .Select(i => new SectionPoint(box.MinX + (box.MaxX - box.MinX) * i / (SectionPoints - 1), grid[1, i]))
            .Where(p => double.IsFinite(p.Deflection))];
    }
}
