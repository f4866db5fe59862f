using SandwichMech.Core.Outlines;

namespace SandwichMech.Workshop.Drawings;

/// <summary>Curves of single DXF entities.</summary>
/// <param name="sketch">Takes notes and gives problems their file.</param>
internal sealed class DxfShapes(Sketch sketch)
{
    private const double Degree = Math.PI / 180;
    // A rational spline is followed within this part of its size.
    private const double SplineTolerance = 1e-7;

    /// <summary>Segments of an entity, by its coordinates; nothing for what is not read.</summary>
    internal IReadOnlyList<Bezier>? Read(DxfItem item, List<DxfItem> vertices) => item.Kind switch
    {
        "LINE" => Line(item),
        "ARC" => Placed(item, Arc(item, Number(item, 50, 0) * Degree, Sweep(Number(item, 51, 360) - Number(item, 50, 0)) * Degree)),
        "CIRCLE" => Placed(item, Arc(item, 0, 2 * Math.PI)),
        "ELLIPSE" => Ellipse(item),
        "LWPOLYLINE" => Placed(item, Light(item)),
        "POLYLINE" => Placed(item, Heavy(item, vertices)),
        "SPLINE" => Spline(item),
        "POINT" => [],
        _ => null,
    };

    /// <summary>The point of codes 10 and 20.</summary>
    internal Point Start(DxfItem item) => new(Number(item, 10, 0), Number(item, 20, 0));

    internal double Number(DxfItem item, int code, double otherwise) =>
        item.Groups.FirstOrDefault(g => g.Code == code) is { } group ? Value(item, group) : otherwise;

    /// <summary>From the entity's own plane to the drawing's: seen from behind, x is mirrored; any other plane is refused.</summary>
    internal Affine Plane(DxfItem item)
    {
        double x = Number(item, 210, 0), y = Number(item, 220, 0), z = Number(item, 230, 1);
        if (Math.Abs(x) > 1e-6 || Math.Abs(y) > 1e-6)
        {
            throw sketch.Bad(item.Line, $"{item.Kind} on layer '{item.Layer}' does not lie in the plane of the drawing: flatten the drawing to z = 0 and export anew");
        }

        return Affine.Scale(z < 0 ? -1 : 1, 1);
    }

    private double Value(DxfItem item, DxfPair group) => MachineNumber.Read(group.Value)
        ?? throw sketch.Bad(group.Line, $"'{Units.TypedText.Short(group.Value)}' in {item.Kind} is no number for a drawing: export it anew");

    private IReadOnlyList<Bezier> Placed(DxfItem item, IReadOnlyList<Bezier> segments)
    {
        Affine plane = Plane(item);
        return plane.A > 0 ? segments : [.. segments.Select(plane.Of)];
    }

    private Bezier[] Line(DxfItem item)
    {
        Flat(item, [Number(item, 30, 0), Number(item, 31, 0)]);
        return [Bezier.Line(Start(item), new(Number(item, 11, 0), Number(item, 21, 0)))];
    }

    private IReadOnlyList<Bezier> Arc(DxfItem item, double from, double sweep)
    {
        double radius = Number(item, 40, 0);
        return radius > 0
            ? Shapes.Arc(Start(item), radius, from, sweep).Segments
            : throw sketch.Bad(item.Line, $"{item.Kind} on layer '{item.Layer}' has the radius {MachineNumber.Show(radius)}: delete it or draw it anew");
    }

    private static double Sweep(double degrees)
    {
        double sweep = degrees - 360 * Math.Floor(degrees / 360);
        return sweep == 0 ? 360 : sweep;
    }

    private IReadOnlyList<Bezier> Ellipse(DxfItem item)
    {
        Flat(item, [0, Number(item, 31, 0)]);
        Point first = new(Number(item, 11, 0), Number(item, 21, 0));
        double ratio = Number(item, 40, 1), from = Number(item, 41, 0), to = Number(item, 42, 2 * Math.PI);
        // Centre and axis are the drawing's own; the second axis lies to the left of the first, seen from the side that the normal points to.
        double side = Plane(item).A;
        if (!(first.Norm > 0 && ratio != 0)) { throw sketch.Bad(item.Line, $"ELLIPSE on layer '{item.Layer}' has no size: delete it or draw it anew"); }
        return Shapes.EllipseArc(Start(item), first, side * ratio * first.Left(), from, Sweep((to - from) / Degree) * Degree).Segments;
    }

