using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>A board as a plate: its sections by region, and its mesh with a thin band of triangles along every edge that may turn.</summary>
/// <remarks>
/// First-order theory has a boundary layer at a free or hinged edge, where the twisting moment becomes shear within a
/// length δ = √(D66/S). A mesh that does not see it converges slowly: a free spruce plate of 520 × 200 × 2.6 mm in 80 quintic
/// triangles is 0.15 % too stiff in twist, in 96 with a band of 2δ along the edge 0.001 %. So a line at 2δ from such an edge
/// is a border for the mesh.
/// </remarks>
public static class BoardPlate
{
    private const double BandWidth = 2, NearestBand = 1, FarthestBand = 3.5;
    private const double FirstSizeShare = 0.2;
    private const int AreaOrder = 4;
    private const double SizeAtEnd = 0.15, Growth = 0.3;

    /// <summary>Modes of a board in vacuo.</summary>
    /// <param name="board">The board at the values wanted; its shape is given.</param>
    /// <param name="count">Flexible modes wanted.</param>
    /// <param name="accuracy">Wanted relative numerical error.</param>
    /// <param name="beyond">Further modes, for the modes in air.</param>
    /// <returns>The modes.</returns>
    /// <exception cref="ArgumentException">The board has no shape.</exception>
    /// <exception cref="DomainException">The outline, holes and regions cannot be meshed.</exception>
    public static BoardSolution Solve(Board board, int count, double accuracy = 1e-3, int beyond = 0)
    {
        BoardShape shape = ShapeOf(board);
        IReadOnlyList<SectionPlace> places = [];
        PlateSolution plate = PlateSolver.Solve(
            size =>
            {
                (PlateProblem problem, places) = Problem(board, size);
                return problem;
            },
            FirstSize(shape.Outline), count, accuracy, beyond);
        return new(plate, places);
    }

    /// <summary>Size of the triangles of a first mesh, m.</summary>
    internal static double FirstSize(Curve outline) => FirstSizeShare * Math.Sqrt(Math.Abs(outline.SignedArea));

    /// <summary>The board's shape.</summary>
    internal static BoardShape ShapeOf(Board board) => board.Shape ?? throw new ArgumentException("The board has no outline.", nameof(board));

    /// <summary>The parts that a shape's curves divide it into, with their areas by the quadrature of a mesh that follows all borders.</summary>
    /// <param name="outline">Closed.</param>
    /// <param name="holes">Closed, inside.</param>
    /// <param name="regions">What differs where.</param>
    /// <returns>The parts.</returns>
    /// <exception cref="DomainException">The curves cannot be meshed.</exception>
    public static IReadOnlyList<BoardPart> Parts(Curve outline, IReadOnlyList<Curve> holes, IReadOnlyList<BoardRegion> regions)
    {
        var kinds = new PartKinds(regions);
        PlateMesh mesh = PlateMesher.Mesh(new(outline, holes, [.. regions.SelectMany(r => r.Border)], kinds.At), FirstSize(outline));
        var nodes = new NodalMesh(mesh, AreaOrder);
        var samples = kinds.All.Select(_ => new List<PartSample>()).ToArray();
        for (int e = 0; e < mesh.Triangles.Count; e++)
        {
            int kind = mesh.Triangles[e].Region;
            IEnumerable<PartSample> own = nodes.Samples(e);
            samples[kind].AddRange(kinds.MassVaries(kind) ? own : [Mean(own)]);
        }

        // In the order of the regions: what is covered least and earliest first.
        return
        [
            .. kinds.All.Select((k, i) => new BoardPart(k, kinds.MassVaries(i) ? samples[i] : [Mean(samples[i])]))
                .OrderBy(p => string.Concat(p.Regions.Select(r => (char)('0' + r))), StringComparer.Ordinal),
        ];
    }

    /// <summary>Section at a place.</summary>
    /// <param name="board">The board.</param>
    /// <param name="place">The regions there, and where.</param>
    /// <returns>About the core's middle.</returns>
    public static PlateSection Section(Board board, SectionPlace place)
    {
        LocalLayup local = LocalLayup.Of(board, place.Regions, place.At);
        Laminate laminate = Laminate.From(local.Plies);
        double offset = laminate.Thickness / 2 - local.BelowCore;
        return PlateSection.Of(laminate, offset) with
        {
            Inner = Bar(local.Inner, -local.BelowCore, outward: false),
            Outer = Bar(local.Outer, laminate.Thickness - local.BelowCore, outward: true),
        };

        static BarSection? Bar(LocalBar? bar, double glue, bool outward) =>
            bar is null ? null : BarSection.Of(bar.Ply, glue, outward, bar.Height, bar.Square, bar.Cube);
    }

    /// <summary>Sections at all places.</summary>
    /// <param name="board">The board.</param>
    /// <param name="places">The places.</param>
    /// <returns>In their order.</returns>
    public static IReadOnlyList<PlateSection> Sections(Board board, IReadOnlyList<SectionPlace> places) => [.. places.Select(p => Section(board, p))];

