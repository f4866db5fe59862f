using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Plates;

/// <summary>A wave so short that first-order shear theory makes the board too soft.</summary>
/// <param name="Along">Whether it runs along the board, or across.</param>
/// <param name="Length">Wavelength, m.</param>
/// <param name="ShearLength">√(D/S), m: waves of less than some tens of it shear.</param>
/// <param name="TooLow">How much too low the theory puts its frequency, relative.</param>
public sealed record ShortWave(bool Along, double Length, double ShearLength, double TooLow);

/// <summary>Where first-order shear theory ends: the skins' own bending, which it leaves out, carries part of the load once the core gives way.</summary>
/// <remarks>
/// A wave of wave number k meets the stiffness D/(1 + k²D/S) by first-order theory. Skins that bend on their own, D_f together, take part beside it:
/// D_f + (D − D_f)/(1 + k²(D − D_f)/S_c), S = S_c (D/(D − D_f))² (thick faces; Allen 1969, from memory; checked against exact elasticity in the tests). With a soft core the second goes to D_f, the first to
/// nothing. A frequency goes with the root.
/// </remarks>
public static class ShortWaves
{
    private const double Enough = 0.01;

    /// <summary>How much too low first-order theory puts the frequency of a wave, relative.</summary>
    /// <param name="bendingStiffness">D, N·m.</param>
    /// <param name="shearStiffness">S, N/m.</param>
    /// <param name="skins">D_f: the skins' own bending stiffness, each about its own middle, together, N·m.</param>
    /// <param name="waveNumber">k, 1/m.</param>
    /// <returns>0 where the skins bend with the board.</returns>
    public static double TooLow(double bendingStiffness, double shearStiffness, double skins, double waveNumber)
    {
        // S counts the whole shear force; the core's own takes only what the skins' stretching brings, the part D − D_f of it.
        double core = bendingStiffness - skins, q = waveNumber * waveNumber / shearStiffness, own = q * Math.Pow(bendingStiffness / core, 2);
        double firstOrder = bendingStiffness / (1 + q * bendingStiffness), withSkins = skins + core / (1 + own * core);
        return 1 - Math.Sqrt(firstOrder / withSkins);
    }

    /// <summary>The wave at a frequency that first-order theory serves worst, where it is off by more than one per cent.</summary>
    /// <param name="board">The board's sandwich.</param>
    /// <param name="frequency">Hz.</param>
    /// <returns>The wave; nothing where the theory holds.</returns>
    public static ShortWave? Of(Board board, double frequency)
    {
        IReadOnlyList<Ply> plies = board.Plies();
        Laminate whole = board.Laminate();
        // Skin and film bend together on either side of the core.
        int core = plies.Count / 2;
        Laminate inner = Laminate.From([.. plies.Take(core)]), outer = Laminate.From([.. plies.Skip(core + 1)]);
        ShortWave along = Wave(true, whole.Bending.M11, whole.Shear.Sx, inner.Bending.M11 + outer.Bending.M11);
        ShortWave across = Wave(false, whole.Bending.M22, whole.Shear.Sy, inner.Bending.M22 + outer.Bending.M22);
        ShortWave worst = along.TooLow > across.TooLow ? along : across;
        return worst.TooLow > Enough ? worst : null;

        ShortWave Wave(bool isAlong, double d, double s, double skins)
        {
            double k = Math.Sqrt(WaveSoftening.WaveNumberSquared(d, s, whole.ArealMass, frequency));
            return new(isAlong, 2 * Math.PI / k, Math.Sqrt(d / s), TooLow(d, s, skins, k));
        }
    }
}
