using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates;

/// <summary>What holds for every plate under steady loads: reciprocity, energy, equilibrium, bounds, derivatives.</summary>
[Trait("Check", "exact")]
public class StaticBalanceTests
{
    private const double Length = 0.48, Width = 0.36;
    private static readonly Ply[] Layup = [.. SampleBoard.Unsymmetric.Laminate().Plies];
    private static readonly Curve Foot = Shapes.Rectangle(new(0.12, 0.09, 0.16, 0.27));
    private static readonly double[] Xs = [0, 0.06, 0.12, 0.16, 0.24, 0.36, 0.48], Ys = [0, 0.09, 0.18, 0.27, 0.36];

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Load_and_movement_may_change_places(bool coupled)
    {
        IReadOnlyList<PlateResponse> r = PlateStatics.Of(Problem(coupled), 4).Respond([.. SampleStatics.All(Foot), new(PlatePush.Deflect, null), PlateAction.At(new(0.24, 0.18))]);
        for (int i = 0; i < r.Count; i++)
        {
            for (int j = 0; j < i; j++)
            {
                double size = Math.Sqrt(PlateStatics.Movement(r[i], r[i]) * PlateStatics.Movement(r[j], r[j]));
                Checks.Close(PlateStatics.Movement(r[i], r[j]), PlateStatics.Movement(r[j], r[i]), 1e-10 * size, $"{i}, {j}");
            }
        }
    }

    [Fact]
    public void The_loads_work_is_the_strains_energy()
    {
        PlateProblem problem = Problem(true);
        PlateStatics plate = PlateStatics.Of(problem, 4);
        foreach (PlateResponse r in plate.Respond(SampleStatics.All(Foot)))
        {
            Checks.Near(PlateStatics.Movement(r, r), plate.Products(r).Select((share, i) => share.Stiffness(problem.Sections[i])).Sum(), 1e-8);
        }
    }

    // What the edge pushes back, force by force and moment by moment. The load is a string's pull: along x at 12 mm above the outer face, and down.
    [Fact]
    public void The_edge_pushes_back_what_the_strings_pull()
    {
        const double tension = 400, height = 12e-3, face = 1.6e-3, down = 30;
        PlateProblem problem = Problem(true);
        var system = new PlateSystem(problem, 4);
        IReadOnlyList<PlateResponse> r = PlateStatics.Of(problem, 4).Respond([
            new(PlatePush.SlideAlong, Foot), new(PlatePush.TurnAlong, Foot), new(PlatePush.TiltAlong, Foot), new(PlatePush.Deflect, Foot)]);
        PlateResponse load = r[0].Times(tension).Plus(r[1].Times(tension * face)).Plus(r[2].Times(tension * height)).Plus(r[3].Times(-down));
        double[] back = Reactions(system, load.Motion);
        Checks.Near(-tension, Sum((p, m) => m == 0 ? 1 : 0), 1e-7);
        Checks.Close(0, Sum((p, m) => m == 1 ? 1 : 0), 1e-6);
        Checks.Near(down, Sum((p, m) => m == 2 ? 1 : 0), 1e-6);
        // Moment about y through the middle of the foot: turning φx = 1 moves w = −(x − 0.14).
        Checks.Near(-tension * (face + height), Sum((p, m) => m == 3 ? 1 : m == 2 ? -(p.X - 0.14) : 0), 1e-6);
        Checks.Close(0, Sum((p, m) => m == 4 ? 1 : m == 2 ? -(p.Y - 0.18) : 0), 1e-6);

        double Sum(Func<Point, int, double> motion)
        {
            int d = system.Motions.Length;
            return Enumerable.Range(0, back.Length).Sum(i => back[i] * motion(system.Mesh.Points[i / d], system.Motions[i % d]));
        }
    }

    // Elements of a higher order hold those of a lower: each compliance of an action with itself rises towards the exact one.
    [Fact]
    public void Compliance_rises_with_the_order()
    {
        double[] before = new double[7];
        for (int order = 2; order <= 6; order++)
        {
            double[] now = [.. PlateStatics.Of(Problem(true), order).Respond(SampleStatics.All(Foot)).Select(r => PlateStatics.Movement(r, r))];
            for (int i = 0; i < now.Length; i++) { Assert.True(now[i] >= before[i] * (1 - 1e-9), $"{i} at order {order}"); }
            before = now;
        }
    }

