namespace SandwichMech.Tests.Boards;

/// <summary>A piece of a beam.</summary>
/// <param name="Length">m.</param>
/// <param name="Bending">EI per width, N·m.</param>
/// <param name="Mass">Per length and width, kg/m².</param>
internal sealed record BeamPiece(double Length, double Bending, double Mass);

/// <summary>Euler's beam of several pieces, free at both ends, by transfer of deflection, slope, moment and shear force over each piece.</summary>
internal static class SteppedBeam
{
    /// <summary>Its lowest frequencies, Hz, to 1e-10.</summary>
    internal static double[] Free(int count, params BeamPiece[] pieces)
    {
        // Far finer than the modes lie apart.
        double step = 0.2 * pieces.Min(p => Math.Sqrt(p.Bending / p.Mass)) / Math.Pow(pieces.Sum(p => p.Length), 2), low = step;
        var found = new List<double>();
        for (; found.Count < count; low += step)
        {
            double a = low, b = low + step;
            if (Remainder(a, pieces) * Remainder(b, pieces) >= 0) { continue; }
            while (b - a > 1e-10 * b)
            {
                double middle = (a + b) / 2;
                (a, b) = Remainder(a, pieces) * Remainder(middle, pieces) <= 0 ? (a, middle) : (middle, b);
            }

            found.Add(a / (2 * Math.PI));
        }

        return [.. found];
    }

    // A free end has no moment and no shear force: the determinant of those at the far end for unit deflection and unit slope at the near one.
    private static double Remainder(double omega, BeamPiece[] pieces)
    {
        double[] one = [1, 0, 0, 0], two = [0, 1, 0, 0];
        foreach (BeamPiece p in pieces) { (one, two) = (Over(p, omega, one), Over(p, omega, two)); }
        return one[2] * two[3] - one[3] * two[2];
    }

    // EI w⁗ = ω² m w is solved by Krylov's functions: w = w₀ c₀ + w₀′ c₁/k + M₀ c₂/(EI k²) + V₀ c₃/(EI k³), each the derivative of the next by kx; M = EI w″, V = EI w‴.
    private static double[] Over(BeamPiece p, double omega, double[] start)
    {
        double k = Math.Pow(omega * omega * p.Mass / p.Bending, 0.25), x = k * p.Length;
        double[] c =
        [
            (Math.Cosh(x) + Math.Cos(x)) / 2, (Math.Sinh(x) + Math.Sin(x)) / 2, (Math.Cosh(x) - Math.Cos(x)) / 2, (Math.Sinh(x) - Math.Sin(x)) / 2,
        ];
        double[] scale = [1, k, p.Bending * k * k, p.Bending * k * k * k];
        return [.. Enumerable.Range(0, 4).Select(row => scale[row] * Enumerable.Range(0, 4).Sum(i => c[(i - row + 4) % 4] * start[i] / scale[i]))];
    }
}
