using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Outlines;

namespace SandwichMech.Tests.Plates;

/// <summary>Meshes of the invented board against Green's theorem, Euler's sum and their own promises.</summary>
[Trait("Check", "exact")]
public class PlateMesherTests(ITestOutputHelper output)
{
    public static TheoryData<string> Domains => ["plain", "hole", "standard", "full"];

    private static MeshDomain Domain(string name) => name switch
    {
        "plain" => new(SampleOutline.Board, [], [], _ => 0),
        "hole" => new(SampleOutline.Board, [SampleOutline.Soundhole], [], _ => 0),
        "standard" => SampleDomain.Standard,
        _ => SampleDomain.Full,
    };

    [Theory]
    [MemberData(nameof(Domains))]
    public void The_mesh_is_sound_and_fits_the_curves(string name)
    {
        MeshDomain domain = Domain(name);
        PlateMesh mesh = PlateMesher.Mesh(domain, SampleDomain.Size);
        MeshChecks.AreSound(mesh, domain);
        MeshChecks.EdgesLieOnCurves(mesh, domain, 1e-9);
        output.WriteLine($"{name}: {mesh.Triangles.Count} triangles, ratio {MeshChecks.LeastRatio(mesh):F3}, angle {MeshChecks.LeastAngle(mesh):F1}, aspect {MeshChecks.Aspect(mesh):F1}");
    }

    [Theory]
    [MemberData(nameof(Domains))]
    public void The_triangles_areas_add_up_to_Greens_area(string name)
    {
        MeshDomain domain = Domain(name);
        PlateMesh mesh = PlateMesher.Mesh(domain, SampleDomain.Size);
        double exact = MeshChecks.Area(domain);
        // The spline's curvature changes its slope at every joint, and an edge that runs over one is no polynomial.
        Checks.Near(exact, MeshChecks.Area(mesh, 5), 3e-7);
        Checks.Near(exact, MeshChecks.Area(PlateMesher.Mesh(domain, 0.02), 8), 1e-8);
    }

    [Fact]
    public void Areas_converge_as_the_order_rises()
    {
        MeshDomain domain = Domain("hole");
        PlateMesh mesh = PlateMesher.Mesh(domain, SampleDomain.Size);
        double exact = MeshChecks.Area(domain);
        double[] errors = [.. Enumerable.Range(2, 6).Select(p => Math.Abs(MeshChecks.Area(mesh, p) / exact - 1))];
        output.WriteLine(string.Join(", ", errors.Select(e => e.ToString("E1", System.Globalization.CultureInfo.InvariantCulture))));
        for (int i = 1; i < errors.Length; i++) { Checks.Within(0, 0.5 * errors[i - 1], errors[i], $"order {i + 2}"); }
        Checks.Within(0, 2e-8, errors[^1]);
    }

    [Fact]
    public void The_edges_length_is_the_perimeter()
    {
        MeshDomain domain = SampleDomain.Standard;
        PlateMesh mesh = PlateMesher.Mesh(domain, SampleDomain.Size);
        for (int c = 0; c < domain.Curves.Count; c++)
        {
            double length = mesh.Edges.Where(e => e.Curve == c).Sum(e =>
            {
                const int n = 400;
                return Enumerable.Range(0, n).Sum(i => (e.At((i + 1.0) / n) - e.At((double)i / n)).Norm);
            });
            // Chords of a 400th of an edge that turns by 45° are 2e-7 short.
            Checks.Near(domain.Curves[c].TotalLength, length, 5e-7, domain.NameOf(c));
        }
    }

    [Fact]
    public void Regions_have_their_areas()
    {
        PlateMesh mesh = PlateMesher.Mesh(SampleDomain.Standard, SampleDomain.Size);
        (double Area, double)[] triangles = MeshChecks.Triangles(mesh, 8);
        double Of(int region) => mesh.Triangles.Select((t, i) => t.Region == region ? triangles[i].Area : 0).Sum();
        double patch = SampleOutline.BridgePatch.SignedArea;
        Checks.Near(SampleOutline.Board.SignedArea - SampleDomain.Band.SignedArea, Of(1), 1e-7);
        Checks.Near(patch, Of(2), 1e-12);
        Checks.Near(SampleDomain.Band.SignedArea - SampleOutline.Soundhole.SignedArea - patch, Of(0), 2e-8);
    }

    [Fact]
    public void The_standard_board_takes_few_good_triangles()
    {
        PlateMesh mesh = PlateMesher.Mesh(SampleDomain.Standard, SampleDomain.Size);
        output.WriteLine($"{mesh.Triangles.Count} triangles, {mesh.Vertices.Count} vertices, {mesh.Edges.Count} edges on curves");
        Assert.InRange(mesh.Triangles.Count, 125, 250);
        Checks.Within(0.2, 1, MeshChecks.LeastRatio(mesh), "evenness");
        Checks.Within(10, 60, MeshChecks.LeastAngle(mesh), "angle");
        Checks.Within(1, 6, MeshChecks.Aspect(mesh), "aspect");
    }

    [Theory]
    [InlineData(0.008), InlineData(0.010), InlineData(0.012), InlineData(0.015)]
    public void A_band_along_the_edge_is_one_triangle_wide(double width)
    {
        Curve band = Offset.Inward(SampleOutline.Board, width)[0];
        var domain = new MeshDomain(SampleOutline.Board, [], [band], p => band.Contains(p) ? 0 : 1);
        PlateMesh mesh = PlateMesher.Mesh(domain, SampleDomain.Size);
        // Every vertex of a triangle in the band lies on one of its two curves.
        var on = mesh.Edges.SelectMany(e => new[] { e.A, e.B }).ToHashSet();
        Assert.All(mesh.Triangles.Where(t => t.Region == 1), t => Assert.True(on.Contains(t.A) && on.Contains(t.B) && on.Contains(t.C)));
        Checks.Within(0.2, 1, MeshChecks.LeastRatio(mesh), "evenness");
    }

