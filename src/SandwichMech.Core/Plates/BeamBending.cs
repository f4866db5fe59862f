namespace SandwichMech.Core.Plates;

/// <summary>Deflection of a beam at mid-span, split into its two causes.</summary>
/// <param name="Bending">m.</param>
/// <param name="Shear">m.</param>
public readonly record struct BeamDeflection(double Bending, double Shear)
{
    /// <summary>Sum, m.</summary>
    public double Total => Bending + Shear;
}

/// <summary>One bending reading: load, support span, load span and the deflection at mid-span.</summary>
/// <param name="Load">Total load P, N.</param>
/// <param name="SupportSpan">S, m.</param>
/// <param name="LoadSpan">L, m; 0 for three-point bending.</param>
/// <param name="Deflection">Δ, m.</param>
public readonly record struct BeamReading(double Load, double SupportSpan, double LoadSpan, double Deflection);

/// <summary>Three- and four-point bending of a beam that also shears.</summary>
/// <remarks>Δ = P(2S³ − 3SL² + L³)/(96D) + P(S − L)/(4U) (ASTM D7250/D7250M), D in N·m² and U in N for the whole width.</remarks>
public static class BeamBending
{
    /// <summary>Deflection at mid-span.</summary>
    /// <param name="load">Total load P, N.</param>
    /// <param name="supportSpan">S, m, positive.</param>
    /// <param name="loadSpan">L, m, from 0 (three-point) to below S.</param>
    /// <param name="bendingStiffness">D, N·m², positive.</param>
    /// <param name="shearRigidity">U, N, positive.</param>
    /// <returns>Bending and shear parts, m.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The load span is not inside the support span.</exception>
    public static BeamDeflection Deflection(
        double load, double supportSpan, double loadSpan, double bendingStiffness, double shearRigidity)
    {
        RequireSpans(supportSpan, loadSpan);
        return new(
            load * BendingShape(supportSpan, loadSpan) / bendingStiffness,
            load * ShearShape(supportSpan, loadSpan) / shearRigidity);
    }

    /// <summary>Bending stiffness and shear rigidity from two readings on one beam at different spans (ASTM D7250 sec. 10.1, as two linear equations).</summary>
    /// <param name="first">First reading.</param>
    /// <param name="second">Second reading, of another span or another load span.</param>
    /// <returns>D in N·m² and U in N.</returns>
    /// <exception cref="ArgumentException">The two readings do not tell bending from shear, or give a negative stiffness.</exception>
    public static (double BendingStiffness, double ShearRigidity) Separate(BeamReading first, BeamReading second)
    {
        RequireSpans(first.SupportSpan, first.LoadSpan);
        RequireSpans(second.SupportSpan, second.LoadSpan);
        double a1 = BendingShape(first.SupportSpan, first.LoadSpan), b1 = ShearShape(first.SupportSpan, first.LoadSpan);
        double a2 = BendingShape(second.SupportSpan, second.LoadSpan), b2 = ShearShape(second.SupportSpan, second.LoadSpan);
        double c1 = first.Deflection / first.Load, c2 = second.Deflection / second.Load;
        double det = a1 * b2 - a2 * b1;
        if (Math.Abs(det) < 1e-6 * Math.Abs(a1 * b2))
        {
            throw new ArgumentException("The two readings have the same ratio of bending to shear: bend the beam at a second, clearly different span.");
        }

        double flexibility = (c1 * b2 - c2 * b1) / det;
        double shearFlexibility = (a1 * c2 - a2 * c1) / det;
        if (!(flexibility > 0) || !(shearFlexibility > 0))
        {
            throw new ArgumentException("The two readings give a negative stiffness: one of the deflections, loads or spans is wrong, or shear is too small to be seen at these spans.");
        }

        return (1 / flexibility, 1 / shearFlexibility);
    }

    private static double BendingShape(double s, double l) => (2 * s * s * s - 3 * s * l * l + l * l * l) / 96;

    private static double ShearShape(double s, double l) => (s - l) / 4;

    private static void RequireSpans(double supportSpan, double loadSpan)
    {
        if (!(loadSpan >= 0 && loadSpan < supportSpan))
        {
            throw new ArgumentOutOfRangeException(nameof(loadSpan), "The load span must lie inside the support span.");
        }
    }
}
