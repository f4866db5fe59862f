using SandwichMech.Core.Plates;

namespace SandwichMech.Core.Identification;

/// <summary>A reading as the fit takes it: in the logarithm, with all that it may be wrong by.</summary>
/// <param name="Name">In the maker's words.</param>
/// <param name="Quantity">What is compared: "mass", "deflection", "frequency".</param>
/// <param name="Value">Observed, SI.</param>
/// <param name="Spread">Standard deviation of its logarithm: reading and model.</param>
/// <param name="Of">What a piece would give, SI; nothing for a tone, which needs the plate's modes.</param>
/// <param name="Tone">The tone, where it is one.</param>
public sealed record Observation(string Name, string Quantity, double Value, double Spread, Func<Sample, double>? Of, Tone? Tone = null);

/// <summary>How wrong readings and models are, in the logarithm. Judgement, no source, where no other is named.</summary>
public static class Observations
{
    /// <summary>Standard gravity, m/s² (CGPM 1901); from pole to equator it differs by 0.5 %.</summary>
    public const double Gravity = 9.80665;

    /// <summary>One tone against its mode: grain that wanders, density that varies, foam that holds a little.</summary>
    public const double ToneScatter = 0.007;

    /// <summary>What all tones of a piece are off by alike.</summary>
    public const double ToneBias = 0.005;

    // A plate strip is neither a free beam nor a plate in cylindrical bending: between the two lies ν_LR ν_RL, some 1.5 %; where the gauge stands matters as much.
    private const double BendingModel = 0.015;

    /// <summary>What weighing, bending and tap readings are compared with.</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="sizes">Relative standard deviations of length and width together.</param>
    /// <returns>The observations; none of readings that are taken in otherwise.</returns>
    public static IEnumerable<Observation> Of(Reading reading, double sizes)
    {
        switch (reading)
        {
            case Weighing w:
                yield return new("weight", "mass", w.Mass.Value, Root(w.Mass.Spread, sizes), s => s.Mass);
                break;
            case BendingReading b:
                double spread = Root(b.Deflection.Spread, b.Load.Spread, 3 * b.Span.Spread, BendingModel, sizes);
                yield return new(b.Across ? "bending across the grain" : "bending along the grain", "deflection", b.Deflection.Value, spread, s => Deflection(s, b));
                break;
            case TapReading t:
                foreach (Tone tone in t.Tones) { yield return new("tap tone", "frequency", tone.Frequency.Value, Root(tone.Frequency.Spread, ToneScatter), null, tone); }
                break;
        }
    }

    /// <summary>Deflection at mid-span of a piece laid over two supports: bending and shear (ASTM D7250/D7250M), the piece as a strip that is free to curve across.</summary>
    /// <param name="sample">The piece.</param>
    /// <param name="bending">The test.</param>
    /// <returns>m.</returns>
    public static double Deflection(Sample sample, BendingReading bending) => Deflected(sample, bending).Total;

    /// <summary>The same, bending and shear apart.</summary>
    /// <param name="sample">The piece.</param>
    /// <param name="bending">The test.</param>
    /// <returns>m.</returns>
    public static BeamDeflection Deflected(Sample sample, BendingReading bending)
    {
        Layups.Laminate layup = sample.Layup(underWeight: true);
        double width = bending.Across ? sample.Length : sample.Width;
        Layups.Sym3 compliance = layup.Bending.Inverse();
        double d = width / (bending.Across ? compliance.M22 : compliance.M11), u = width * (bending.Across ? layup.Shear.Sy : layup.Shear.Sx);
        return BeamBending.Deflection(bending.Load.Value * Gravity + bending.Plunger, bending.Span.Value, bending.LoadSpan, d, u);
    }

    internal static double Root(params ReadOnlySpan<double> parts)
    {
        double sum = 0;
        foreach (double p in parts) { sum += p * p; }
        return Math.Sqrt(sum);
    }
}
