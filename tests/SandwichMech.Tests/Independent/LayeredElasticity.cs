using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.RootFinding;

namespace SandwichMech.Tests.Independent;

/// <summary>An orthotropic elastic layer in three dimensions, axes along the plate's; Pa, m, kg/m³.</summary>
internal sealed record ElasticLayer(
    double Thickness, double Ex, double Ey, double Ez, double NuXy, double NuXz, double NuYz, double Gxy, double Gxz, double Gyz, double Density = 0)
{
    /// <summary>Stiffness of the normal strains, Pa: the inverse of the compliance.</summary>
    public Matrix<double> Normal()
    {
        double xy = -NuXy / Ex, xz = -NuXz / Ex, yz = -NuYz / Ey;
        return Matrix<double>.Build.DenseOfArray(new[,] { { 1 / Ex, xy, xz }, { xy, 1 / Ey, yz }, { xz, yz, 1 / Ez } }).Inverse();
    }
}

/// <summary>Oracle: exact three-dimensional elasticity of a simply supported layered plate (Pagano 1970; Srinivas and Rao 1970), by state space.</summary>
/// <remarks>
/// u = U(z) cos px sin qy, v = V(z) sin px cos qy, w = W(z) sin px sin qy and the stresses that act on a plane z = const,
/// σxz ~ cos·sin, σyz ~ sin·cos, σz ~ sin·sin, obey y' = N·y with y = (U, V, W, σxz, σyz, σz). Layers multiply as matrix
/// exponentials; both faces are free of shear; the top carries σz = q, or nothing and the plate vibrates.
/// </remarks>
internal static class LayeredElasticity
{
    /// <summary>Deflection of the middle plane at the crest of the load sin px sin qy of unit size on the top, m³/N.</summary>
    public static double Deflection(IReadOnlyList<ElasticLayer> layers, double p, double q)
    {
        double scale = layers.Max(l => l.Ex);
        Matrix<double> whole = Transfer(layers, p, q, 0, scale, layers.Sum(l => l.Thickness));
        Vector<double> bottom = whole.SubMatrix(3, 3, 0, 3).Solve(Vector<double>.Build.Dense([0, 0, 1 / scale]));
        Matrix<double> half = Transfer(layers, p, q, 0, scale, layers.Sum(l => l.Thickness) / 2);
        return half.SubMatrix(2, 1, 0, 3).Multiply(bottom)[0];
    }

    /// <summary>σx and σy at the crest on the top face per unit load.</summary>
    public static (double X, double Y) TopStress(IReadOnlyList<ElasticLayer> layers, double p, double q)
    {
        double scale = layers.Max(l => l.Ex);
        Matrix<double> whole = Transfer(layers, p, q, 0, scale, layers.Sum(l => l.Thickness));
        Vector<double> bottom = whole.SubMatrix(3, 3, 0, 3).Solve(Vector<double>.Build.Dense([0, 0, 1 / scale]));
        Vector<double> u = whole.SubMatrix(0, 3, 0, 3).Multiply(bottom);
        Matrix<double> c = layers[^1].Normal();
        Vector<double> strain = Vector<double>.Build.Dense([-p * u[0], -q * u[1], 0]);
        strain[2] = (1 - c[0, 2] * strain[0] - c[1, 2] * strain[1]) / c[2, 2];
        Vector<double> stress = c * strain;
        return (stress[0], stress[1]);
    }

    /// <summary>The natural frequency nearest to a guess that is good to 5 %, Hz.</summary>
    public static double Frequency(IReadOnlyList<ElasticLayer> layers, double p, double q, double guess)
    {
        double scale = layers.Max(l => l.Ex), height = layers.Sum(l => l.Thickness);
        double Residual(double f) =>
            Transfer(layers, p, q, Math.Pow(2 * Math.PI * f, 2), scale, height).SubMatrix(3, 3, 0, 3).Determinant();

        // The root finder also stops at a small residual, so the residual is measured against a detuned one.
        double detuned = Residual(0.95 * guess);
        return guess * Brent.FindRoot(r => Residual(r * guess) / detuned, 0.95, 1.05, 1e-11);
    }

    private static Matrix<double> Transfer(
        IReadOnlyList<ElasticLayer> layers, double p, double q, double omegaSquared, double scale, double upTo)
    {
        Matrix<double> product = Matrix<double>.Build.DenseIdentity(6);
        double left = upTo;
        foreach (ElasticLayer layer in layers)
        {
            double t = Math.Min(layer.Thickness, left);
            if (t > 0)
            {
                product = Exponential(State(layer, p, q, omegaSquared, scale) * t) * product;
            }

            left -= layer.Thickness;
        }

        return product;
    }

    private static Matrix<double> State(ElasticLayer l, double p, double q, double omegaSquared, double scale)
    {
        Matrix<double> c = l.Normal() / scale;
        double c66 = l.Gxy / scale, c55 = l.Gxz / scale, c44 = l.Gyz / scale, inertia = l.Density * omegaSquared / scale;
        double r13 = c[0, 2] / c[2, 2], r23 = c[1, 2] / c[2, 2];
        double q11 = c[0, 0] - c[0, 2] * r13, q12 = c[0, 1] - c[0, 2] * r23, q22 = c[1, 1] - c[1, 2] * r23;
        return Matrix<double>.Build.DenseOfArray(new double[,]
        {
            { 0, 0, -p, 1 / c55, 0, 0 },
            { 0, 0, -q, 0, 1 / c44, 0 },
            { r13 * p, r23 * q, 0, 0, 0, 1 / c[2, 2] },
            { q11 * p * p + c66 * q * q - inertia, (q12 + c66) * p * q, 0, 0, 0, -r13 * p },
            { (q12 + c66) * p * q, c66 * p * p + q22 * q * q - inertia, 0, 0, 0, -r23 * q },
            { 0, 0, -inertia, p, q, 0 },
        });
    }

    /// <summary>Matrix exponential by scaling and squaring of the Taylor series; the layers are thin against the wave, so few terms do.</summary>
    public static Matrix<double> Exponential(Matrix<double> m)
    {
        int halvings = Math.Max(0, (int)Math.Ceiling(Math.Log2(m.InfinityNorm() / 0.5)));
        Matrix<double> x = m / Math.Pow(2, halvings);
        Matrix<double> term = Matrix<double>.Build.DenseIdentity(m.RowCount), sum = term;
        for (int i = 1; i <= 18; i++)
        {
            term = term * x / i;
            sum += term;
        }

        for (int i = 0; i < halvings; i++)
        {
            sum *= sum;
        }

        return sum;
    }
}
