using System.Text.Json.Serialization;
using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;

namespace SandwichMech.Workshop.UseCases;

/// <summary>The skins of the board's core that equal the solid top that the board file names, by one criterion.</summary>
public sealed record MatchRow(
    string Criterion,
    [property: JsonPropertyName("outer_skin_m")] double? Outer,
    [property: JsonPropertyName("inner_skin_m")] double? Inner,
    [property: JsonPropertyName("mass_kg")] double? Mass,
    [property: JsonPropertyName("saved_kg")] double? Saved,
    [property: JsonPropertyName("saved_share")] double? SavedShare);

/// <summary>The solid top that the board file names, and the board measured against it.</summary>
public sealed record NamedSolid(
    string Wood,
    [property: JsonPropertyName("thickness_m")] double Thickness,
    [property: JsonPropertyName("mass_kg")] double Mass,
    [property: JsonPropertyName("bending_stiffness_along_n_m")] double StiffnessAlong,
    [property: JsonPropertyName("bending_stiffness_across_n_m")] double StiffnessAcross,
    [property: JsonPropertyName("board_over_solid_along")] Prediction Along,
    [property: JsonPropertyName("board_over_solid_across")] Prediction Across,
    [property: JsonPropertyName("board_over_solid_mass")] Prediction MassRatio,
    IReadOnlyList<MatchRow> MatchingSkins);

/// <summary>One plate on a curve of stiffness against areal density.</summary>
public sealed record MeritPoint(
    [property: JsonPropertyName("thickness_m")] double Thickness,
    [property: JsonPropertyName("areal_density_kg_m2")] double ArealDensity,
    [property: JsonPropertyName("bending_stiffness_along_n_m")] double Along,
    [property: JsonPropertyName("bending_stiffness_across_n_m")] double Across);

/// <summary>A family of plates that differ in one thickness: the board with its skins scaled, or a solid plate.</summary>
public sealed record MeritCurve(string Name, bool IsSandwich, IReadOnlyList<MeritPoint> Points);

/// <summary>What `compare` answers: the solid top of equal stiffness by every criterion, and the reverse.</summary>
public sealed record CompareResult
{
    /// <summary>The board's name.</summary>
    public required string Board { get; init; }
    /// <summary>The criterion that the board file asks for.</summary>
    public required string Criterion { get; init; }
    /// <summary>Area that the masses belong to, m².</summary>
    [JsonPropertyName("area_m2")] public required double Area { get; init; }
    /// <summary>The board's mass, kg.</summary>
    [JsonPropertyName("mass_kg")] public required Prediction Mass { get; init; }
    /// <summary>The solid of equal stiffness, by each criterion that can be used.</summary>
    public required IReadOnlyList<SolidRow> Solids { get; init; }
    /// <summary>The solid top of the maker's choice; none where the board file gives no thickness.</summary>
    public required NamedSolid? NamedSolid { get; init; }
    /// <summary>The board's D along, N·m.</summary>
    [JsonPropertyName("bending_stiffness_along_n_m")] public required Prediction StiffnessAlong { get; init; }
    /// <summary>The board's D across, N·m.</summary>
    [JsonPropertyName("bending_stiffness_across_n_m")] public required Prediction StiffnessAcross { get; init; }
    /// <summary>The board's areal density, kg/m².</summary>
    [JsonPropertyName("areal_density_kg_m2")] public required Prediction ArealDensity { get; init; }
    /// <summary>Stiffness against areal density: the board with its skins scaled, and solid plates of its woods.</summary>
    public required IReadOnlyList<MeritCurve> Curves { get; init; }
    /// <summary>What the criteria that need more than the layup were looked at on.</summary>
    public required IReadOnlyList<string> Means { get; init; }
    /// <summary>How the intervals were found: by exact derivatives, or by sampled boards.</summary>
    public required string Intervals { get; init; }
    /// <summary>Boards that were sampled for them; 0 where none were.</summary>
    public required int SampledBoards { get; init; }
    /// <summary>What is unusual or left out.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
}

