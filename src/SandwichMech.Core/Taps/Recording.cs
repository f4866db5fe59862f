namespace SandwichMech.Core.Taps;

/// <summary>Sound of one channel, full scale at 1.</summary>
/// <param name="SampleRate">Samples in a second, Hz.</param>
/// <param name="Samples">Values from −1 to 1, finite.</param>
public sealed record Recording(double SampleRate, double[] Samples)
{
    /// <summary>How long it is, s.</summary>
    public double Duration => Samples.Length / SampleRate;
}
