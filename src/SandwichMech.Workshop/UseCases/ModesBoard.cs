using System.Globalization;
using System.Text.Json.Serialization;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Plates.Reduced;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;

namespace SandwichMech.Workshop.UseCases;

/// <summary>Shares of a mode's strain energy by kind.</summary>
public sealed record EnergyRow(double BendingAlong, double BendingAcross, double Twist, double Shear, double Membrane, double Bars);

/// <summary>What a small change does to a mode.</summary>
public sealed record SensitivityRow(string Input, string Change, double RelativeFrequencyChange);

/// <summary>One mode on the outline.</summary>
/// <param name="Number">From 1.</param>
/// <param name="NodalLines">Lines met going along × across, where the shape has a plain count.</param>
/// <param name="Frequency">Hz, in air unless the air was left out.</param>
/// <param name="InVacuo">Hz, the mode in vacuo that it mostly is.</param>
/// <param name="ModalMass">kg, seen where the mode moves most; the air's part is in it.</param>
/// <param name="ModalMassAtBridge">kg, seen by a force on the bridge's foot or patch; nothing without one, or where the mode rests there.</param>
/// <param name="RelativeNumericalError">Of the frequency.</param>
/// <param name="Energy">Where its energy sits.</param>
/// <param name="Sensitivities">What small changes do to it.</param>
public sealed record PlateModeRow(
    int Number,
    string? NodalLines,
    [property: JsonPropertyName("frequency_hz")] Prediction Frequency,
    [property: JsonPropertyName("frequency_in_vacuo_hz")] double InVacuo,
    [property: JsonPropertyName("modal_mass_at_antinode_kg")] double ModalMass,
    [property: JsonPropertyName("modal_mass_at_bridge_kg")] double? ModalMassAtBridge,
    double RelativeNumericalError,
    EnergyRow Energy,
    IReadOnlyList<SensitivityRow> Sensitivities);

/// <summary>A point of the mobility's curve.</summary>
public sealed record MobilityPoint(
    [property: JsonPropertyName("frequency_hz")] double Frequency,
    [property: JsonPropertyName("magnitude_s_per_kg")] double Magnitude,
    [property: JsonPropertyName("phase_rad")] double Phase);

/// <summary>Velocity per force at the bridge.</summary>
/// <param name="LossFactor">One over Q, of every mode.</param>
/// <param name="Residual">Static part of the modes left out, m/N.</param>
/// <param name="Typical">Geometric mean of the magnitude over the curve, s/kg.</param>
/// <param name="Means">What is in it.</param>
/// <param name="Curve">Rising frequency.</param>
public sealed record MobilityRow(
    double LossFactor,
    [property: JsonPropertyName("residual_m_per_n")] double Residual,
    [property: JsonPropertyName("typical_magnitude_s_per_kg")] double Typical,
    string Means,
    IReadOnlyList<MobilityPoint> Curve);

/// <summary>What `modes` answers.</summary>
public sealed record ModesResult
{
    /// <summary>The board's name.</summary>
    public required string Board { get; init; }
    /// <summary>How the edge is held.</summary>
    public required string Edge { get; init; }
    /// <summary>What is in the model and what is not.</summary>
    public required string Means { get; init; }
    /// <summary>How the air is taken: "none", "free to flow round the edge" or "in a baffle".</summary>
    public required string Air { get; init; }
    /// <summary>Density of the air, kg/m³; 0 where it is left out.</summary>
    [JsonPropertyName("air_density_kg_m3")] public required double AirDensity { get; init; }
    /// <summary>Area of the outline less the hole, m².</summary>
    [JsonPropertyName("area_m2")] public required double Area { get; init; }
    /// <summary>Mass with let-in wood, kg, at the medians.</summary>
    [JsonPropertyName("mass_kg")] public required double Mass { get; init; }
    /// <summary>Centre of mass from the lower end, m.</summary>
    [JsonPropertyName("centre_of_mass_x_m")] public required double CentreOfMassX { get; init; }
    /// <summary>Centre of mass from the centre line, m.</summary>
    [JsonPropertyName("centre_of_mass_y_m")] public required double CentreOfMassY { get; init; }
    /// <summary>Mobility at the bridge of a board whose edge is held; nothing otherwise.</summary>
    public required MobilityRow? MobilityAtBridge { get; init; }
    /// <summary>Mass by region, kg: the sandwich, then each let-in wood.</summary>
    public required IReadOnlyList<RegionMass> Regions { get; init; }
    /// <summary>Rigid-body modes that were found and left out.</summary>
    public required int RigidModes { get; init; }
    /// <summary>Triangles of the mesh.</summary>
    public required int Triangles { get; init; }
    /// <summary>Unknowns.</summary>
    public required int Unknowns { get; init; }
    /// <summary>How the intervals were found: by exact derivatives, or by sampled boards.</summary>
    public required string Intervals { get; init; }
    /// <summary>Boards that were sampled for them; 0 where none were.</summary>
    public required int SampledBoards { get; init; }
    /// <summary>Flexible modes, lowest first.</summary>
    public required IReadOnlyList<PlateModeRow> Modes { get; init; }
    /// <summary>What is unusual in the board file.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
    /// <summary>How typed spreads were read.</summary>
    public required IReadOnlyList<string> ReadBack { get; init; }
}

