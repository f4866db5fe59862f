using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;

namespace SandwichMech.Core.Identification;

/// <summary>One mode of a free piece in air.</summary>
/// <param name="Frequency">Hz.</param>
/// <param name="Lines">Nodal lines met going along and going across, where the shape has a plain count.</param>
/// <param name="Shape">Deflection at the nodes.</param>
/// <param name="Mode">In vacuo, with its products, for derivatives.</param>
/// <param name="PlateShare">The plate's share of the mass that moves; the air has the rest.</param>
public sealed record TapMode(double Frequency, (int Along, int Across)? Lines, double[] Shape, PlateMode Mode, double PlateShare);

/// <summary>A free rectangular plate whose modes are solved for again and again with other sections on one mesh.</summary>
/// <remarks>
/// What share of a mode's mass the air has depends on its shape and the plate's mass, and hardly changes while a fit moves its moduli: it is solved for when a fit
/// begins and when it has settled (<see cref="InAir(Sample)"/>), and in between taken from the mode of the likest shape.
/// </remarks>
public sealed class TapPlate
{
    // Against what tones scatter, the mesh's error is nothing at this accuracy.
    private const double Accuracy = 3e-3;
    private const double FirstSizeShare = 0.25, WidestBand = 0.1;

    private readonly PlateProblem _problem;
    private readonly int _count, _order;
    private readonly double[] _areas;
    private List<TapMode> _inAir;

    /// <summary>Makes the mesh.</summary>
    /// <param name="sample">The piece, about as it will be found.</param>
    /// <param name="count">Modes wanted.</param>
    public TapPlate(Sample sample, int count)
    {
        _count = count;
        PlateSection section = Section(sample);
        Curve outline = Shapes.Rectangle(new Box(0, -sample.Width / 2, sample.Length, sample.Width / 2));
        double layer = Math.Min(BoardPlate.EdgeBand(section), WidestBand * Math.Min(sample.Length, sample.Width));
        var domain = new MeshDomain(outline, [], Offset.Inward(outline, layer, layer * 1e-3), _ => 0);
        PlateProblem problem = null!;
        PlateSolution plate = PlateSolver.Solve(
            size => problem = new(PlateMesher.Mesh(domain, size), [section], _ => EdgeSupport.Free),
            FirstSizeShare * Math.Sqrt(sample.Length * sample.Width), count, Accuracy, PlateSolver.BeyondForAir);
        (_problem, _order, _areas) = (problem, plate.Order, plate.Field.Areas());
        First = _inAir = WithAir(plate);
    }

    /// <summary>The modes of the piece that the mesh was made for.</summary>
    public IReadOnlyList<TapMode> First { get; }

    /// <summary>The modes of the piece with other values, the air's share taken from the likest mode that is known in air.</summary>
    /// <param name="sample">The piece.</param>
    /// <returns>Lowest first.</returns>
    public IReadOnlyList<TapMode> Solve(Sample sample)
    {
        PlateSolution plate = PlateSolver.OnMesh(_problem with { Sections = [Section(sample)] }, _count, _order, Accuracy);
        return [.. plate.Modes.Select((mode, i) =>
        {
            double[] shape = plate.Shape(i);
            TapMode like = _inAir[MostLike(shape, _inAir)];
            return new TapMode(mode.Frequency * Math.Sqrt(like.PlateShare), null, shape, mode, like.PlateShare);
        })];
    }

    /// <summary>The modes of the piece with other values, the air solved for.</summary>
    /// <param name="sample">The piece.</param>
    /// <returns>Lowest first, with their nodal lines.</returns>
    public IReadOnlyList<TapMode> InAir(Sample sample) =>
        _inAir = WithAir(PlateSolver.OnMesh(_problem with { Sections = [Section(sample)] }, _count, _order, Accuracy, PlateSolver.BeyondForAir));

    /// <summary>Relative change of a mode's frequency for a changed piece, to first order: the air's mass stays.</summary>
    /// <param name="mode">The mode.</param>
    /// <param name="own">The piece that it is of.</param>
    /// <param name="changed">The changed piece.</param>
    /// <returns>df/f.</returns>
    public static double Change(TapMode mode, Sample own, Sample changed)
    {
        PlateSection before = Section(own), after = Section(changed);
        RegionShare region = mode.Mode.Regions[0];
        double omega2 = Math.Pow(2 * Math.PI * mode.Mode.Frequency, 2);
        return (region.Stiffness(after) - region.Stiffness(before)) / (2 * omega2) - mode.PlateShare * (region.Inertia(after) - region.Inertia(before)) / 2;
    }

    /// <summary>Number of the mode whose shape is most like a given one, on the same mesh.</summary>
    /// <param name="shape">The shape.</param>
    /// <param name="modes">The modes.</param>
    /// <param name="taken">Numbers that are not to be given again.</param>
    public int MostLike(double[] shape, IReadOnlyList<TapMode> modes, IReadOnlyCollection<int>? taken = null) =>
        ShapeField.MostLike(shape, [.. modes.Select(m => m.Shape)], _areas, taken);

    private static PlateSection Section(Sample sample) => PlateSection.Of(sample.Layup(underWeight: false));

    private List<TapMode> WithAir(PlateSolution plate)
    {
        IReadOnlyList<AirMode> air = plate.InAir(false, AmbientAir.Density, _count).Modes;
        return [.. air.Select(m =>
        {
            // The air mixes modes next to nothing: each has its own in vacuo.
            PlateMode mode = plate.Modes[Math.Min(m.Nearest, plate.Modes.Count - 1)];
            double[] shape = [.. m.Shape];
            return new TapMode(m.Frequency, plate.Field.NodalCounts(shape), shape, mode, Math.Pow(m.Frequency / mode.Frequency, 2));
        })];
    }
}
