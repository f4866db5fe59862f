using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;

namespace SandwichMech.Core.Identification;

/// <summary>One mode of a free piece in air.</summary>
/// <param name="Frequency">Hz.</param>
/// <param name="Lines">Nodal lines met going along and going across, where they were counted and the shape has a plain count.</param>
/// <param name="Shape">Deflection at the nodes.</param>
/// <param name="Mode">The same shape in vacuo, with its products, for derivatives.</param>
/// <param name="PlateShare">The plate's share of the mass that moves; the air has the rest.</param>
public sealed record TapMode(double Frequency, (int Along, int Across)? Lines, double[] Shape, PlateMode Mode, double PlateShare);

/// <summary>A free rectangular plate whose modes in air are wanted again and again with other sections, on one mesh.</summary>
/// <remarks>
/// The plate is solved on its mesh for the piece that it was made for; other sections are solved by sums of the modes that are known (<see cref="TapBasis"/>), in about
/// a millisecond. <see cref="Prove"/> solves on the mesh again and lets the plate learn where the sums were off.
/// </remarks>
public sealed class TapPlate
{
    // What the mesh is estimated to be off by at most. In truth the first eleven modes are off by 0.03 %, the first twenty by 0.15 % (measured on plates and strips
    // of wood and on sandwiches, against two orders more).
    private const double MeshAccuracy = 3e-3;
    // Of the sums against the mesh: nothing beside what tones scatter by.
    private const double Accuracy = 5e-4;
    private const double FirstSizeShare = 0.25;
    // The band along the edges, in the width that boards take and at most in parts of the narrower side: long triangles, few of them.
    private const double Bands = 2, WidestBand = 0.15;

    private readonly PlateProblem _problem;
    private readonly int _count;
    private readonly Func<IReadOnlyList<double>, (int Along, int Across)?> _lines;
    private readonly double[] _areas;
    private readonly Func<IReadOnlyList<double[]>, double[,]> _air;
    private readonly int _order;
    private TapBasis _basis;

    /// <summary>Makes the mesh.</summary>
    /// <param name="sample">The piece, about as it will be found.</param>
    /// <param name="count">Modes wanted.</param>
    public TapPlate(Sample sample, int count)
    {
        _count = count;
        PlateSection section = Section(sample);
        Curve outline = Shapes.Rectangle(new Box(0, -sample.Width / 2, sample.Length, sample.Width / 2));
        double layer = Math.Min(Bands * BoardPlate.EdgeBand(section), WidestBand * Math.Min(sample.Length, sample.Width));
        var domain = new MeshDomain(outline, [], Offset.Inward(outline, layer, layer * 1e-3), _ => 0);
        PlateSolution plate = PlateSolver.Solve(
            size => new(PlateMesher.Mesh(domain, size), [section], _ => EdgeSupport.Free),
            FirstSizeShare * Math.Sqrt(sample.Length * sample.Width), count, MeshAccuracy, PlateSolver.BeyondForAir);
        (_problem, _order, _lines, _areas) = (plate.System.Problem, plate.Order, plate.Field.NodalCounter(), plate.Field.Areas());
        _air = AirVolume.Unbaffled(new AirPoints(plate.System.Mesh, plate.System.IntegralsOf, AirDetail.OfTaps));
        _basis = new(plate, Accuracy, _air);
        First = Counted(sample);
    }

    /// <summary>The modes of the piece that the plate was made for.</summary>
    public IReadOnlyList<TapMode> First { get; }

    /// <summary>The modes in air of the piece with other values, by sums of the modes that are known.</summary>
    /// <param name="sample">The piece.</param>
    /// <returns>Lowest first; their nodal lines are not counted.</returns>
    public IReadOnlyList<TapMode> Solve(Sample sample) => Basis(Section(sample)).Modes(Section(sample), _count, AmbientAir.Density);

    /// <summary>The same modes, proven on the mesh.</summary>
    /// <param name="sample">The piece.</param>
    /// <returns>Lowest first, with their nodal lines.</returns>
    public IReadOnlyList<TapMode> InAir(Sample sample)
    {
        Prove(sample);
        return Counted(sample);
    }

    /// <summary>Solves the piece on its mesh to see how good <see cref="Solve"/> is there; where it is not good enough, it is afterwards.</summary>
    /// <param name="sample">The piece.</param>
    /// <returns>Whether it was good enough before: no frequency off by more than 0.05 %.</returns>
    public bool Prove(Sample sample) => Basis(Section(sample)).Prove(Section(sample), _count) <= Accuracy;

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

    /// <summary>The modes by <see cref="Solve"/>, with their nodal lines.</summary>
    internal IReadOnlyList<TapMode> Counted(Sample sample) => Counted(Solve(sample));

    /// <summary>The same modes with their nodal lines.</summary>
    internal IReadOnlyList<TapMode> Counted(IReadOnlyList<TapMode> modes) => [.. modes.Select(m => m with { Lines = LinesOf(m.Shape) })];

    /// <summary>Nodal lines of a shape.</summary>
    internal (int Along, int Across)? LinesOf(double[] shape) => _lines(shape);

    // Skins that were alike and are so no more: the same mesh, with its plane moving too.
    private TapBasis Basis(PlateSection section) => _basis = _basis.Holds(section)
        ? _basis
        : new(PlateSolver.OnMesh(_problem with { Sections = [section] }, _count, _order, MeshAccuracy, PlateSolver.BeyondForAir), Accuracy, _air);
}
