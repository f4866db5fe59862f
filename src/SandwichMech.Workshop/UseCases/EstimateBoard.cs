using System.Text.Json.Serialization;
using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;

namespace SandwichMech.Workshop.UseCases;

/// <summary>One layer of the estimate's layup.</summary>
public sealed record LayerRow(
    string Layer,
    string Material,
    [property: JsonPropertyName("thickness_m")] double Thickness,
    [property: JsonPropertyName("areal_density_kg_m2")] double ArealDensity,
    [property: JsonPropertyName("share_of_mass")] double ShareOfMass,
    [property: JsonPropertyName("share_of_bending_stiffness_along")] double ShareAlong,
    [property: JsonPropertyName("share_of_bending_stiffness_across")] double ShareAcross);

/// <summary>One mode of the equivalent rectangle.</summary>
public sealed record ModeRow(int HalfWavesAlong, int HalfWavesAcross, [property: JsonPropertyName("frequency_hz")] Prediction Frequency);

/// <summary>The equivalent rectangle, its edge and its modes.</summary>
public sealed record RectangleModes(
    [property: JsonPropertyName("length_m")] double Length,
    [property: JsonPropertyName("width_m")] double Width,
    string Means,
    IReadOnlyList<ModeRow> Modes);

/// <summary>The solid top of equal stiffness by one criterion.</summary>
/// <param name="Criterion">What is held equal.</param>
/// <param name="Wood">The solid's wood.</param>
/// <param name="By">On what it was looked at: the layup alone, the board's outline, a strip along the grain, a hinged rectangle.</param>
/// <param name="Thickness">m.</param>
/// <param name="Mass">kg on the board's area.</param>
/// <param name="Saved">kg, solid minus board.</param>
/// <param name="SavedShare">The same, of the solid's mass.</param>
public sealed record SolidRow(
    string Criterion,
    string Wood,
    string By,
    [property: JsonPropertyName("thickness_m")] Prediction Thickness,
    [property: JsonPropertyName("mass_kg")] Prediction Mass,
    [property: JsonPropertyName("saved_kg")] Prediction Saved,
    [property: JsonPropertyName("saved_share")] Prediction SavedShare);

/// <summary>How much of a figure's variance one input brings, by sampled boards.</summary>
/// <param name="Figure">As it stands on the screen.</param>
/// <param name="Input">The input.</param>
/// <param name="FirstOrder">Sobol' index of first order: the share that goes once the input is known.</param>
/// <param name="Total">Total index: what it brings together with others too.</param>
/// <param name="StandardError">Of the first order, from the number of boards.</param>
public sealed record SourceRow(string Figure, string Input, double FirstOrder, double Total, double StandardError)
{
    // Shares below are no help in what to measure.
    private const double Least = 0.01;

    internal static IReadOnlyList<SourceRow> Of(Sampled<BoardFigures> drawn)
    {
        (string Name, Func<BoardFigures, double> Figure)[] main =
        [
            ("bending stiffness along", f => f.Laminate.Bending.M11), ("bending stiffness across", f => f.Laminate.Bending.M22), ("twisting stiffness", f => f.Laminate.Bending.M66),
            ("areal density", f => f.Laminate.ArealMass), ("mass", f => f.Mass),
        ];
        return [.. main.SelectMany(m => drawn.Indices(f => Math.Log(m.Figure(f))).Where(i => i.Total > Least).Select(i => new SourceRow(m.Name, i.Input, i.First, i.Total, i.FirstError)))];
    }
}

/// <summary>Membrane, coupling and bending stiffness, each in the order 11, 12, 22, 16, 26, 66; the reference plane is at half the thickness.</summary>
public sealed record StiffnessMatrices(
    [property: JsonPropertyName("a_n_per_m")] IReadOnlyList<double> A,
    [property: JsonPropertyName("b_n")] IReadOnlyList<double> B,
    [property: JsonPropertyName("d_n_m")] IReadOnlyList<double> D,
    [property: JsonPropertyName("reduced_d_n_m")] IReadOnlyList<double> ReducedD);