    private List<Bezier> Light(DxfItem item)
    {
        var points = new List<Vertex>();
        foreach (DxfPair g in item.Groups)
        {
            switch (g.Code)
            {
                case 10:
                    points.Add(new() { X = Value(item, g) });
                    break;
                case 20 when points.Count > 0:
                    points[^1].Y = Value(item, g);
                    break;
                case 42 when points.Count > 0:
                    points[^1].Bulge = Value(item, g);
                    break;
            }
        }

        return Chain(points, (item.Whole(70, 0) & 1) != 0);
    }

    private List<Bezier> Heavy(DxfItem item, List<DxfItem> vertices)
    {
        int flags = item.Whole(70, 0);
        if ((flags & (16 | 64)) != 0) { throw sketch.Bad(item.Line, $"POLYLINE on layer '{item.Layer}' is a mesh in space: draw the outline as a flat polyline"); }
        // Vertices that only frame a fitted curve are not on it.
        List<DxfItem> on = vertices.FindAll(v => (v.Whole(70, 0) & 16) == 0);
        Flat(item, [.. on.Select(v => Number(v, 30, 0))]);
        return Chain(on.ConvertAll(v => new Vertex { X = Number(v, 10, 0), Y = Number(v, 20, 0), Bulge = Number(v, 42, 0) }), (flags & 1) != 0);
    }

    private static List<Bezier> Chain(List<Vertex> points, bool closed)
    {
        var segments = new List<Bezier>();
        for (int i = 0; i < (closed ? points.Count : points.Count - 1); i++)
        {
            Point from = points[i].At, to = points[(i + 1) % points.Count].At;
            if (from != to) { segments.AddRange(Shapes.Bulged(from, to, points[i].Bulge).Segments); }
        }

        return segments;
    }

    private IReadOnlyList<Bezier> Spline(DxfItem item)
    {
        double[] Of(int code) => [.. item.Groups.Where(g => g.Code == code).Select(g => Value(item, g))];
        Point[] Points(int x, int y)
        {
            double[] xs = Of(x), ys = Of(y);
            return xs.Length == ys.Length ? [.. xs.Zip(ys, (a, b) => new Point(a, b))]
                : throw sketch.Bad(item.Line, $"SPLINE on layer '{item.Layer}' has {xs.Length} x and {ys.Length} y: export the drawing anew");
        }

        Plane(item);
        Flat(item, Of(30));
        Flat(item, Of(33));
        Point[] control = Points(10, 20), fit = Points(11, 21);
        double[] weights = Of(41);
        try
        {
            if (control.Length == 0 && fit.Length > 1)
            {
                sketch.Note("a SPLINE gives only the points that it passes through: joined by a smooth curve, which may differ a little from the drawing program's");
                bool closed = (item.Whole(70, 0) & 1) != 0;
                return Shapes.Smooth(fit, closed && fit.Length > 2).Segments;
            }

            var spline = new SplineCurve(item.Whole(71, 3), control, Of(40), weights.Length == 0 ? null : weights);
            Box box = control.Aggregate(Box.Empty, (b, p) => b.With(p));
            return spline.Cubics(SplineTolerance * box.Size).Segments;
        }
        catch (ArgumentException wrong)
        {
            throw sketch.Bad(item.Line, $"SPLINE on layer '{item.Layer}': {wrong.Message.Split(" (Parameter")[0]}; export the drawing anew");
        }
    }

    private void Flat(DxfItem item, double[] z)
    {
        if (z.Length > 0 && z.Max() - z.Min() > 1e-6 * Math.Max(1, z.Max(Math.Abs)))
        {
            throw sketch.Bad(item.Line, $"{item.Kind} on layer '{item.Layer}' has heights from {MachineNumber.Show(z.Min())} to {MachineNumber.Show(z.Max())}: an outline is flat; flatten the drawing to z = 0 and export anew");
        }
    }

    private sealed class Vertex
    {
        internal double X { get; init; }

        internal double Y { get; set; }

        internal double Bulge { get; set; }

        internal Point At => new(X, Y);
    }
}