    /// <summary>The board as a plate on a mesh of about the given size.</summary>
    /// <param name="board">The board; its shape is given.</param>
    /// <param name="size">m.</param>
    /// <param name="steady">How the edge is held under a steady load, where a hinged edge is held in its plane too, as rim and block hold it; nothing: as the shape says, for modes.</param>
    /// <param name="patches">Closed borders, inside, that the mesh follows too.</param>
    /// <returns>The plate, and where each of its sections stands.</returns>
    internal static (PlateProblem Problem, IReadOnlyList<SectionPlace> Places) Problem(Board board, double size, EdgeHold? steady = null, params Curve[] patches)
    {
        BoardShape shape = ShapeOf(board);
        EdgeHold edge = steady ?? shape.Edge;
        var kinds = new PartKinds(shape.Regions);
        Point[] ends = [.. shape.Stretches.SelectMany(s => s.Ends)];
        MeshDomain domain = new(shape.Outline, shape.Holes, Borders(board, edge, patches), kinds.At) { Breaks = ends };
        PlateMesh mesh = PlateMesher.Mesh(domain, p => Size(p, size, ends));
        (IReadOnlyList<SectionPlace> places, IReadOnlyList<int[]>? byTriangle) = kinds.Places(mesh);
        return (new(mesh, Sections(board, places), Supports(board, steady))
        {
            Places = byTriangle,
            Dome = new(shape.DomeAlong, shape.DomeAcross),
        }, places);
    }

    /// <summary>How each edge of a board's mesh is held: the outline by its hold and its stretches, holes not at all.</summary>
    /// <param name="board">The board, by whose stiffness a rim's is measured.</param>
    /// <param name="steady">See <see cref="Problem"/>.</param>
    /// <param name="rim">Stiffness of a rim against turning, in parts of the usual.</param>
    /// <returns>The support of an edge.</returns>
    internal static Func<CurvedEdge, EdgeSupport> Supports(Board board, EdgeHold? steady = null, double rim = 1)
    {
        BoardShape shape = ShapeOf(board);
        EdgeHold elsewhere = steady ?? shape.Edge;
        EdgeSupport[] byHold = [.. Enum.GetValues<EdgeHold>().Select(h => Support(board, h)).Select((s, i) => i == (int)EdgeHold.Rim ? s with { Rotation = rim * s.Rotation } : s)];
        if (steady is not null) { byHold = [.. byHold.Select(s => s == EdgeSupport.Free ? s : s.HeldInPlane())]; }
        return edge => edge.Curve == 0 ? byHold[(int)shape.HoldAt(edge.At(0.5), elsewhere)] : EdgeSupport.Free;
    }

    // Where the hold changes the stress rises without bound; smaller triangles round there keep that error where it is.
    private static double Size(Point p, double size, Point[] ends) =>
        ends.Length == 0 ? size : Math.Min(size, SizeAtEnd * size + Growth * ends.Min(e => (p - e).Norm));

    private static PartSample Mean(IEnumerable<PartSample> samples)
    {
        double area = 0;
        Point sum = default;
        foreach (PartSample s in samples)
        {
            area += s.Area;
            sum += s.Area * s.At;
        }

        return new(1 / area * sum, area);
    }

    private static List<Curve> Borders(Board board, EdgeHold hold, Curve[] patches)
    {
        BoardShape shape = ShapeOf(board);
        double layer = shape.Parts.Select(p => EdgeBand(Section(board, new(p.Regions, p.Samples[0].At)))).Max();
        var borders = new List<Curve>(shape.Regions.SelectMany(r => r.Border));
        bool clamped = hold == EdgeHold.Clamped && shape.Stretches.All(s => s.Hold == EdgeHold.Clamped);
        Curve[] edges = clamped ? [.. shape.Holes] : [shape.Outline, .. shape.Holes];
        foreach (Curve edge in edges)
        {
            bool isHole = !ReferenceEquals(edge, shape.Outline);
            if (!borders.Any(b => RunsAlong(b, edge, layer)))
            {
                borders.AddRange(Offset.Inward(edge, isHole ? -layer : layer, layer * 1e-3));
            }
        }

        // A patch on a region's own border is there already.
        borders.AddRange(patches.Where(p => !borders.Any(b => b.Segments.SequenceEqual(p.Segments))));
        return borders;
    }

    // A border that already follows the edge at a like distance does the band's work.
    private static bool RunsAlong(Curve border, Curve edge, double layer)
    {
        for (int i = 0; i < border.Segments.Count; i++)
        {
            double distance = edge.Nearest(border.At(i + 0.5)).Distance;
            if (distance < NearestBand / BandWidth * layer || distance > FarthestBand / BandWidth * layer)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Width of the band of triangles along an edge that may turn, m (see the remarks).</summary>
    internal static double EdgeBand(PlateSection s) => BandWidth * Math.Sqrt(s.D.M66 / Math.Min(s.S.Sx, s.S.Sy));

    private static EdgeSupport Support(Board board, EdgeHold hold) => hold switch
    {
        EdgeHold.Free => EdgeSupport.Free,
        EdgeHold.Hinged => EdgeSupport.Hinged,
        EdgeHold.Rim => EdgeSupport.Rim(BesideRim(board), Math.Sqrt(ShapeOf(board).Area)),
        _ => EdgeSupport.Clamped,
    };

    /// <summary>What a rim's spring follows: the bending stiffness of most of the board, N·m.</summary>
    internal static double BendingBesideRim(Board board) => EdgeSupport.Bending(BesideRim(board));

    /// <summary>The section by whose stiffness a rim's is measured: that of most of the board.</summary>
    internal static PlateSection BesideRim(Board board)
    {
        BoardPart most = ShapeOf(board).Parts.MaxBy(p => p.Area)!;
        return Section(board, new(most.Regions, most.Samples[0].At));
    }
}
