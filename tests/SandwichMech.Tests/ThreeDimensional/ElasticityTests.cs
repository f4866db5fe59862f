using System.Globalization;
using System.Text.Json;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.ThreeDimensional;

/// <summary>The plate against three-dimensional elasticity: layered solid models solved by CalculiX, see README.md beside this file.</summary>
/// <remarks>
/// The table holds the solid models' frequencies with their mesh errors; judge.py makes it anew. What is judged here is the theory (no
/// change of height, plane stress) together with the plate's own numerical error, mode by mode in order; close pairs are in the same
/// order in these cases.
/// </remarks>
[Trait("Check", "independent")]
public class ElasticityTests
{
    // Of our own frequencies; with bars, whose corners are singular, a finer one takes minutes.
    private const double Accuracy = 2e-4, AccuracyWithBars = 5e-4;
    private static readonly string Folder = Repository.File("tests", "SandwichMech.Tests", "ThreeDimensional");
    private static readonly JsonElement Root = JsonDocument.Parse(File.ReadAllText(Path.Combine(Folder, "cases.json"))).RootElement;

    // Largest differences seen on 2026-11-25 and 27, rounded up; inside the 0.7 % that is asked of boards without a bridge, and the 2 % with bridge and braces.
    [Theory]
    [InlineData("free-solid-spruce", 0.0003)]
    [InlineData("free-blank", 0.0005)]
    [InlineData("hinged-blank-face", 0.001)]
    [InlineData("clamped-blank", 0.006)]
    [InlineData("free-outline", 0.001)]
    [InlineData("clamped-outline", 0.006)]
    [InlineData("bridge-blank", 0.005)]
    [InlineData("braced-blank", 0.008)]
    [InlineData("graded-blank", 0.0003)]
    [InlineData("tapered-brace-blank", 0.006)]
    [InlineData("domed-blank-free", 0.001)]
    [InlineData("domed-blank-hinged", 0.0005)]
    [InlineData("domed-back-hinged", 0.002)]
    [InlineData("braced-outline-free", 0.012)]
    [InlineData("braced-outline-clamped", 0.006)]
    public void First_order_theory_is_this_near_to_three_dimensional_elasticity(string name, double within)
    {
        JsonElement given = Root.GetProperty("cases").EnumerateArray().Single(c => c.GetProperty("name").GetString() == name);
        double[] solid = [.. File.ReadLines(Path.Combine(Folder, "three-dimensional.csv")).Select(l => l.Split(','))
            .Where(c => c[0] == name && c[4] == "bending").Select(c => double.Parse(c[2], CultureInfo.InvariantCulture))];
        Assert.True(solid.Length >= 8, "The table lacks this case.");
        PlateSolution plate = Solve(given, solid.Length);
        double[] apart = [.. solid.Zip(plate.Modes, (s, m) => m.Frequency / s - 1)];
        TestContext.Current.TestOutputHelper?.WriteLine(string.Join(", ", apart.Select(a => a.ToString("P3", CultureInfo.InvariantCulture))));
        Assert.True(apart.All(a => Math.Abs(a) <= within), string.Join(", ", apart.Select(a => a.ToString("P3", CultureInfo.InvariantCulture))));
    }

    private static PlateSolution Solve(JsonElement given, int count)
    {
        List<BoardRegion> regions = Regions(given);
        JsonElement shape = given.GetProperty("shape");
        bool isRectangle = shape.GetProperty("kind").GetString() == "rectangle";
        Curve outline = isRectangle
            ? Shapes.Rectangle(Around(default, Number(shape, "length_m"), Number(shape, "width_m")))
            : Shapes.Smooth([.. shape.GetProperty("points_m").EnumerateArray().Select(At)]);
        Curve[] holes = given.TryGetProperty("holes", out JsonElement open)
            ? [.. open.EnumerateArray().Select(h => Shapes.Circle(At(h.GetProperty("centre_m")), Number(h, "radius_m")))]
            : [];
        string edge = given.GetProperty("edge").GetString()!;
        EdgeSupport support = edge == "free" ? EdgeSupport.Free : edge == "clamped" ? EdgeSupport.Clamped : EdgeSupport.Hinged;

        PlateSection plain = Section(given, regions, new([], default));
        double layer = 2 * Math.Sqrt(plain.D.M66 / Math.Min(plain.S.Sx, plain.S.Sy));
        Curve[] layers = [.. Offset.Inward(outline, layer), .. holes.SelectMany(h => Offset.Inward(h, -layer))];
        (double along, double across) = given.TryGetProperty("dome", out JsonElement dome) ? (1 / Number(dome, "rx_m"), 1 / Number(dome, "ry_m")) : (0, 0);
        return PlateSolver.Solve(
            size =>
            {
                var kinds = new PartKinds(regions);
                PlateMesh mesh = PlateMesher.Mesh(new(outline, holes, [.. regions.SelectMany(r => r.Border), .. layers], kinds.At), size);
                (IReadOnlyList<SectionPlace> places, IReadOnlyList<int[]>? byTriangle) = kinds.Places(mesh);
                return new PlateProblem(mesh, [.. places.Select(p => Section(given, regions, p))], e => e.Curve == 0 ? support : EdgeSupport.Free)
                {
                    Places = byTriangle,
                    Dome = new(along, across),
                };
            },
            0.2 * Math.Sqrt(Math.Abs(outline.SignedArea)), count, regions.Any(r => r.Change is Bar) ? AccuracyWithBars : Accuracy);
    }

