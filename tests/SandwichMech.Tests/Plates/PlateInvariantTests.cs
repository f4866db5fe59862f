using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Numerics;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates;

/// <summary>What must hold whatever the numbers: rigid bodies, moved and turned boards, more mass, more stiffness, symmetry.</summary>
[Trait("Check", "exact")]
public class PlateInvariantTests
{
    private const double Length = 0.48, Width = 0.365;
    private static readonly Laminate Unsymmetric = SampleBoard.Unsymmetric.Laminate();

    // w and two turns; where the plane may move too, u, v and a turn in it. A hinge along one side leaves the turn about it.
    [Theory]
    [InlineData("FFFF", 3, 6)]
    [InlineData("SSSS", 0, 3)]
    [InlineData("FFFS", 1, 4)]
    [InlineData("FFFC", 0, 0)]
    public void Rigid_bodies_are_as_many_as_the_edge_allows(string sides, int bending, int coupled)
    {
        Assert.Equal(coupled, Rigid(PlateSection.Of(Unsymmetric)));
        Assert.Equal(bending, Rigid(PlateSection.Of(Unsymmetric).FreeInItsPlane()));

        int Rigid(PlateSection section)
        {
            PlateModes.Result result = SamplePlate.Solve(SamplePlate.Rectangle(section, Length, Width, 3, 2, sides), 3, 4);
            Assert.All(result.Values[..result.Rigid], v => Checks.Close(0, v / result.Values[result.Rigid], 1e-8));
            return result.Rigid;
        }
    }

    // Six alike at zero, four vectors in a block, few modes asked and the first far below the shift: the hardest count.
    [Theory]
    [InlineData(10, 1)]
    [InlineData(50, 1)]
    [InlineData(100, 3)]
    public void A_long_strip_of_an_unsymmetric_layup_has_all_six(double slenderness, int wanted) =>
        Assert.Equal(6, SamplePlate.Solve(SamplePlate.Rectangle(PlateSection.Of(Unsymmetric), 0.03 * slenderness, 0.03, 20, 2), wanted, 4).Rigid);

    // The thinnest plate for which zero is still told from the first mode: 1 : 10 000.
    [Theory]
    [InlineData(1e-3)]
    [InlineData(1e-4)]
    public void A_very_thin_plate_still_has_three(double thickness) =>
        Assert.Equal(3, SamplePlate.Solve(SamplePlate.Rectangle(SamplePlate.Isotropic(thickness), 1, 1, 4, 4), 6, 5).Rigid);

    // The section is turned as the tensors that it is made of; that its membrane and bending parts are those of the turned
    // layup is checked on the way.
    [Theory]
    [InlineData(0.7)]
    [InlineData(-2.1)]
    public void A_board_turned_with_its_grain_and_moved_keeps_its_frequencies(double angle)
    {
        PlateMesh disc = SamplePlate.DiscMesh(0.2, 2), board = PlateMesh.Rectangle(Length, Width, 3, 3);
        PlateSection section = PlateSection.Of(Unsymmetric), turned = SamplePlate.Turned(section, angle);
        Laminate layup = Laminate.From([.. Unsymmetric.Plies.Select(p => p with { Angle = p.Angle + angle })]);
        Checks.Near(layup.A, turned.A, 1e-12);
        Checks.Near(layup.B, turned.B, 1e-12);
        Checks.Near(layup.D, turned.D, 1e-12);
        foreach ((PlateMesh mesh, EdgeSupport edge) in new[] { (disc, EdgeSupport.Hinged), (board, EdgeSupport.Free), (board, EdgeSupport.Clamped) })
        {
            double[] before = SamplePlate.Frequencies(new(mesh, [section], _ => edge), 6, 4);
            double[] after = SamplePlate.Frequencies(new(SamplePlate.Moved(mesh, angle, new Point(0.7, -1.3)), [turned], _ => edge), 6, 4);
            Assert.All(before.Zip(after), x => Checks.Near(x.First, x.Second, 1e-8));
        }
    }

    // u' = u − offset·φ is the same motion seen from another plane, and lies in the same space of polynomials.
    [Theory]
    [InlineData("FFFF")]
    [InlineData("SSSS")]
    [InlineData("CCCC")]
    [InlineData("CFSF")]
    public void The_reference_plane_may_lie_anywhere(string sides)
    {
        Laminate symmetric = Laminate.From([.. Unsymmetric.Plies.Take(2), Unsymmetric.Plies[2], .. Unsymmetric.Plies.Take(2).Reverse()]);
        foreach (Laminate laminate in new[] { symmetric, Unsymmetric })
        {
            double[] expected = Frequencies(PlateSection.Of(laminate));
            foreach (double offset in new[] { 1e-3, -7e-3 })
            {
                Assert.All(expected.Zip(Frequencies(PlateSection.Of(laminate, offset))), x => Checks.Near(x.First, x.Second, 1e-7));
            }
        }

        double[] Frequencies(PlateSection section) => SamplePlate.Frequencies(SamplePlate.Rectangle(section, Length, Width, 3, 2, sides), 6, 4);
    }

