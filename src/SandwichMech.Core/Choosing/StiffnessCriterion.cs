using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;

namespace SandwichMech.Core.Choosing;

/// <summary>What "as stiff as" means; the answer depends on it.</summary>
public enum StiffnessCriterion
{
    /// <summary>Equal bending stiffness along the grain, D11 of D − BA⁻¹B.</summary>
    Along,
    /// <summary>Equal bending stiffness across, D22.</summary>
    Across,
    /// <summary>Equal geometric mean √(D11·D22).</summary>
    GeometricMean,
    /// <summary>Equal deflection at mid-span of a strip along the grain under a line load, shear included.</summary>
    MidSpanDeflection,
    /// <summary>Equal first mode of the same plate with the same edge: equal tuning, reached by a lighter board with less stiffness.</summary>
    FirstMode,
}

/// <summary>A figure that grows with stiffness, for each criterion.</summary>
public static class StiffnessMeasure
{
    internal static readonly StiffnessCriterion[] All =
        [StiffnessCriterion.Along, StiffnessCriterion.Across, StiffnessCriterion.GeometricMean, StiffnessCriterion.MidSpanDeflection, StiffnessCriterion.FirstMode];

    /// <summary>Whether a criterion needs the board's length and width.</summary>
    /// <param name="criterion">The criterion.</param>
    /// <returns>True for the mid-span deflection and the first mode.</returns>
    public static bool NeedsRectangle(StiffnessCriterion criterion) =>
        criterion is StiffnessCriterion.MidSpanDeflection or StiffnessCriterion.FirstMode;

    /// <summary>The figure that two plates share when they are equal by the criterion.</summary>
    /// <param name="criterion">The criterion.</param>
    /// <param name="laminate">The plate.</param>
    /// <param name="rectangle">Its equivalent rectangle; needed where <see cref="NeedsRectangle"/> says so.</param>
    /// <returns>N·m for the stiffnesses, N/m² for the deflection (line load per deflection), Hz for the first mode.</returns>
    /// <exception cref="ArgumentException">The criterion needs a rectangle and none was given.</exception>
    public static double Of(StiffnessCriterion criterion, Laminate laminate, EquivalentRectangle? rectangle) => criterion switch
    {
        StiffnessCriterion.Along => laminate.Bending.M11,
        StiffnessCriterion.Across => laminate.Bending.M22,
        StiffnessCriterion.GeometricMean => Math.Sqrt(laminate.Bending.M11 * laminate.Bending.M22),
        StiffnessCriterion.MidSpanDeflection =>
            1 / BeamBending.Deflection(1, Need(rectangle).Length, 0, laminate.Bending.M11, laminate.Shear.Sx).Total,
        _ => HingedRectangle.Frequency(laminate, Need(rectangle).Length, Need(rectangle).Width, 1, 1),
    };

    private static EquivalentRectangle Need(EquivalentRectangle? rectangle) =>
        rectangle ?? throw new ArgumentException("This criterion needs the board's length and width.", nameof(rectangle));
}