    // −x_iᵀ dK x_j against solving again, between different loads and where the section of a part of the board alone changes.
    [Fact]
    public void The_change_of_a_movement_is_that_of_solving_again()
    {
        PlateProblem problem = Split(0);
        PlateStatics plate = PlateStatics.Of(problem, 3);
        IReadOnlyList<PlateResponse> r = plate.Respond(SampleStatics.All(Foot));
        for (int i = 0; i < r.Count; i++)
        {
            double size = Math.Sqrt(PlateStatics.Movement(r[i], r[i]) * PlateStatics.Movement(r[2], r[2]));
            double exact = (plate.Change(r[i], r[2])(Split(1e-6).Sections) - plate.Change(r[i], r[2])(Split(-1e-6).Sections)) / 2e-6;
            double again = (4 * Again(0.01) - Again(0.02)) / 3;
            Checks.Close(again, exact, 2e-6 * size, $"{i}");

            double Again(double step) => (Movement(step) - Movement(-step)) / (2 * step);

            double Movement(double change)
            {
                IReadOnlyList<PlateResponse> x = PlateStatics.Of(Split(change), 3).Respond(SampleStatics.All(Foot));
                return PlateStatics.Movement(x[i], x[2]);
            }
        }

        static PlateProblem Split(double change)
        {
            Ply[] changed = [.. Layup];
            changed[0] = changed[0] with { Thickness = changed[0].Thickness * (1 + change) };
            return new(SamplePlate.SplitAt(PlateMesh.Rectangle(Xs, Ys), 0.24),
                [PlateSection.Of(Laminate.From(changed)), PlateSection.Of(Laminate.From(Layup))], _ => EdgeSupport.HingedInPlane);
        }
    }

    // A domed board with a bridge glued on: what rises by its own rotations and the dome's stretch is in the balance too. Free or free to slide, it is refused.
    [Fact]
    public void A_dome_and_a_bar_keep_the_balance()
    {
        const double high = 7e-3;
        PlateSection board = PlateSection.Of(Laminate.From(Layup));
        PlateSection bridged = board with { Outer = BarSection.Of(SamplePly.Orthotropic(high, 11.9e9, 0.93e9, 0.37, 0.76e9, 0.73e9, 0.036e9, 90, 450), 1.6e-3, true, high, high * high, high * high * high) };
        PlateMesh mesh = PlateMesh.Rectangle(Xs, Ys);
        mesh = mesh with
        {
            Triangles = [.. mesh.Triangles.Select(t => t with { Region = Foot.Contains(1.0 / 3 * (mesh.Vertices[t.A] + mesh.Vertices[t.B] + mesh.Vertices[t.C])) ? 1 : 0 })],
        };
        PlateProblem Problem(EdgeSupport edge) => new(mesh, [board, bridged], _ => edge) { Dome = new(0.1, 0.3) };
        PlateProblem held = Problem(EdgeSupport.HingedInPlane);
        PlateStatics plate = PlateStatics.Of(held, 4);
        IReadOnlyList<PlateResponse> r = plate.Respond(SampleStatics.All(Foot));
        for (int i = 0; i < r.Count; i++)
        {
            Checks.Near(PlateStatics.Movement(r[i], r[i]), plate.Products(r[i]).Select((share, s) => share.Stiffness(held.Sections[s])).Sum(), 1e-8);
            Checks.Close(PlateStatics.Movement(r[i], r[1]), PlateStatics.Movement(r[1], r[i]), 1e-10 * Math.Sqrt(PlateStatics.Movement(r[i], r[i]) * PlateStatics.Movement(r[1], r[1])));
        }

        PlateResponse without = PlateStatics.Of(held with { Sections = [board, board] }, 4).Respond([new(PlatePush.TiltAlong, Foot)])[0];
        Assert.True(PlateStatics.Movement(r[1], r[1]) < PlateStatics.Movement(without, without), "A bridge makes its place stiffer.");
        Assert.Throws<UnsupportedPlateException>(() => PlateStatics.Of(Problem(EdgeSupport.Free), 4));
        Assert.Throws<UnsupportedPlateException>(() => PlateStatics.Of(Problem(EdgeSupport.Hinged), 4));
    }

