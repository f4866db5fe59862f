using System.Text.Json;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;

namespace SandwichMech.Benchmarks;

/// <summary>What the rivals are given, as JSON: for the plate theory the cubic nodes of our mesh and the sections, for the solid the outline and the layers.</summary>
internal static class RivalFiles
{
    private const int Order = 3, OutlinePoints = 500;
    private const int Strains = 8, Motions = 5;

    /// <summary>The plate on our mesh of a size.</summary>
    internal static void WritePlate(PlateCase plate, double size, string path)
    {
        PlateProblem problem = plate.Problem(size);
        var system = new PlateSystem(problem, Order);
        NodalMesh mesh = system.Mesh;
        int motions = system.Motions.Length;
        Write(path, new
        {
            modes = PlateCase.Modes,
            basis = mesh.Basis.Nodes.Select(n => new[] { n.R, n.S }),
            points = mesh.Points.Select(p => new[] { p.X, p.Y }),
            triangles = mesh.Nodes,
            section = problem.Mesh.Triangles.Select(t => t.Region),
            sections = problem.Sections.Select(s => new { stiffness = Rows(s.Stiffness(), Strains), inertia = Rows(s.Inertia(), Motions) }),
            held = Enumerable.Range(0, mesh.Points.Length).Where(i => system.Numbers[i * motions] < 0),
        });
    }

    /// <summary>The board as layers of solid on its outline.</summary>
    internal static void WriteSolid(PlateCase plate, string path)
    {
        BoardShape shape = BoardPlate.ShapeOf(plate.Board);
        BoardRegion Of(string name) => shape.Regions.Single(r => r.Name == name);
        Box hole = shape.Holes.Single().Bounds(), ring = Of("hole ring").Border.Single().Bounds(), patch = Of("bridge patch").Border.Single().Bounds();
        var ruler = new CurveRuler(shape.Outline);
        Write(path, new
        {
            modes = PlateCase.Modes,
            edge = plate.Name,
            outline_m = Enumerable.Range(0, OutlinePoints).Select(i => Pair(shape.Outline.At(ruler.ParameterAt(ruler.Total * i / OutlinePoints)))),
            hole_m = new { centre = Pair(hole.Middle), radius = Round((hole.MaxX - hole.MinX) / 2), ring = Round((ring.MaxX - ring.MinX) / 2) },
            patch_m = new { centre = Pair(patch.Middle), size = Pair(new(patch.MaxX - patch.MinX, patch.MaxY - patch.MinY)) },
            band_m = Math.Round(shape.Outline.Nearest(Of("edge band").Border[0].At(0.5)).Distance, 4),
            layers = plate.Board.Plies().Select(p => new { name = p.Name, thickness_m = Round(p.Thickness), areal_mass = Round(p.ArealMass), E1 = Round(p.E1), G12 = Round(p.G12) }),
        });
    }

    // To a tenth of a micrometre: another machine's last digits make no other case.
    private static double[] Pair(Point p) => [Math.Round(p.X, 7), Math.Round(p.Y, 7)];

    private static double Round(double value) => Math.Round(value, 9);

    private static double[][] Rows(double[,] matrix, int count) =>
        [.. Enumerable.Range(0, count).Select(i => Enumerable.Range(0, count).Select(j => matrix[i, j]).ToArray())];

    internal static void Write(string path, object content) => File.WriteAllText(path, JsonSerializer.Serialize(content));
}