/// <summary>Compares a board with the solid top that it replaces.</summary>
public static class CompareBoard
{
    /// <summary>Compares.</summary>
    /// <param name="file">The board as read.</param>
    /// <param name="progress">Told the share done, 0 to 1.</param>
    /// <param name="sampled">Intervals of the layup's figures from sampled boards, in the place of exact derivatives.</param>
    /// <returns>Both directions of the comparison.</returns>
    /// <exception cref="InputException">No solid top equals the board, or its outline cannot be meshed.</exception>
    public static CompareResult Run(BoardFile file, Action<double>? progress = null, SampleWish? sampled = null)
    {
        // What is compared is how stiff they are, and a solid top is of the tables.
        file = file with { Board = file.Board.UnderWeight() };
        Board board = file.Board;
        IPredicting<BoardFigures> figures = SolidsOnOutline.Figures(file, board, sampled?.Draws());
        var equals = new SolidsOnOutline(file, figures);
        StiffnessCriterion[] criteria = [.. figures.Nominal.Solids.Select(s => s.Criterion)];
        bool both = board.Solid.Thickness is not null;
        int done = 0, steps = criteria.Length * (both ? 2 : 1);
        SolidRow[] solids = [.. criteria.Select(c => Told(equals.Row(c)))];
        NamedSolid? named = both ? Named(board, sampled, [.. criteria.Select(c => Told(Row(c, equals.Skins(c))))]) : null;
        return new()
        {
            Board = board.Name,
            Criterion = BoardFields.NameOf(file.Criterion),
            Area = board.Size.Area,
            Mass = figures.Positive(x => x.Mass),
            Solids = solids,
            NamedSolid = named,
            StiffnessAlong = figures.Positive(x => x.Laminate.Bending.M11),
            StiffnessAcross = figures.Positive(x => x.Laminate.Bending.M22),
            ArealDensity = figures.Positive(x => x.Laminate.ArealMass),
            Curves = Curves(board),
            Means = equals.Means(criteria),
            Intervals = SampleWish.Words(sampled, criteria.Any(c => equals.On(c) is not null) ? "what is held equal on the outline" : null),
            SampledBoards = sampled?.Boards ?? 0,
            Warnings = [.. file.Warnings.Select(w => w.ToString()), .. EstimateBoard.Cautions(board)],
        };

        T Told<T>(T row)
        {
            progress?.Invoke((double)++done / steps);
            return row;
        }
    }

    private static MeritCurve[] Curves(Board board)
    {
        var sandwich = Enumerable.Range(0, 25).Select(i => 0.3e-3 + i * 0.05e-3)
            .Select(t => Point(t, SweepBoard.With(board, "skins", t).Laminate()));
        var woods = new[] { board.Solid.Wood, board.Outer.Wood, board.Inner.Wood }.DistinctBy(w => w.Name);
        return
        [
            new($"sandwich, {board.Core.Material.Name}", true, [.. sandwich]),
            .. woods.Select(w => new MeritCurve($"solid {w.Name}", false,
                [.. Enumerable.Range(0, 31).Select(i => 1e-3 + i * 0.1e-3).Select(t => Point(t, Board.SolidPlate(w, t)))])),
        ];

        static MeritPoint Point(double t, Laminate l) => new(t, l.ArealMass, l.Bending.M11, l.Bending.M22);
    }

    private static NamedSolid Named(Board board, SampleWish? sampled, MatchRow[] skins)
    {
        IPredicting<Ratios> ratios = sampled is null ? Propagation.Through(board, BoardInputs.Of(board), Over) : Sampled.Through(board, BoardInputs.All(board), Over, sampled.Draws());
        Laminate named = SolidOf(board);
        return new(
            board.Solid.Wood.Name,
            named.Thickness,
            named.ArealMass * board.Size.Area,
            named.Bending.M11,
            named.Bending.M22,
            ratios.Positive(r => r.Along),
            ratios.Positive(r => r.Across),
            ratios.Positive(r => r.Mass),
            skins);

        static Ratios Over(Board b)
        {
            Laminate sandwich = b.Laminate(), solid = SolidOf(b);
            return new(sandwich.Bending.M11 / solid.Bending.M11, sandwich.Bending.M22 / solid.Bending.M22, sandwich.ArealMass / solid.ArealMass);
        }

        static Laminate SolidOf(Board b) => Board.SolidPlate(b.Solid.Wood, b.Solid.Thickness!.Value.Value);
    }

    private sealed record Ratios(double Along, double Across, double Mass);

    private static MatchRow Row(StiffnessCriterion criterion, MatchingSkins? match) =>
        new(BoardFields.NameOf(criterion), match?.Outer, match?.Inner, match?.Mass, match?.Saved, match?.SavedShare);
}