    // dC/d ln k of springs of one factor, against solving again.
    [Fact]
    public void Edge_springs_bring_what_solving_again_says()
    {
        PlateSection section = PlateSection.Of(Laminate.From(Layup));
        PlateStatics plate = Sprung(1);
        IReadOnlyList<PlateResponse> r = plate.Respond(SampleStatics.All(Foot));
        foreach (int i in new[] { 0, 1, 3 })
        {
            double again = (Movement(i, 1.01) - Movement(i, 1 / 1.01)) / (2 * Math.Log(1.01));
            Checks.Near(again, -plate.EdgeEnergy(r[i], r[1]), 1e-4);
        }

        double Movement(int i, double factor)
        {
            IReadOnlyList<PlateResponse> x = Sprung(factor).Respond(SampleStatics.All(Foot));
            return PlateStatics.Movement(x[i], x[1]);
        }

        PlateStatics Sprung(double factor)
        {
            EdgeSupport rim = EdgeSupport.Rim(section, 0.4);
            return PlateStatics.Of(new(PlateMesh.Rectangle(Xs, Ys), [section], _ => rim with { Rotation = factor * rim.Rotation }), 4);
        }
    }

    [Fact]
    public void Mean_movements_are_those_of_the_deflection()
    {
        PlateMesh fine = PlateMesh.Rectangle([0, 0.06, 0.12, 0.13, 0.14, 0.15, 0.16, 0.24, 0.36, 0.48], [0, 0.05, 0.09, 0.1, 0.12, 0.15, 0.18, 0.21, 0.24, 0.26, 0.27, 0.31, 0.36]);
        PlateStatics plate = PlateStatics.Of(Problem(true) with { Mesh = fine }, 5);
        IReadOnlyList<PlateResponse> r = plate.Respond([new(PlatePush.Deflect, Foot), new(PlatePush.TiltAlong, Foot)]);
        double[] w = plate.Deflection(r[1]);
        // Read off on points spread evenly over the patch, each in the middle of its cell; straight between the nodes.
        const int along = 40, across = 90;
        const double dx = 0.04 / along, dy = 0.18 / across;
        double[,] grid = plate.Field.OnGrid(w, new(0.12 + dx / 2, 0.09 + dy / 2, 0.16 - dx / 2, 0.27 - dy / 2), along, across);
        double mean = 0, moment = 0, spread = 0;
        for (int i = 0; i < across; i++)
        {
            for (int j = 0; j < along; j++)
            {
                double x = (j + 0.5) * dx - 0.02;
                mean += grid[i, j] / (along * across);
                moment += x * grid[i, j];
                spread += x * x;
            }
        }

        Checks.Near(-moment / spread, PlateStatics.Movement(r[1], r[1]), 2e-3);
        Checks.Near(mean, PlateStatics.Movement(r[0], r[1]), 2e-3);
        Assert.True(PlateStatics.Movement(r[1], r[1]) > 0);
    }

    private static PlateProblem Problem(bool coupled)
    {
        PlateSection s = PlateSection.Of(Laminate.From(Layup));
        return new(PlateMesh.Rectangle(Xs, Ys), [coupled ? s : s.FreeInItsPlane()], e => e.Curve == 3 ? EdgeSupport.Clamped : EdgeSupport.HingedInPlane);
    }

    // K x at each motion of each node, held ones too.
    private static double[] Reactions(PlateSystem system, double[] x)
    {
        int n = system.Mesh.Basis.Count, d = system.Motions.Length, size = n * d;
        double[] forces = new double[system.Numbers.Length], k = new double[size * size];
        for (int e = 0; e < system.Elements.Length; e++)
        {
            system.Matrix(e, 0, k);
            for (int i = 0; i < size; i++)
            {
                double sum = 0;
                for (int j = 0; j < size; j++)
                {
                    int dof = system.Elements[e][j];
                    sum += dof < 0 ? 0 : k[Math.Max(i, j) * size + Math.Min(i, j)] * x[dof];
                }

                forces[system.Mesh.Nodes[e][i / d] * d + i % d] += sum;
            }
        }

        return [.. forces.Select((f, i) => system.Numbers[i] < 0 ? f : 0)];
    }
}
