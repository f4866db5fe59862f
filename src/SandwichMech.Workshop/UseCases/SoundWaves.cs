using SandwichMech.Core.Acoustics;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Workshop.UseCases;

/// <summary>Bending waves of the layups of a board and its solid top, with their intervals.</summary>
internal static class SoundWaves
{
    /// <summary>The rows: to first order in all inputs.</summary>
    internal static IEnumerable<WaveRow> Rows(Board board, double? thickness)
    {
        yield return Row("board", Propagation.Through(board, BoardInputs.Of(board), b => b.Laminate()));
        // A thickness that the file names has its spread in the board's inputs.
        if (thickness is { } h)
        {
            yield return Row("solid top", Propagation.Through(board, BoardInputs.Of(board), b => Board.SolidPlate(b.Solid.Wood, b.Solid.Thickness?.Value ?? h)));
        }
    }

    private static WaveRow Row(string name, Propagation<Laminate> layups) => new(
        name,
        layups.Positive(RadiationRatio.Along),
        layups.Positive(RadiationRatio.Across),
        Critical(layups, BendingWave.Along),
        Critical(layups, BendingWave.Across),
        layups.Positive(WaveSoftening.Along),
        layups.Positive(WaveSoftening.Across));

    // Propagated as one over its square, (2π)²(S − mc²)(D − Ic²)/(mSc⁴), which passes smoothly through 0 where shear begins to hold the wave.
    private static CriticalRow Critical(Propagation<Laminate> layups, Func<Laminate, BendingWave> wave)
    {
        Prediction slow = layups.OfEitherSign(l => Slowness(wave(l)));
        return new(wave(layups.Nominal).Critical(), Frequency(slow.High50), Frequency(slow.Low50), Frequency(slow.High90), Frequency(slow.Low90));

        static double? Frequency(double slowness) => slowness > 0 ? 1 / Math.Sqrt(slowness) : null;
    }

    private static double Slowness(BendingWave w)
    {
        double c2 = AmbientAir.SoundSpeed * AmbientAir.SoundSpeed;
        return Math.Pow(2 * Math.PI, 2) * (w.Shear - w.ArealMass * c2) * (w.Bending - w.RotaryInertia * c2) / (w.ArealMass * w.Shear * c2 * c2);
    }
}