    // By Rayleigh's quotient, for every mode: any positive addition to stiffness, to mass, to rotary inertia.
    [Fact]
    public void More_stiffness_never_lowers_and_more_mass_never_raises() =>
        Gen.Select(AnySection, AnySection, Gen.Double[0, 1], Gen.OneOf(Gen.Const("FFFF"), Gen.Const("SSSS"), Gen.Const("CFSF"), Gen.Const("CCCC"))).Sample((section, extra, share, sides) =>
        {
            double[] before = Lowest(section);
            PlateSection stiffer = section with
            {
                D = section.D + extra.D * share,
                S = new(section.S.Sx + share * extra.S.Sx, section.S.Sy + share * extra.S.Sy, section.S.Sxy + share * extra.S.Sxy),
            };
            PlateSection heavier = section with { Mass = section.Mass * (1 + share), RotaryInertia = section.RotaryInertia * (1 + 3 * share) };
            Assert.All(before.Zip(Lowest(stiffer)), x => Assert.True(x.Second >= x.First * (1 - 1e-9) - 1e-9));
            Assert.All(before.Zip(Lowest(heavier)), x => Assert.True(x.Second <= x.First * (1 + 1e-9) + 1e-9));

            double[] Lowest(PlateSection s) => Squares(new(PlateMesh.Rectangle(1, 0.8, 2, 2), [s], SamplePlate.Rectangle(s, 1, 0.8, 1, 1, sides).Support));
        }, iter: 30);

    [Fact]
    public void An_edge_on_springs_lies_between_free_and_clamped_and_rises_with_the_springs() =>
        Gen.Select(AnySection, Gen.Double[-3, 5], Gen.Double[-5, 3], Gen.Double[0, 2]).Sample((section, deflection, rotation, more) =>
        {
            double[] free = Lowest(EdgeSupport.Free), clamped = Lowest(EdgeSupport.Clamped);
            double[] soft = Lowest(new(Math.Pow(10, deflection), Math.Pow(10, rotation), 0));
            double[] hard = Lowest(new(Math.Pow(10, deflection + more), Math.Pow(10, rotation + more), 0));
            for (int i = 0; i < free.Length; i++)
            {
                double slack = 1e-9 * (1 + clamped[i]);
                Assert.True(free[i] <= soft[i] + slack && soft[i] <= hard[i] + slack && hard[i] <= clamped[i] + slack, $"mode {i}");
            }

            double[] Lowest(EdgeSupport edge) => Squares(new(PlateMesh.Rectangle(1, 0.8, 2, 2), [section], _ => edge));
        }, iter: 30);

    // The limits of a spring: very stiff is held.
    [Fact]
    public void A_very_stiff_spring_clamps_and_a_deflection_spring_hinges()
    {
        PlateSection section = PlateSection.Of(Unsymmetric);
        PlateMesh mesh = PlateMesh.Rectangle(Length, Width, 3, 3);
        foreach ((EdgeSupport spring, EdgeSupport held) in new[]
        {
            (new EdgeSupport(1e12, 1e8, 1e13), EdgeSupport.Clamped), (new EdgeSupport(1e12, 0, 0), EdgeSupport.Hinged),
        })
        {
            double[] expected = SamplePlate.Frequencies(new(mesh, [section], _ => held), 5, 4);
            Assert.All(expected.Zip(SamplePlate.Frequencies(new(mesh, [section], _ => spring), 5, 4)), x => Checks.Near(x.First, x.Second, 1e-4));
        }
    }

    // A board mirrored onto itself, grain and layup too: every shape is even or odd along and across; a pair closer than 0.5 %
    // is judged as the space that it spans. The square has pairs, the board does not.
    [Theory]
    [InlineData(true, "FFFF")]
    [InlineData(true, "CCCC")]
    [InlineData(false, "FFFF")]
    [InlineData(false, "SSSS")]
    public void A_symmetric_board_has_even_and_odd_shapes(bool square, string sides)
    {
        (double a, double b) = square ? (0.4, 0.4) : (Length, Width);
        PlateSection section = square ? SamplePlate.Isotropic(0.003, 0.3, 10e9, 400) : PlateSection.Of(Unsymmetric);
        PlateSolution solution = PlateSolver.Once(SamplePlate.Rectangle(section, a, b, 4, 4, sides), 10, 5);
        IReadOnlyList<Point> nodes = solution.Field.Nodes;
        double[][] shapes = [.. Enumerable.Range(0, 10).Select(solution.Shape)];
        foreach (Func<Point, Point> mirror in new Func<Point, Point>[] { p => p with { X = a - p.X }, p => p with { Y = b - p.Y } })
        {
            int[] image = [.. nodes.Select(p => NearestTo(mirror(p)))];
            // The last mode may be half of a pair.
            for (int i = 0; i < 9; i++)
            {
                int[] space = [.. Enumerable.Range(0, 10).Where(j => Math.Abs(solution.Modes[j].Frequency / solution.Modes[i].Frequency - 1) < 0.005)];
                Matrix<double> span = Matrix<double>.Build.DenseOfColumns(space.Select(j => shapes[j]));
                Vector<double> mirrored = Vector<double>.Build.Dense([.. image.Select(j => shapes[i][j])]);
                Vector<double> share = span.QR().Solve(mirrored);
                Checks.Within(0, 1e-4, (span * share - mirrored).L2Norm() / mirrored.L2Norm(), $"mode {i + 1}");
                if (space.Length == 1)
                {
                    Checks.Close(1, Math.Abs(share[0]), 1e-5, $"mode {i + 1}: even or odd");
                }
            }
        }

        int NearestTo(Point p)
        {
            int best = Enumerable.Range(0, nodes.Count).MinBy(i => (nodes[i] + -1 * p).Norm);
            Assert.True((nodes[best] + -1 * p).Norm < 1e-9);
            return best;
        }
    }

