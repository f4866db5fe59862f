using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Layups;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Independent;

/// <summary>A, B, D, the reduced stiffness and the shear stiffness again, by another road: thin slices and a 6 × 6 solution.</summary>
/// <remarks>
/// Reduced stiffness is turned by matrices (Q̄ = T⁻¹QRTR⁻¹, Jones 1999, eq. 2.85) instead of by the expanded formulas; the
/// integrals are sums over slices; no net in-plane force is imposed by solving [A B; B D] whole.
/// </remarks>
[Trait("Check", "independent")]
public class LaminationBySlicesTests
{
    private const int SlicesPerPly = 400;

    [Fact]
    public void A_B_and_D_are_the_sums_over_slices() => AnyLayup.Plies.Sample(plies =>
    {
        Laminate l = Laminate.From(plies);
        Matrix<double> abd = Sections(plies, SlicesPerPly);
        double size = l.A.M11 + l.A.M22 + l.A.M66, bending = l.D.M11 + l.D.M22 + l.D.M66;
        Checks.Near(Part(abd, 0, 0), l.A, 1e-9, size, "A");
        Checks.Near(Part(abd, 0, 3), l.B, 1e-9, size * l.Thickness, "B");
        // The midpoint rule leaves 1/N² of a ply's stiffness about its own middle.
        Checks.Near(Part(abd, 3, 3), l.D, 1.0 / (SlicesPerPly * SlicesPerPly), bending, "D");
    }, iter: 30);

    [Fact]
    public void The_reduced_stiffness_is_the_bending_of_a_layup_free_to_stretch() => AnyLayup.Plies.Sample(plies =>
    {
        Laminate l = Laminate.From(plies);
        Matrix<double> compliance = Whole(l).Inverse();
        Matrix<double> reduced = compliance.SubMatrix(3, 3, 3, 3).Inverse(), stretching = compliance.SubMatrix(0, 3, 0, 3);
        Checks.Near(Part(reduced, 0, 0), l.Bending, 1e-8, l.D.M11 + l.D.M22 + l.D.M66, "reduced");
        Checks.Near(12 / (Math.Pow(l.Thickness, 3) * compliance[3, 3]), l.FlexuralModulusAlong, 1e-7);
        Checks.Near(12 / (Math.Pow(l.Thickness, 3) * compliance[4, 4]), l.FlexuralModulusAcross, 1e-7);
        Checks.Near(1 / (l.Thickness * stretching[0, 0]), l.MembraneModulusAlong, 1e-7);
        Checks.Near(1 / (l.Thickness * stretching[1, 1]), l.MembraneModulusAcross, 1e-7);
    });

    // Let M_x grow by V_x per metre and M_y by V_y. The stresses' growth along the plate is what a slice hands to its
    // neighbour as τ; summing from the free inner face gives τ(z), and τ·G⁻¹·τ over all slices the energy.
    [Fact]
    public void Transverse_shear_stiffness_is_the_energy_of_balanced_slices() => AnyLayup.Plies.Sample(plies =>
    {
        Laminate l = Laminate.From(plies);
        Matrix<double> compliance = Sections(plies, SlicesPerPly).Inverse();
        Vector<double> alongX = compliance.Column(3), alongY = compliance.Column(4);
        double xx = 0, yy = 0, xy = 0, z = -l.Thickness / 2;
        Matrix<double> below = Matrix<double>.Build.Dense(2, 2); // rows τxz, τyz; columns V_x, V_y
        foreach (Ply ply in plies)
        {
            Matrix<double> q = Turned(ply), flexibility = ShearFlexibility(ply);
            double dz = ply.Thickness / SlicesPerPly;
            for (int i = 0; i < SlicesPerPly; i++)
            {
                double mid = z + dz / 2;
                Vector<double> growthX = q * (alongX.SubVector(0, 3) + mid * alongX.SubVector(3, 3));
                Vector<double> growthY = q * (alongY.SubVector(0, 3) + mid * alongY.SubVector(3, 3));
                // σx,x + σxy,y + τxz,z = 0 and σxy,x + σy,y + τyz,z = 0.
                Matrix<double> step = Matrix<double>.Build.DenseOfArray(new[,] { { growthX[0], growthY[2] }, { growthX[2], growthY[1] } }) * -dz;
                Matrix<double> tau = below + step / 2;
                Matrix<double> energy = tau.Transpose() * flexibility * tau * dz;
                (xx, yy, xy) = (xx + energy[0, 0], yy + energy[1, 1], xy + energy[0, 1]);
                below += step;
                z += dz;
            }
        }

        double peak = 1 / l.Thickness;
        Checks.Within(0, 1e-4 * peak, below.L2Norm(), "the outer face is free");
        double det = xx * yy - xy * xy, size = Math.Max(l.Shear.Sx, l.Shear.Sy);
        Checks.Near(yy / det, l.Shear.Sx, 1e-4, "Sx");
        Checks.Near(xx / det, l.Shear.Sy, 1e-4, "Sy");
        Checks.Close(-xy / det, l.Shear.Sxy, 1e-4 * size, "Sxy");
    }, iter: 30);