/// <summary>What `estimate` answers: how stiff, how heavy, roughly where the modes are, and what solid top it equals.</summary>
public sealed record EstimateResult
{
    /// <summary>The board's name.</summary>
    public required string Board { get; init; }
    /// <summary>Layers, outer face first.</summary>
    public required IReadOnlyList<LayerRow> Layers { get; init; }
    /// <summary>Total thickness, m.</summary>
    [JsonPropertyName("thickness_m")] public required Prediction Thickness { get; init; }
    /// <summary>Area that the masses belong to, m².</summary>
    [JsonPropertyName("area_m2")] public required double Area { get; init; }
    /// <summary>D11 of D − BA⁻¹B, N·m.</summary>
    [JsonPropertyName("bending_stiffness_along_n_m")] public required Prediction StiffnessAlong { get; init; }
    /// <summary>D22, N·m.</summary>
    [JsonPropertyName("bending_stiffness_across_n_m")] public required Prediction StiffnessAcross { get; init; }
    /// <summary>D66, N·m.</summary>
    [JsonPropertyName("twisting_stiffness_n_m")] public required Prediction StiffnessTwist { get; init; }
    /// <summary>S along, N/m.</summary>
    [JsonPropertyName("shear_stiffness_along_n_per_m")] public required Prediction ShearAlong { get; init; }
    /// <summary>S across, N/m.</summary>
    [JsonPropertyName("shear_stiffness_across_n_per_m")] public required Prediction ShearAcross { get; init; }
    /// <summary>Young's modulus of the solid strip of the same thickness and stiffness, along, Pa.</summary>
    [JsonPropertyName("flexural_modulus_along_pa")] public required Prediction ModulusAlong { get; init; }
    /// <summary>The same across, Pa.</summary>
    [JsonPropertyName("flexural_modulus_across_pa")] public required Prediction ModulusAcross { get; init; }
    /// <summary>Young's modulus in stretching along, Pa.</summary>
    [JsonPropertyName("membrane_modulus_along_pa")] public required double MembraneModulusAlong { get; init; }
    /// <summary>Young's modulus in stretching across, Pa.</summary>
    [JsonPropertyName("membrane_modulus_across_pa")] public required double MembraneModulusAcross { get; init; }
    /// <summary>Neutral plane for bending along, m outward from half the thickness.</summary>
    [JsonPropertyName("neutral_plane_along_m")] public required double NeutralPlaneAlong { get; init; }
    /// <summary>Neutral plane for bending across, m.</summary>
    [JsonPropertyName("neutral_plane_across_m")] public required double NeutralPlaneAcross { get; init; }
    /// <summary>Areal density with both bond lines, kg/m².</summary>
    [JsonPropertyName("areal_density_kg_m2")] public required Prediction ArealDensity { get; init; }
    /// <summary>Mass on the area, kg.</summary>
    [JsonPropertyName("mass_kg")] public required Prediction Mass { get; init; }
    /// <summary>Adhesive kept in both bond lines, kg.</summary>
    [JsonPropertyName("adhesive_kept_kg")] public required Prediction AdhesiveKept { get; init; }
    /// <summary>Rotary inertia per area about half the thickness, kg.</summary>
    [JsonPropertyName("rotary_inertia_kg")] public required double RotaryInertia { get; init; }
    /// <summary>Frequency above which shear takes more than 10 % of the stiffness along, Hz.</summary>
    [JsonPropertyName("softening_frequency_along_hz")] public required Prediction SofteningAlong { get; init; }
    /// <summary>The same across, Hz.</summary>
    [JsonPropertyName("softening_frequency_across_hz")] public required Prediction SofteningAcross { get; init; }
    /// <summary>Approximate modes; none where length and width are not given, or where the outline is.</summary>
    public required RectangleModes? Rectangle { get; init; }
    /// <summary>Modes on the board's own outline; none where it is not given.</summary>
    public required ModesResult? Outline { get; init; }
    /// <summary>The solid top of equal stiffness by the board's criterion.</summary>
    public required SolidRow Solid { get; init; }
    /// <summary>How the intervals were found: by exact derivatives, or by sampled boards.</summary>
    public required string Intervals { get; init; }
    /// <summary>Boards that were sampled for them; 0 where none were.</summary>
    public required int SampledBoards { get; init; }
    /// <summary>Sobol' indices of the main figures; none where no boards were sampled.</summary>
    public required IReadOnlyList<SourceRow> Sources { get; init; }
    /// <summary>A, B, D and D − BA⁻¹B.</summary>
    public required StiffnessMatrices Matrices { get; init; }
    /// <summary>What is unusual in the board file, and what the theory leaves out for this board.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
    /// <summary>How typed spreads were read.</summary>
    public required IReadOnlyList<string> ReadBack { get; init; }
}

/// <summary>Estimates a board before wood is cut.</summary>
public static class EstimateBoard
{
    /// <summary>What the rectangle stands for, said wherever its modes are shown.</summary>
    public const string RectangleMeans =
        "approximate: a hinged rectangle of the board's area and proportions in place of its outline, without air, soundhole, bridge or braces";

    private const double OutlineAccuracy = 3e-3;

