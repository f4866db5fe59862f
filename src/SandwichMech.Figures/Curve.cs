using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Figures;

/// <summary>Points between those of a curve of stiffness against areal density.</summary>
internal static class Curve
{
    /// <summary>The plate of a thickness that lies between two points; straight in the logarithms, which for a solid plate is exact (m ∝ h, D ∝ h³).</summary>
    /// <param name="curve">The curve, its points by rising thickness.</param>
    /// <param name="thickness">m, within the curve.</param>
    internal static MeritPoint At(MeritCurve curve, double thickness)
    {
        int i = 1;
        while (i < curve.Points.Count - 1 && curve.Points[i].Thickness < thickness)
        {
            i++;
        }

        MeritPoint a = curve.Points[i - 1], b = curve.Points[i];
        double share = Math.Log(thickness / a.Thickness) / Math.Log(b.Thickness / a.Thickness);
        double Between(double from, double to) => from * Math.Pow(to / from, share);
        return new(thickness, Between(a.ArealDensity, b.ArealDensity), Between(a.Along, b.Along), Between(a.Across, b.Across));
    }
}