    private sealed record Replaced(JsonElement Given) : RegionChange;

    private sealed record Bar(JsonElement Given) : RegionChange
    {
        public override bool Varies => Given.TryGetProperty("taper", out _);
    }

    private sealed record Graded : RegionChange
    {
        public override bool Varies => true;
    }

    private static List<BoardRegion> Regions(JsonElement given)
    {
        var regions = new List<BoardRegion>();
        foreach (JsonElement r in given.TryGetProperty("regions", out JsonElement list) ? list.EnumerateArray() : default)
        {
            Curve border = Shapes.Rectangle(Around(At(r.GetProperty("centre_m")), r.GetProperty("size_m")[0].GetDouble(), r.GetProperty("size_m")[1].GetDouble()));
            regions.Add(new(r.GetProperty("name").GetString()!, [border], border.Contains, new Replaced(r)));
        }

        if (given.GetProperty("layers").EnumerateArray().Any(l => l.TryGetProperty("graded_m", out _)))
        {
            regions.Add(new("grading", [], _ => true, new Graded()));
        }

        foreach (JsonElement b in given.TryGetProperty("bars", out JsonElement bars) ? bars.EnumerateArray() : default)
        {
            Point from = At(b.GetProperty("from_m")), to = At(b.GetProperty("to_m"));
            Point run = 1 / (to - from).Norm * (to - from), half = Number(b, "width_m") / 2 * new Point(-run.Y, run.X);
            Curve foot = Shapes.Polygon([from - half, to - half, to + half, from + half]);
            var border = new List<Curve> { foot };
            if (b.TryGetProperty("taper", out JsonElement taper))
            {
                double length = Number(taper, "length_m");
                foreach (Point at in new[] { from + length * run, from + length / 2 * run, to - length * run, to - length / 2 * run })
                {
                    border.Add(Shapes.Polygon([at - half, at + half], closed: false));
                }
            }

            regions.Add(new(b.GetProperty("name").GetString()!, border, foot.Contains, new Bar(b)));
        }

        return regions;
    }

    private static PlateSection Section(JsonElement given, List<BoardRegion> regions, SectionPlace place)
    {
        var plies = new List<Ply>();
        JsonElement[] layers = [.. given.GetProperty("layers").EnumerateArray()];
        JsonElement[] here = [.. place.Regions.Select(i => regions[i].Change).OfType<Replaced>().Select(r => r.Given)];
        for (int i = 0; i < layers.Length; i++)
        {
            JsonElement source = here.Where(r => r.GetProperty("layer").GetInt32() == i).Append(layers[i]).First();
            double thickness = Number(layers[i], "thickness_m");
            if (layers[i].TryGetProperty("graded_m", out JsonElement graded) && place.Regions.Count > 0)
            {
                double length = Number(given.GetProperty("shape"), "length_m");
                thickness = graded[0].GetDouble() + (graded[1].GetDouble() - graded[0].GetDouble()) * (place.At.X / length + 0.5);
            }

            plies.Add(Ply(source, Number(source, "angle_deg") * Math.PI / 180, thickness) with { Name = layers[i].GetProperty("name").GetString()! });
        }

        // About half the nominal thickness: what lies below is as thick everywhere.
        double nominal = layers.Sum(l => Number(l, "thickness_m"));
        Laminate laminate = Laminate.From(plies);
        double offset = (laminate.Thickness - nominal) / 2;
        PlateSection section = PlateSection.Of(laminate, offset);
        foreach (JsonElement b in place.Regions.Select(i => regions[i].Change).OfType<Bar>().Select(r => r.Given))
        {
            Point from = At(b.GetProperty("from_m")), to = At(b.GetProperty("to_m"));
            double h = Number(b, "height_m"), length = (to - from).Norm;
            if (b.TryGetProperty("taper", out JsonElement taper))
            {
                double along = (place.At - from).Dot(1 / length * (to - from)), end = Math.Min(along, length - along);
                double low = Number(taper, "end_height_m");
                h = low + (h - low) * Math.Clamp(end / Number(taper, "length_m"), 0, 1);
            }

            bool outward = b.GetProperty("face").GetString() == "outer";
            BarSection bar = BarSection.Of(
                Ply(b, Math.Atan2(to.Y - from.Y, to.X - from.X), h), outward ? laminate.Thickness - nominal / 2 : -nominal / 2, outward, h, h * h, h * h * h);
            section = outward ? section with { Outer = bar } : section with { Inner = bar };
        }

        return section;
    }

    private static Ply Ply(JsonElement of, double angle, double thickness)
    {
        JsonElement material = Root.GetProperty("materials").GetProperty(of.GetProperty("material").GetString()!);
        return new()
        {
            Name = "ply",
            Thickness = thickness,
            E1 = Number(material, "E1"),
            E2 = Number(material, "E2"),
            Nu12 = Number(material, "nu12"),
            G12 = Number(material, "G12"),
            G13 = Number(material, "G13"),
            G23 = Number(material, "G23"),
            Density = Number(material, "density"),
            Angle = angle,
        };
    }

    private static Box Around(Point centre, double length, double width) =>
        new(centre.X - length / 2, centre.Y - width / 2, centre.X + length / 2, centre.Y + width / 2);

    private static Point At(JsonElement pair) => new(pair[0].GetDouble(), pair[1].GetDouble());

    private static double Number(JsonElement of, string name) => of.GetProperty(name).GetDouble();
}
