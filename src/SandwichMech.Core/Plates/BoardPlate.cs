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
    private const double FirstSize = 0.1;
    private const int AreaOrder = 4;

    /// <summary>Modes of a board in vacuo.</summary>
    /// <param name="board">The board at the values wanted; its shape is given.</param>
    /// <param name="count">Flexible modes wanted.</param>
    /// <param name="accuracy">Wanted relative numerical error.</param>
    /// <returns>The modes.</returns>
    /// <exception cref="ArgumentException">The board has no shape.</exception>
    /// <exception cref="DomainException">The outline, holes and regions cannot be meshed.</exception>
    public static PlateSolution Solve(Board board, int count, double accuracy = 1e-3)
    {
        BoardShape shape = board.Shape ?? throw new ArgumentException("The board has no outline.", nameof(board));
        IReadOnlyList<PlateSection> sections = Sections(board);
        MeshDomain domain = Domain(shape, sections);
        EdgeSupport support = Support(shape.Edge);
        double size = FirstSize * Math.Sqrt(shape.Outline.SignedArea);
        return PlateSolver.Solve(
            s => new PlateProblem(PlateMesher.Mesh(domain, s), sections, edge => edge.Curve == 0 ? support : EdgeSupport.Free),
            size, count, accuracy, order: accuracy < 2e-3 ? 5 : 4);
    }

    /// <summary>Area of each region of a shape, by the quadrature of a mesh that follows all borders.</summary>
    /// <param name="outline">Closed.</param>
    /// <param name="holes">Closed, inside.</param>
    /// <param name="letIns">Solid wood let in.</param>
    /// <returns>m²: the rest, then each let-in wood.</returns>
    /// <exception cref="DomainException">The curves cannot be meshed.</exception>
    public static IReadOnlyList<double> RegionAreas(Curve outline, IReadOnlyList<Curve> holes, IReadOnlyList<LetIn> letIns)
    {
        var domain = new MeshDomain(outline, holes, [.. letIns.SelectMany(l => l.Border)], p => Region(letIns, p));
        PlateMesh mesh = PlateMesher.Mesh(domain, FirstSize * Math.Sqrt(Math.Abs(outline.SignedArea)));
        var nodes = new NodalMesh(mesh, AreaOrder);
        double[] areas = new double[letIns.Count + 1];
        for (int e = 0; e < mesh.Triangles.Count; e++)
        {
            areas[mesh.Triangles[e].Region] += nodes.AreaOf(e);
        }

        return areas;
    }

    /// <summary>Sections by region: the sandwich, then each let-in wood. All share the board's mid-plane as reference.</summary>
    /// <param name="board">The board.</param>
    /// <returns>One section a region.</returns>
    public static IReadOnlyList<PlateSection> Sections(Board board) =>
    [
        PlateSection.Of(board.Laminate()),
        .. (board.Shape?.LetIns ?? []).Select(l => PlateSection.Of(Laminate.From(board.PliesWith(l.Wood)))),
    ];

    private static MeshDomain Domain(BoardShape shape, IReadOnlyList<PlateSection> sections)
    {
        double layer = BandWidth * sections.Max(BoundaryLayer);
        var borders = new List<Curve>(shape.LetIns.SelectMany(l => l.Border));
        Curve[] edges = shape.Edge == EdgeHold.Clamped ? [.. shape.Holes] : [shape.Outline, .. shape.Holes];
        foreach (Curve edge in edges)
        {
            bool isHole = !ReferenceEquals(edge, shape.Outline);
            if (!borders.Any(b => RunsAlong(b, edge, layer)))
            {
                borders.AddRange(Offset.Inward(edge, isHole ? -layer : layer, layer * 1e-3));
            }
        }

        return new(shape.Outline, shape.Holes, borders, p => Region(shape.LetIns, p));
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

    private static int Region(IReadOnlyList<LetIn> letIns, Point p)
    {
        for (int i = letIns.Count - 1; i >= 0; i--)
        {
            if (letIns[i].Inside(p))
            {
                return i + 1;
            }
        }

        return 0;
    }

    private static double BoundaryLayer(PlateSection s) => Math.Sqrt(s.D.M66 / Math.Min(s.S.Sx, s.S.Sy));

    private static EdgeSupport Support(EdgeHold hold) => hold switch
    {
        EdgeHold.Free => EdgeSupport.Free,
        EdgeHold.Hinged => EdgeSupport.Hinged,
        _ => EdgeSupport.Clamped,
    };
}
