using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Buffer;
using SandwichMech.Core.Building;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Tests.Properties;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;
using Point = SandwichMech.Core.Outlines.Point;

namespace SandwichMech.Tests.Independent;

/// <summary>Areas of board, blank and let-in wood against a general geometry library (NetTopologySuite), which knows polygons alone.</summary>
/// <remarks>
/// A curve becomes a polygon through its points. Between a chord of length h and its arc with sagitta s lie 2/3 s h (a parabola), and the arc is 8/3 s²/h longer: summed, that is how far
/// the library may be off, with half as much again for higher orders. A margin m is laid round with arcs of chords of angle α, each m² α³/12 short of its arc.
/// </remarks>
[Trait("Check", "independent")]
public class AreasByLibraryTests
{
    private const int PerSegment = 400, PerQuadrant = 200;
    private const double Margin = 0.01;
    private static readonly Board Demo = BoardFiles.Read(Repository.File("shared", "demo", "outline.toml"), MaterialTables.BuiltIn()).Board;

    public static TheoryData<string> Outlines => ["demo", "circle", "ellipse", "polygon", "notched"];

    [Theory]
    [MemberData(nameof(Outlines))]
    public void A_blank_is_the_outline_grown_by_its_margin(string name)
    {
        Curve outline = name switch
        {
            "demo" => Demo.Shape!.Outline,
            "circle" => Shapes.Circle(new(0.2, 0), 0.2),
            "ellipse" => Shapes.Ellipse(new(0.25, 0), 0.25, 0.18, 0),
            "polygon" => Shapes.Polygon([new(0, -0.15), new(0.45, -0.11), new(0.5, 0.1), new(0.2, 0.17), new(0.02, 0.14)]),
            // A corner inward, as a cutaway has, and a slot narrower than two margins.
            _ => Shapes.Polygon([new(0, -0.15), new(0.4, -0.15), new(0.4, -0.05), new(0.5, -0.05), new(0.5, 0.15), new(0.206, 0.15), new(0.206, 0.10), new(0.194, 0.10), new(0.194, 0.15), new(0, 0.15)]),
        };
        Board board = SampleBoard.Unsymmetric with { Shape = new() { Outline = outline, Parts = [new([], [new(new(0.1, 0), Math.Abs(outline.SignedArea))])] } };
        (Polygon polygon, double area, double length) = Sampled(outline);
        Checks.Close(polygon.Area, BondAreas.Of(board, 0, false).Total, area + 1e-12);
        Checks.Close(Grown(polygon, Margin).Area, BondAreas.Of(board, Margin, false).Total, area + Margin * length + Round(Margin) + FromOffset, name);
    }

    // The demo board: an edge band of 10 mm, a ring of 15 mm round a hole of 85 mm, a patch of 32 mm by 190 mm, which overlap.
    [Theory]
    [InlineData(0, false)]
    [InlineData(0, true)]
    [InlineData(Margin, false)]
    [InlineData(Margin, true)]
    public void Let_in_wood_is_what_the_regions_cover_together(double margin, bool holeCut)
    {
        (Polygon outline, double area, double length) = Sampled(Demo.Shape!.Outline);
        (Polygon hole, double holeArea, double holeLength) = Sampled(Demo.Shape.Holes.Single());
        Point middle = Demo.Shape.Holes.Single().Bounds().Middle;
        Checks.Close(0.335, middle.X, 1e-9);
        Geometry band = outline.Difference(Grown(outline, -0.010)), ring = Grown(hole, 0.015);
        (double x, double half) = (0.150, 0.190 / 2);
        Polygon patch = new(new LinearRing([new(x - 0.016, -half), new(x + 0.016, -half), new(x + 0.016, half), new(x - 0.016, half), new(x - 0.016, -half)]));
        Geometry blank = Grown(outline, margin), letIn = band.Union(ring).Union(patch).Intersection(outline).Union(blank.Difference(outline));
        if (holeCut) { (blank, letIn) = (blank.Difference(hole), letIn.Difference(hole)); }
        var ours = BondAreas.Of(Demo, margin, holeCut);
        double tolerance = 2 * area + holeArea + (0.010 + margin) * length + 0.015 * holeLength + Round(0.010) + Round(0.015) + Round(margin) + FromOffset;
        Checks.Close(blank.Area, ours.Total, tolerance, "blank");
        Checks.Close(letIn.Area, ours.LetIn, tolerance + FromMesh, "let-in wood");
    }

    // What our own offset curves may be off by, 1e-6 m along a perimeter of 2 m; and borders of regions as the mesh follows them, as far again.
    private const double FromOffset = 2e-6, FromMesh = 4e-6;

    private static double Round(double margin) => 4 * Math.PI * margin * margin * Math.Pow(Math.PI / 2 / PerQuadrant, 2) / 12;

    private static Geometry Grown(Geometry geometry, double by) => by == 0 ? geometry
        : BufferOp.Buffer(geometry, by, new BufferParameters(PerQuadrant, EndCapStyle.Round, JoinStyle.Round, BufferParameters.DefaultMitreLimit) { SimplifyFactor = 1e-9 });

    private static (Polygon Polygon, double Area, double Length) Sampled(Curve curve)
    {
        int count = curve.Segments.Count * PerSegment;
        Point[] on = [.. Enumerable.Range(0, count).Select(i => curve.At((double)i / PerSegment))];
        double area = 0, length = 0;
        for (int i = 0; i < count; i++)
        {
            Point a = on[i], b = on[(i + 1) % count], chord = b - a, between = curve.At((i + 0.5) / PerSegment) - a;
            double h = chord.Norm, sagitta = Math.Abs(chord.X * between.Y - chord.Y * between.X) / h;
            area += 2.0 / 3 * sagitta * h;
            length += 8.0 / 3 * sagitta * sagitta / h;
        }

        Coordinate[] ring = [.. on.Append(on[0]).Select(p => new Coordinate(p.X, p.Y))];
        return (new(new LinearRing(ring)), 1.5 * area, 1.5 * length);
    }
}
