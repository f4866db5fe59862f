using SandwichMech.Core.Plates;

namespace SandwichMech.Core.Acoustics;

/// <summary>A point of a level's curve.</summary>
/// <param name="Frequency">Hz.</param>
/// <param name="Level">dB.</param>
public sealed record LevelAt(double Frequency, double Level);

/// <summary>How much louder one board is than another for the same force at the bridge, by the volume velocity alone.</summary>
/// <remarks>
/// While a board is small against the wavelength its far sound goes with its volume velocity (Rayleigh 1896, Theory of Sound, §278), so 20 lg |U₁/U₂|, both in the same frame. Peaks
/// that do not lie at one frequency make the curve jump; the mean is of squares, 10 lg (Σ|U₁|²/Σ|U₂|²) over even steps of the
/// logarithm of frequency. Above <see cref="Radiation.MonopoleLimit"/> it says less and less.
/// </remarks>
/// <param name="Mean">Over the band, dB.</param>
/// <param name="Points">Rising frequency.</param>
public sealed record RelativeLevel(double Mean, IReadOnlyList<LevelAt> Points)
{
    private const int StepsAnOctave = 48;

    /// <summary>Compares.</summary>
    /// <param name="board">Volume velocity per force.</param>
    /// <param name="other">That of the other board.</param>
    /// <param name="low">Hz.</param>
    /// <param name="high">Hz, above it and below the highest mode of both.</param>
    /// <returns>The level of the first above the other.</returns>
    public static RelativeLevel Of(ModalTransfer board, ModalTransfer other, double low, double high)
    {
        int steps = Math.Max(2, (int)Math.Ceiling(StepsAnOctave * Math.Log2(high / low)) + 1);
        double[] frequencies = [.. Enumerable.Range(0, steps).Select(i => low * Math.Pow(high / low, i / (steps - 1.0)))];
        double[] ours = [.. frequencies.Select(f => Square(board, f))], theirs = [.. frequencies.Select(f => Square(other, f))];
        return new(Decibel(ours.Sum() / theirs.Sum()), [.. frequencies.Select((f, i) => new LevelAt(f, Decibel(ours[i] / theirs[i])))]);
    }

    /// <summary>The curve alone.</summary>
    /// <param name="board">Volume velocity per force.</param>
    /// <param name="other">That of the other board.</param>
    /// <param name="frequencies">Hz.</param>
    /// <returns>dB at each.</returns>
    public static double[] At(ModalTransfer board, ModalTransfer other, IReadOnlyList<double> frequencies) =>
        [.. frequencies.Select(f => Decibel(Square(board, f) / Square(other, f)))];

    private static double Square(ModalTransfer transfer, double frequency) => Math.Pow(transfer.At(frequency).Magnitude, 2);

    private static double Decibel(double ratio) => 10 * Math.Log10(ratio);
}
