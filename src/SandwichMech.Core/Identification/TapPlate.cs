using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;

namespace SandwichMech.Core.Identification;

/// <summary>A free rectangular plate whose modes in air are wanted again and again with other sections, on one mesh.</summary>
/// <remarks>
/// The plate is solved on its mesh for the piece that it was made for; other sections are solved by sums of the modes that are known (<see cref="TapBasis"/>), in about
/// a millisecond. <see cref="Prove"/> solves on the mesh again and lets the plate learn where the sums were off.
/// </remarks>
public sealed class TapPlate : TappedPlate
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
        (_problem, _order, _lines, Areas) = (plate.System.Problem, plate.Order, plate.Field.NodalCounter(), plate.Field.Areas());
        _air = AirVolume.Unbaffled(new AirPoints(plate.System.Mesh, plate.System.IntegralsOf, AirDetail.OfTaps));
        _basis = new(plate, Accuracy, _air);
        First = Counted(sample);
    }

    /// <summary>The modes of the piece that the plate was made for, with their nodal lines.</summary>
    public IReadOnlyList<TapMode> First { get; }

    private protected override double[] Areas { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<TapMode> Solve(Sample sample) => Basis(Section(sample)).Modes(Section(sample), _count, AmbientAir.Density);

    /// <summary>The same modes, proven on the mesh.</summary>
    /// <param name="sample">The piece.</param>
    /// <returns>Lowest first, with their nodal lines.</returns>
    public IReadOnlyList<TapMode> InAir(Sample sample)
    {
        Prove(sample);
        return Counted(sample);
    }

    /// <inheritdoc/>
    public override bool Prove(Sample sample) => Basis(Section(sample)).Prove(Section(sample), _count) <= Accuracy;

    /// <inheritdoc/>
    public override double[] Changes(IReadOnlyList<TapMode> modes, Sample less, Sample more)
    {
        PlateSection before = Section(less), after = Section(more);
        return [.. modes.Select(m =>
        {
            RegionShare region = m.Mode.Regions[0];
            double omega2 = Math.Pow(2 * Math.PI * m.Mode.Frequency, 2);
            return (region.Stiffness(after) - region.Stiffness(before)) / (2 * omega2) - m.PlateShare * (region.Inertia(after) - region.Inertia(before)) / 2;
        })];
    }

    private static PlateSection Section(Sample sample) => PlateSection.Of(sample.Layup(underWeight: false));

    /// <inheritdoc/>
    internal override (int Along, int Across)? LinesOf(double[] shape) => _lines(shape);

    // Skins that were alike and are so no more: the same mesh, with its plane moving too.
    private TapBasis Basis(PlateSection section) => _basis = _basis.Holds(section)
        ? _basis
        : new(PlateSolver.OnMesh(_problem with { Sections = [section] }, _count, _order, MeshAccuracy, PlateSolver.BeyondForAir), Accuracy, _air);
}