/// <summary>A region's part of the board.</summary>
public sealed record RegionMass(string Region, [property: JsonPropertyName("area_m2")] double Area, [property: JsonPropertyName("mass_kg")] double Mass);

/// <summary>The result and the shapes that it came from, which pictures and files need.</summary>
/// <param name="Result">What is shown and written as JSON.</param>
/// <param name="Field">Where the shapes are given.</param>
/// <param name="Shapes">Deflection of each mode at the nodes, in the order of the result.</param>
/// <param name="Shape">The board's outline and regions.</param>
public sealed record ModesAnswer(ModesResult Result, ShapeField Field, IReadOnlyList<double[]> Shapes, BoardShape Shape);

/// <summary>Solves a board on its outline.</summary>
public static class ModesBoard
{
    /// <summary>Loss factor of a board's modes: Q 70; 50 to 100 is common practice, no source.</summary>
    public const double UsualLoss = 1 / 70.0;

    /// <summary>Solves.</summary>
    /// <param name="file">The board as read.</param>
    /// <param name="count">Flexible modes wanted, 1 to 60.</param>
    /// <param name="accuracy">Wanted relative numerical error.</param>
    /// <param name="inAir">Whether the air's mass is taken along.</param>
    /// <param name="loss">Loss factor of the modes in the mobility.</param>
    /// <param name="sampled">Intervals from sampled boards, in the place of exact derivatives.</param>
    /// <returns>The modes and their shapes.</returns>
    /// <exception cref="InputException">The board has no outline, or one that cannot be meshed.</exception>
    public static ModesAnswer Run(BoardFile file, int count, double accuracy, bool inAir = true, double loss = UsualLoss, SampleWish? sampled = null)
    {
        Board board = file.Board.ForModes();
        BoardShape shape = OutlineSolving.ShapeOf(file, "modes", "`sandwichmech estimate` gives rough modes without it");
        if (sampled is not null && shape.IsHeld(EdgeHold.Rim, shape.Edge))
        {
            throw new InputException("--samples", "a rim's hold, of which next to nothing is known, cannot be sampled yet: leave --samples out, and the intervals hold it by exact derivatives; or hold the edge otherwise");
        }

        BoardSolution solution = OutlineSolving.Try(file, "modes", () => BoardPlate.Solve(board, count, accuracy, inAir ? PlateSolver.BeyondForAir : 0));
        PlateSolution plate = solution.Plate;
        bool baffled = shape.Edge != EdgeHold.Free;
        // All that were solved for: the mobility takes those beyond the wanted ones too.
        IReadOnlyList<AirMode> air = inAir ? plate.InAir(baffled, AmbientAir.Density, count + PlateSolver.BeyondForAir).Modes : [];
        PlateAction? bridge = OutlineSolving.Bridge(shape) is { } foot ? new(PlatePush.Deflect, foot.Border[0]) : null;
        double[] atBridge = bridge is null ? [] : inAir ? [.. air.Select(m => plate.At(bridge, m))] : [.. plate.At(bridge)];
        double[][] shapes = [.. Enumerable.Range(0, count).Select(i => inAir ? [.. air[i].Shape] : plate.Shape(i))];
        IReadOnlyList<PlateMode> modes = inAir ? plate.InAir([.. air.Take(count)]) : [.. plate.Modes.Take(count)];
        RegionMass[] regions = [.. shape.Parts.GroupBy(p => NameOf(shape, p)).Select(g => new RegionMass(g.Key, g.Sum(p => p.Area), g.Sum(board.MassOf)))];
        IReadOnlyList<Prediction> frequencies = BoardModes.Frequencies(board, solution, modes);
        SampledModes? drawn = sampled is null ? null : OutlineSolving.Try(file, "modes", () => Sampled(board, count, inAir, sampled));
        if (drawn is not null) { frequencies = [.. frequencies.Zip(drawn.Modes, (f, s) => f with { Low50 = s.Low50, High50 = s.High50, Low90 = s.Low90, High90 = s.High90 })]; }
        IReadOnlyList<IReadOnlyList<ModeSensitivity>> sensitivities = BoardModes.Sensitivities(board, solution, modes);
        return new(new()
        {
            Board = board.Name,
            Edge = OutlineSolving.EdgeWords(shape),
            Means = Means(inAir, baffled, OutlineSolving.NotIn(shape, "box")) + (shape.IsHeld(EdgeHold.Rim, shape.Edge) ? $"; {OutlineSolving.RimMeans}" : ""),
            Air = !inAir ? "none" : baffled ? "in a baffle" : "free to flow round the edge",
            AirDensity = inAir ? AmbientAir.Density : 0,
            Area = regions.Sum(r => r.Area),
            Mass = regions.Sum(r => r.Mass),
            Regions = regions,
            CentreOfMassX = plate.CentreOfMass.X,
            CentreOfMassY = plate.CentreOfMass.Y,
            MobilityAtBridge = bridge is not null && baffled
                ? Mobility(new(inAir ? [.. air.Select(m => m.Frequency)] : [.. plate.Modes.Select(m => m.Frequency)], atBridge, plate.Residual(bridge), loss), count)
                : null,
            RigidModes = plate.RigidModes,
            Triangles = plate.Triangles,
            Unknowns = plate.Unknowns,
            Intervals = drawn is null ? SampleWish.ByDerivatives
                : string.Create(CultureInfo.InvariantCulture, $"by {drawn.Boards} sampled boards (seed {sampled!.Seed}), modes in the order of their frequencies; what they mostly come from by exact derivatives"),
            SampledBoards = drawn?.Boards ?? 0,
            Modes = [.. modes.Select((mode, i) => new PlateModeRow(
                i + 1,
                plate.Field.NodalCounts(shapes[i]) is { } counts ? $"{counts.Along} × {counts.Across}" : null,
                frequencies[i],
                inAir ? mode.Frequency / air[i].Ratio : mode.Frequency,
                ModalMass.AtAntinode(shapes[i]),
                bridge is null ? null : ModalMass.At(atBridge[i], plate.Mass),
                mode.Error,
                new(mode.Energy.Along, mode.Energy.Across, mode.Energy.Twist, mode.Energy.Shear, mode.Energy.Membrane, mode.Energy.Bars),
                [.. sensitivities[i].Select(x => new SensitivityRow(x.Input, x.Change, x.RelativeChange))]))],
            Warnings =
            [
                .. file.Warnings.Select(w => w.ToString()), .. OutlineSolving.ShortWaves(board, modes.Max(m => m.Frequency)),
                .. drawn is { Left: > 0 } ? [string.Create(CultureInfo.InvariantCulture, $"{drawn.Left} of {drawn.Left + drawn.Boards} sampled boards were left out: the reduced model does not answer for them as closely as was asked")] : Array.Empty<string>(),
            ],
            ReadBack = file.ReadBack,
        }, plate.Field, shapes, shape);
    }