    // xᵀMx = 1, xᵀKx = ω², 0 between modes; and (K − σM)⁻¹(Kx − ω²Mx) small beside x: the residual, measured as the
    // iteration means it, so that the stiff shear does not drown it.
    [Theory]
    [InlineData("FFFF")]
    [InlineData("CSFS")]
    public void Modes_are_orthonormal_and_solve_the_equations(string sides)
    {
        PlateProblem problem = SamplePlate.Rectangle(PlateSection.Of(Unsymmetric), Length, Width, 4, 3, sides);
        var system = new PlateSystem(problem, 4);
        PlateModes.Result modes = PlateModes.Solve(system, problem, 12);
        int n = system.Unknowns, count = modes.Values.Length;
        double first = modes.Values[modes.Rigid], shift = -first;
        FrontalFactor factor = system.Factor(shift)!;
        double[][] stiff = new double[count][], massed = new double[count][];
        for (int i = 0; i < count; i++)
        {
            system.Mass(modes.Vectors[i], massed[i] = new double[n]);
            stiff[i] = Stiffness(system, modes.Vectors[i]);
        }

        for (int i = 0; i < count; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                Checks.Close(i == j ? 1 : 0, Dot(modes.Vectors[j], massed[i]), 1e-10, $"xᵀMx {i},{j}");
                Checks.Close(i == j ? modes.Values[i] : 0, Dot(modes.Vectors[j], stiff[i]), 1e-6 * (modes.Values[i] + first), $"xᵀKx {i},{j}");
            }

            double[] x = new double[n * FrontalFactor.Together];
            for (int k = 0; k < n; k++)
            {
                x[k * FrontalFactor.Together] = stiff[i][k] - modes.Values[i] * massed[i][k];
            }

            factor.Solve(x);
            double[] r = [.. Enumerable.Range(0, n).Select(k => x[k * FrontalFactor.Together])], mr = new double[n];
            system.Mass(r, mr);
            Checks.Within(0, 1e-5, Math.Sqrt(Dot(r, mr)), $"residual {i}");
        }
    }

    // Bending stiffness LLᵀ, shear alike, so that both are positive; unit plate, thick enough for a coarse mesh.
    private static readonly Gen<PlateSection> AnySection = Gen.Double[-1, 1].Array[10].Select(r =>
    {
        Matrix<double> l = Matrix<double>.Build.DenseOfArray(new[,] { { 1 + r[0] / 2, 0, 0 }, { r[1] / 2, 0.6 + r[2] / 2, 0 }, { r[3] / 5, r[4] / 5, 0.5 + r[5] / 3 } });
        Matrix<double> d = l * l.Transpose();
        double shear = Math.Pow(10, 2 + r[6]), ratio = Math.Pow(3, r[7]);
        return new PlateSection(new(1, 0, 1, 0, 0, 1), default, new(d[0, 0], d[0, 1], d[1, 1], d[0, 2], d[1, 2], d[2, 2]),
            new(shear, shear * ratio, shear * Math.Sqrt(ratio) * r[8] / 2), Math.Pow(3, r[9]), 0, 0.002);
    });

    // The six lowest ω², rigid bodies included as 0.
    private static double[] Squares(PlateProblem problem) => [.. SamplePlate.Solve(problem, 6, 3).Values.Take(6).Select(v => Math.Max(0, v))];

    private static double[] Stiffness(PlateSystem system, double[] x)
    {
        double[] y = new double[x.Length];
        int size = system.Elements[0].Length;
        double[] k = new double[size * size];
        for (int e = 0; e < system.Elements.Length; e++)
        {
            system.Matrix(e, 0, k);
            int[] dofs = system.Elements[e];
            for (int i = 0; i < size; i++)
            {
                for (int j = 0; j < size; j++)
                {
                    if (dofs[i] >= 0 && dofs[j] >= 0)
                    {
                        y[dofs[i]] += k[Math.Max(i, j) * size + Math.Min(i, j)] * x[dofs[j]];
                    }
                }
            }
        }

        return y;
    }

    private static double Dot(double[] a, double[] b) => a.Zip(b, (x, y) => x * y).Sum();
}