    private static Matrix<double> Sections(Ply[] plies, int slicesPerPly)
    {
        Matrix<double> abd = Matrix<double>.Build.Dense(6, 6);
        double z = -plies.Sum(p => p.Thickness) / 2;
        foreach (Ply ply in plies)
        {
            Matrix<double> q = Turned(ply);
            double dz = ply.Thickness / slicesPerPly;
            double first = 0, second = 0;
            for (int i = 0; i < slicesPerPly; i++)
            {
                double mid = z + (i + 0.5) * dz;
                (first, second) = (first + mid * dz, second + mid * mid * dz);
            }

            Add(abd, q * ply.Thickness, 0, 0);
            Add(abd, q * first, 0, 3);
            Add(abd, q * first, 3, 0);
            Add(abd, q * second, 3, 3);
            z += ply.Thickness;
        }

        return abd;
    }

    private static Matrix<double> Whole(Laminate l)
    {
        Matrix<double> abd = Matrix<double>.Build.Dense(6, 6);
        Add(abd, Square(l.A), 0, 0);
        Add(abd, Square(l.B), 0, 3);
        Add(abd, Square(l.B), 3, 0);
        Add(abd, Square(l.D), 3, 3);
        return abd;
    }

    private static Matrix<double> Turned(Ply p)
    {
        double c = Math.Cos(p.Angle), s = Math.Sin(p.Angle), mu = 1 - p.Nu12 * p.Nu12 * p.E2 / p.E1;
        Matrix<double> q = Matrix<double>.Build.DenseOfArray(new[,] { { p.E1 / mu, p.Nu12 * p.E2 / mu, 0 }, { p.Nu12 * p.E2 / mu, p.E2 / mu, 0 }, { 0, 0, p.G12 } });
        Matrix<double> t = Matrix<double>.Build.DenseOfArray(new[,] { { c * c, s * s, 2 * s * c }, { s * s, c * c, -2 * s * c }, { -s * c, s * c, c * c - s * s } });
        Matrix<double> r = Matrix<double>.Build.DenseDiagonal(3, 3, i => i == 2 ? 2 : 1);
        return t.Inverse() * q * r * t * r.Inverse();
    }

    private static Matrix<double> ShearFlexibility(Ply p)
    {
        double c = Math.Cos(p.Angle), s = Math.Sin(p.Angle);
        Matrix<double> turn = Matrix<double>.Build.DenseOfArray(new[,] { { c, s }, { -s, c } });
        return turn.Transpose() * Matrix<double>.Build.DenseDiagonal(2, 2, i => 1 / (i == 0 ? p.G13 : p.G23)) * turn;
    }

    private static void Add(Matrix<double> whole, Matrix<double> part, int row, int column) =>
        whole.SetSubMatrix(row, column, whole.SubMatrix(row, 3, column, 3) + part);

    private static Matrix<double> Square(Sym3 s) =>
        Matrix<double>.Build.DenseOfArray(new[,] { { s.M11, s.M12, s.M16 }, { s.M12, s.M22, s.M26 }, { s.M16, s.M26, s.M66 } });

    private static Sym3 Part(Matrix<double> m, int row, int column) => new(
        m[row, column], m[row, column + 1], m[row + 1, column + 1], m[row, column + 2], m[row + 1, column + 2], m[row + 2, column + 2]);
}
