using SandwichMech.Core.Identification;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Identification;

/// <summary>Modes of a piece as sums of those of another, against solutions of their own on finer meshes with finer air.</summary>
[Trait("Check", "independent")]
public class TapBasisTests
{
    private const int Modes = 8;
    private static readonly MaterialTables Tables = MaterialTables.BuiltIn();
    private static readonly Wood Spruce = MaterialTables.Find(Tables.Woods, "Sitka spruce")!.Item;
    private static readonly WoodSample Plank = new(0.3, 0.15, Spruce, 4e-3, Spruce.MoisturePercent);

    public static TheoryData<string> Pieces => [.. Samples.Keys];

    private static readonly Dictionary<string, (Sample Made, Sample Asked)> Samples = new()
    {
        ["wood"] = (Plank, Stiffer(1.25, 0.75, 1.3, 1.1)),
        ["sandwich, thinner inside"] = (Blank(0.7e-3, 0.55e-3, 1), Blank(0.78e-3, 0.5e-3, 1.3)),
        // Alike skins leave the motion of the plane out, others ask for it.
        ["sandwich, alike and then not"] = (Blank(0.6e-3, 0.6e-3, 1), Blank(0.65e-3, 0.58e-3, 0.8)),
    };

    // Mesh 0.03 %, sums 0.05 %, air 0.05 % are what is let pass.
    [Theory]
    [MemberData(nameof(Pieces))]
    public void Frequencies_are_those_of_a_fine_solution(string piece)
    {
        (Sample made, Sample asked) = Samples[piece];
        IReadOnlyList<TapMode> modes = new TapPlate(made, Modes).InAir(asked);
        PlateSection section = PlateSection.Of(asked.Layup(underWeight: false));
        Curve outline = Shapes.Rectangle(new Box(0, -asked.Width / 2, asked.Length, asked.Width / 2));
        double band = BoardPlate.EdgeBand(section);
        var domain = new MeshDomain(outline, [], Offset.Inward(outline, band, band * 1e-3), _ => 0);
        PlateSolution fine = PlateSolver.Solve(
            size => new(PlateMesher.Mesh(domain, size), [section], _ => EdgeSupport.Free), 0.25 * Math.Sqrt(asked.Length * asked.Width), Modes, 1e-4, 12);
        IReadOnlyList<AirMode> air = fine.InAir(false, AmbientAir.Density, Modes).Modes;
        for (int i = 0; i < Modes; i++) { Checks.Near(air[i].Frequency, modes[i].Frequency, 1.3e-3, $"mode {i + 1}"); }
    }

    [Fact]
    public void Where_sums_are_off_the_plate_learns()
    {
        var plate = new TapPlate(Plank, Modes);
        Sample far = Stiffer(1.6, 0.5, 1.8, 1);
        double[] before = [.. plate.Solve(far).Select(m => m.Frequency)];
        Assert.True(plate.Prove(Plank));
        Assert.False(plate.Prove(far));
        Assert.True(plate.Prove(far));
        double[] after = [.. plate.Solve(far).Select(m => m.Frequency)];
        // Too few motions are too stiff: learning lowers every frequency, some by more than is let pass.
        Assert.All(before.Zip(after), f => Assert.True(f.Second <= f.First * (1 + 1e-9)));
        Assert.Contains(before.Zip(after), f => f.First > f.Second * 1.0005);
    }

    private static WoodSample Stiffer(double along, double across, double shear, double dense) => Plank with
    {
        Wood = Spruce with { EL = Spruce.EL.Times(along), ErOverEl = Spruce.ErOverEl.Times(across / along), GlrOverEl = Spruce.GlrOverEl.Times(shear / along), Density = Spruce.Density.Times(dense) },
    };

    private static SandwichSample Blank(double outer, double inner, double core)
    {
        CoreMaterial honeycomb = Tables.Cores[0].Item;
        return new(0.4, 0.25, new Board
        {
            Name = "blank",
            Outer = new(Spruce, new(outer, 0.02), 0),
            Inner = new(Spruce, new(inner, 0.02), 0),
            Core = new(honeycomb with { ShearRibbon = honeycomb.ShearRibbon.Times(core), ShearAcross = honeycomb.ShearAcross.Times(core) }, new(1.8e-3, 0.02), 0),
            Adhesive = Tables.Adhesives[0].Item,
            Solid = new(Spruce, null),
            Size = new(0.1, 0.4, 0.25),
        });
    }
}