    [Fact]
    public void No_edge_turns_far()
    {
        PlateMesh mesh = PlateMesher.Mesh(SampleDomain.Full, 0.2);
        foreach (CurvedEdge e in mesh.Edges)
        {
            double turn = Enumerable.Range(1, 31).Sum(i => Math.Abs((e.At(i / 32.0) - e.At((i - 1) / 32.0)).AngleTo(e.At((i + 1) / 32.0) - e.At(i / 32.0))));
            Checks.Within(0, 50, turn * 180 / Math.PI, "degrees");
        }
    }

    [Fact]
    public void Sides_are_as_long_as_asked()
    {
        PlateMesh mesh = PlateMesher.Mesh(new(Shapes.Rectangle(new(0, 0, 0.5, 0.4)), [], [], _ => 0), 0.02);
        double[] lengths = [.. mesh.Triangles.SelectMany(t => new[] { (t.A, t.B), (t.B, t.C), (t.C, t.A) }).Select(s => (mesh.Vertices[s.Item1] - mesh.Vertices[s.Item2]).Norm)];
        Checks.Near(0.02, lengths.Average(), 0.1);
        Checks.Within(0.01, 0.034, lengths.Min());
        Checks.Within(0.01, 0.034, lengths.Max());
    }

    [Fact]
    public void A_size_that_changes_is_followed()
    {
        double Wanted(Point p) => 0.01 + 0.2 * (p - new Point(0.13, 0.09)).Norm;
        PlateMesh mesh = PlateMesher.Mesh(new(SampleOutline.Board, [], [], _ => 0), Wanted);
        MeshChecks.AreSound(mesh, new(SampleOutline.Board, [], [], _ => 0));
        double[] ratio = [.. mesh.Triangles.Select(t =>
        {
            Point a = mesh.Vertices[t.A], b = mesh.Vertices[t.B], c = mesh.Vertices[t.C];
            return ((a - b).Norm + (b - c).Norm + (c - a).Norm) / 3 / Wanted(1.0 / 3 * (a + b + c));
        }).Order()];
        Checks.Within(0.8, 1.2, ratio[ratio.Length / 2], "median");
        Checks.Within(0.4, 1.7, ratio[0]);
        Checks.Within(0.4, 1.7, ratio[^1]);
    }

    [Theory]
    [InlineData(0.3, 1.2, -0.7), InlineData(1.9, 0, 0), InlineData(0, 10, 20)]
    public void Turning_and_moving_the_board_changes_nothing_that_matters(double angle, double x, double y)
    {
        MeshDomain moved = SampleDomain.Standard.Mapped(p => p.Turned(angle) + new Point(x, y), p => (p - new Point(x, y)).Turned(-angle));
        PlateMesh here = PlateMesher.Mesh(SampleDomain.Standard, SampleDomain.Size), there = PlateMesher.Mesh(moved, SampleDomain.Size);
        Assert.Equal(here.Edges.Count, there.Edges.Count);
        // Inner vertices may fall differently where two places were equally good.
        Assert.InRange(there.Triangles.Count, here.Triangles.Count * 0.95, here.Triangles.Count * 1.05);
        for (int region = 0; region < 3; region++) { Checks.Near(Of(here, region), Of(there, region), 1e-9); }
        Checks.Within(0.2, 1, MeshChecks.LeastRatio(there));

        static double Of(PlateMesh mesh, int region)
        {
            (double Area, double)[] triangles = MeshChecks.Triangles(mesh, 8);
            return mesh.Triangles.Select((t, i) => t.Region == region ? triangles[i].Area : 0).Sum();
        }
    }

    [Fact]
    public void The_same_domain_gives_the_same_mesh()
    {
        PlateMesh first = PlateMesher.Mesh(SampleDomain.Full, SampleDomain.Size), second = PlateMesher.Mesh(SampleDomain.Full, SampleDomain.Size);
        Assert.Equal(first.Vertices, second.Vertices);
        Assert.Equal(first.Triangles, second.Triangles);
    }

    [Fact]
    public void The_direction_of_a_curve_does_not_matter()
    {
        MeshDomain d = SampleDomain.Standard;
        MeshDomain back = d with { Outline = d.Outline.Reversed(), Holes = [.. d.Holes.Select(h => h.Reversed())], Borders = [.. d.Borders.Select(b => b.Reversed())] };
        PlateMesh mesh = PlateMesher.Mesh(back, SampleDomain.Size);
        MeshChecks.AreSound(mesh, back);
        Checks.Near(MeshChecks.Area(d), MeshChecks.Area(mesh, 8), 2e-8);
    }

    [Fact]
    public void A_disc_within_a_disc_needs_a_vertex_inside()
    {
        var domain = new MeshDomain(Shapes.Circle(new(0, 0), 0.1), [], [Shapes.Circle(new(0.02, 0), 0.03)], _ => 0);
        PlateMesh mesh = PlateMesher.Mesh(domain, 0.2);
        MeshChecks.AreSound(mesh, domain);
        Checks.Within(0.2, 1, MeshChecks.LeastRatio(mesh));
    }
}
