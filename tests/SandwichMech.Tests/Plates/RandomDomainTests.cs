using CsCheck;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Outlines;

namespace SandwichMech.Tests.Plates;

/// <summary>Whatever is drawn on the board is meshed without a fold, or refused in words.</summary>
[Trait("Check", "exact")]
public class RandomDomainTests
{
    private const double MostTriangles = 6000;

    private static readonly Gen<Point> Places = Gen.Select(Gen.Double[0.02, 0.46], Gen.Double[-0.17, 0.17], (x, y) => new Point(x, y));

    private static readonly Gen<Curve> Outlines = Gen.OneOf(
        Gen.Const(SampleOutline.Board),
        Gen.Double[0.12, 0.24].Array[5, 11].Select(r => Shapes.Smooth(Star(r))),
        Gen.Double[0.12, 0.24].Array[3, 8].Select(r => Shapes.Polygon(Star(r))),
        Gen.Select(Gen.Double[0.1, 0.24], Gen.Double[0.1, 0.2], Gen.Double[0, 3], (a, b, angle) => Shapes.Ellipse(new(0.24, 0), a, b, angle)));

    private static readonly Gen<Curve> Ellipses = Gen.Select(Places, Gen.Double[0.005, 0.1], Gen.Double[0.005, 0.08], Gen.Double[0, 3], Shapes.Ellipse);

    private static readonly Gen<Curve> Bars = Gen.Select(Places, Gen.Double[0.01, 0.1], Gen.Double[0.003, 0.02], Gen.Double[0, 3],
        (at, length, width, angle) => Shapes.Rectangle(new(-length, -width, length, width)).Mapped(p => at + p.Turned(angle)));

    private static readonly Gen<Curve> Strokes = Gen.Select(Places.Array[2, 4].Where(p => p.Any(q => (q - p[0]).Norm > 1e-3)), Gen.Bool, (p, smooth) => smooth ? Shapes.Smooth(p, false) : Shapes.Polygon(p, false));

    // On the outline: a band, a circle that touches from inside, a stretch of the outline closed by a straight line.
    private static Gen<Curve> On(Curve outline) => Gen.OneOf(
        Gen.Double[0.004, 0.03].Select(d => Offset.Inward(outline, d)[0]),
        Gen.Select(Places, Gen.Double[0.005, 0.05], (p, radius) =>
        {
            NearestPoint n = outline.Nearest(p);
            Point along = outline.Derivative(n.T);
            return Shapes.Circle(n.At + radius / along.Norm * along.Left(), radius);
        }),
        Gen.Select(Gen.Double[0, 1], Gen.Double[0.1, 0.6], (start, share) =>
        {
            double n = outline.Segments.Count;
            Curve part = outline.Part(start * n * 0.999, (start * 0.999 + share) * n);
            return new Curve([.. part.Segments, Bezier.Line(part.At(part.Segments.Count), part.At(0))]);
        }));

    private static readonly Gen<MeshDomain> Domains = Outlines.SelectMany(outline =>
        Gen.Select(Gen.OneOf(Ellipses, Bars, Strokes, On(outline)).Array[0, 5], Gen.OneOf(Gen.Const<Curve[]>([]), Ellipses.Array[1])).Select((borders, holes) =>
            new MeshDomain(outline, [.. holes.Where(h => Fits(outline, h))], borders, _ => 0)));

    [Fact]
    public void No_domain_folds_a_triangle_or_keeps_the_mesher_busy_for_ever() => Gen.Select(Domains, Gen.Double[0.02, 0.1]).Sample((domain, size) =>
    {
        PlateMesh mesh;
        try
        {
            mesh = PlateMesher.Mesh(domain, size);
        }
        catch (DomainException e)
        {
            // Some strokes miss the board; any other refusal names a place.
            Assert.All(e.Problems, p => Assert.Contains(p.Fault, (DomainFault[])[DomainFault.BorderOutside, DomainFault.HoleAtEdge, DomainFault.TooTight]));
            Assert.DoesNotContain('\n', e.Message);
            return;
        }

        MeshChecks.AreSound(mesh, domain);
        Checks.Near(MeshChecks.Area(domain), MeshChecks.Area(mesh, 5), 1e-5);
        Assert.InRange(mesh.Triangles.Count, 1, MostTriangles);
    }, iter: 60);

    // What the mesher must never refuse: the usual regions.
    [Fact]
    public void Usual_regions_are_always_meshed_well() => Gen.Select(Gen.Double[0.006, 0.02], Gen.Double[0.03, 0.05], Gen.Double[0.006, 0.02], Gen.Double[0.25, 0.35], Gen.Double[0.08, 0.2], Gen.Double[0.015, 0.05], Gen.Double[0.03, 0.06])
        .Sample((band, radius, ring, holeAt, length, width, size) =>
        {
            Curve edge = Offset.Inward(SampleOutline.Board, band)[0];
            Point centre = new(holeAt, 0);
            var domain = new MeshDomain(SampleOutline.Board, [Shapes.Circle(centre, radius)],
                [edge, Shapes.Circle(centre, radius + ring), Shapes.Rectangle(new(0.13 - width / 2, -length / 2, 0.13 + width / 2, length / 2))], _ => 0);
            PlateMesh mesh = PlateMesher.Mesh(domain, size);
            MeshChecks.AreSound(mesh, domain);
            Checks.Within(0.15, 1, MeshChecks.LeastRatio(mesh), "evenness");
            Checks.Near(MeshChecks.Area(domain), MeshChecks.Area(mesh, 5), 1e-6);
            // Equilateral triangles for the area, and two for each edge along the band, which are at most five times longer than wide.
            double expected = MeshChecks.Area(domain) / (0.433 * size * size) + 2 * SampleOutline.Board.TotalLength / Math.Min(size, 5 * band);
            Assert.InRange(mesh.Triangles.Count, 0.5 * expected, 2 * expected);
        }, iter: 40);

    private static Point[] Star(double[] radii) => [.. radii.Select((r, i) => new Point(0.24, 0) + new Point(r, 0).Turned(2 * Math.PI * i / radii.Length))];

    private static bool Fits(Curve outline, Curve hole) =>
        outline.Contains(hole.At(0)) && Crossings.Between(outline, hole, 1e-3).Count == 0;
}