    /// <summary>Estimates a board.</summary>
    /// <param name="file">The board as read.</param>
    /// <param name="sampled">Intervals of the layup's figures from sampled boards, in the place of exact derivatives.</param>
    /// <returns>All figures with their intervals.</returns>
    public static EstimateResult Run(BoardFile file, SampleWish? sampled = null)
    {
        Board board = file.Board.UnderWeight();
        IPredicting<BoardFigures> figures = SolidsOnOutline.Figures(file, board, sampled?.Draws());
        BoardFigures f = figures.Nominal;
        Laminate laminate = f.Laminate;
        ModesResult? outline = board.Shape is null ? null : ModesBoard.Run(file, BoardFigures.ModeCount, OutlineAccuracy).Result;
        return new()
        {
            Board = board.Name,
            Layers = Layers(board, laminate),
            Thickness = figures.Positive(x => x.Laminate.Thickness),
            Area = board.Size.Area,
            StiffnessAlong = figures.Positive(x => x.Laminate.Bending.M11),
            StiffnessAcross = figures.Positive(x => x.Laminate.Bending.M22),
            StiffnessTwist = figures.Positive(x => x.Laminate.Bending.M66),
            ShearAlong = figures.Positive(x => x.Laminate.Shear.Sx),
            ShearAcross = figures.Positive(x => x.Laminate.Shear.Sy),
            ModulusAlong = figures.Positive(x => x.Laminate.FlexuralModulusAlong),
            ModulusAcross = figures.Positive(x => x.Laminate.FlexuralModulusAcross),
            MembraneModulusAlong = laminate.MembraneModulusAlong,
            MembraneModulusAcross = laminate.MembraneModulusAcross,
            NeutralPlaneAlong = laminate.NeutralPlaneAlong,
            NeutralPlaneAcross = laminate.NeutralPlaneAcross,
            ArealDensity = figures.Positive(x => x.Laminate.ArealMass),
            Mass = figures.Positive(x => x.Mass),
            AdhesiveKept = figures.Positive(x => x.AdhesiveKept),
            RotaryInertia = laminate.RotaryInertia,
            SofteningAlong = figures.Positive(x => x.SofteningAlong),
            SofteningAcross = figures.Positive(x => x.SofteningAcross),
            Outline = outline,
            Rectangle = board.Shape is null && f.Rectangle is { } r
                ? new(r.Length, r.Width, RectangleMeans, [.. f.Modes.Select(m => new ModeRow(m.HalfWavesAlong, m.HalfWavesAcross, figures.Positive(x => x.FrequencyOf(m))))])
                : null,
            Solid = new SolidsOnOutline(file, figures).Row(file.Criterion),
            Intervals = SampleWish.Words(sampled, outline is null ? null : StiffnessMeasure.NeedsRectangle(file.Criterion) ? "modes and the solid top on the outline" : "modes on the outline"),
            SampledBoards = sampled?.Boards ?? 0,
            Sources = figures is Sampled<BoardFigures> drawn ? SourceRow.Of(drawn) : [],
            Matrices = new(Components(laminate.A), Components(laminate.B), Components(laminate.D), Components(laminate.Bending)),
            Warnings = [.. file.Warnings.Select(w => w.ToString()), .. Cautions(board), .. Highest(outline, f) is { } highest ? OutlineSolving.ShortWaves(board, highest) : []],
            ReadBack = file.ReadBack,
        };
    }

    private static double? Highest(ModesResult? outline, BoardFigures figures) =>
        outline?.Modes[^1].Frequency.Value ?? (figures.Modes.Count > 0 ? figures.Modes[^1].Frequency : null);

    internal static SolidRow Solid(IPredicting<BoardFigures> figures, Board board, StiffnessCriterion criterion, string by)
    {
        SolidEquivalent Pick(BoardFigures x) => x.Solids.First(s => s.Criterion == criterion);
        return new(
            BoardFields.NameOf(criterion),
            board.Solid.Wood.Name,
            by,
            figures.Positive(x => Pick(x).Thickness),
            figures.Positive(x => Pick(x).Mass),
            figures.OfEitherSign(x => Pick(x).Saved),
            figures.OfEitherSign(x => Pick(x).SavedShare));
    }

    internal static IReadOnlyList<string> Cautions(Board board)
    {
        var cautions = new List<string>();
        // On an outline both couplings are in the plate.
        if (board.Shape is not null) { return cautions; }
        if (board.Outer.GrainAngle != 0 || board.Inner.GrainAngle != 0)
        {
            cautions.Add("the rectangle's modes leave out the twist that a turned grain couples to bending (terms 16 and 26); stiffness and mass include it");
        }

        if (board.Core.RibbonAngle is not (0 or Math.PI / 2))
        {
            cautions.Add("the rectangle's modes leave out the shear coupling of a ribbon that lies neither along nor across (S45)");
        }

        return cautions;
    }

    private static LayerRow[] Layers(Board board, Laminate laminate)
    {
        string[] materials = [board.Inner.Wood.Name, board.Adhesive.Name, board.Core.Material.Name, board.Adhesive.Name, board.Outer.Wood.Name];
        return [.. laminate.Shares().Zip(materials, (s, material) => new LayerRow(
            s.Name, material, s.Thickness, s.ArealMass, s.ArealMass / laminate.ArealMass,
            s.StiffnessAlong / laminate.Bending.M11, s.StiffnessAcross / laminate.Bending.M22)).Reverse()];
    }

    private static double[] Components(Sym3 m) => [m.M11, m.M12, m.M22, m.M16, m.M26, m.M66];
}