    private static SampledModes Sampled(Board board, int count, bool inAir, SampleWish wish)
    {
        ReducedPlate model = wish.Models.For(board, ModeSampling.RangeOf(board), ModeSampling.OptionsFor(board, count), p => wish.Progress(string.Create(
            CultureInfo.InvariantCulture, $"reduced model of this outline, once: {p.Solves} plates solved"), p.Fraction));
        SampledModes drawn = ModeSampling.Of(model, board, wish.Boards, wish.Seed, inAir ? AmbientAir.Density : 0, share => wish.Progress("boards sampled", share));
        return drawn.Boards >= 2 ? drawn : throw new InvalidOperationException("The reduced model answers for none of the sampled boards.");
    }

    internal static string Means(bool inAir, bool baffled, string notIn) =>
        !inAir ? $"{OutlineSolving.Model}, in vacuo: no air, {notIn}; air lowers a free board's first modes by some 3 to 6 %, a framed one's by 5 to 16 %"
        : baffled ? $"{OutlineSolving.Model}, with the air on both faces moving as in an infinite baffle, the hole shut; {notIn}; above some 200 to 300 Hz a framed board also radiates, which this does not describe"
        : $"{OutlineSolving.Model}, with the air on both faces free to flow round the edge and through the hole; {notIn}";

    private static MobilityRow Mobility(PointMobility mobility, int count)
    {
        var curve = MobilityCurve.Of(mobility, count);
        return new(mobility.Loss, mobility.Residual, curve.Typical,
            "from the modes with one loss factor and the static residual of those left out; no radiated sound and no air in a box",
            [.. curve.Points.Select(p => new MobilityPoint(p.Frequency, p.Value.Magnitude, p.Value.Phase))]);
    }

    private static string NameOf(BoardShape shape, BoardPart part) =>
        string.Join(" + ", part.Regions.Select(r => shape.Regions[r]).Where(r => r.IsPart).Select(r => r.Name).DefaultIfEmpty("sandwich"));
}
