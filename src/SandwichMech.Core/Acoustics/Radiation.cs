using MathNet.Numerics.Integration;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;

namespace SandwichMech.Core.Acoustics;

/// <summary>Sound from one face of a plate in an infinite rigid baffle.</summary>
/// <remarks>
/// Far away p(θ, φ) = iωρ/(2πr) ∫ v e^(−ik·x) dA (Rayleigh 1896, Theory of Sound, §278), so the power of amplitudes v is
/// ω²ρ/(8π²c) ∮ |∫ v e^(−ik·x) dA|² dΩ over half a sphere, of any size of plate. Where the plate is small against the wavelength only the volume velocity U counts: ω²ρ|U|²/(4πc).
/// A board on a box has no baffle (below some 300 Hz sound goes round it: half the power at most) and its inner face
/// works on the box's air: this is of the outer face alone.
/// </remarks>
public sealed class Radiation
{
    // Gauss points in cos θ and even steps of φ: the integrand is smooth, so that both converge faster than any power while k times the plate's radius is below their number.
    private const int Heights = 16, Turns = 32;

    private readonly IReadOnlyList<Point> _points;
    private readonly double[] _areas;
    private readonly double _density, _speed;

    /// <summary>Makes it for a plate.</summary>
    /// <param name="field">Its nodes.</param>
    /// <param name="density">Of the air, kg/m³.</param>
    /// <param name="soundSpeed">m/s.</param>
    public Radiation(ShapeField field, double density = AmbientAir.Density, double soundSpeed = AmbientAir.SoundSpeed)
    {
        (_points, _areas, _density, _speed) = (field.Nodes, field.Areas(), density, soundSpeed);
    }

    /// <summary>Power of a velocity.</summary>
    /// <param name="velocity">Amplitude at each node, m/s, all in phase or against it.</param>
    /// <param name="frequency">Hz; the wavelength longer than a fifth of the plate.</param>
    /// <returns>W, the mean over a cycle.</returns>
    public double Power(IReadOnlyList<double> velocity, double frequency)
    {
        double omega = 2 * Math.PI * frequency, sum = 0;
        var heights = new GaussLegendreRule(0, 1, Heights);
        for (int h = 0; h < Heights; h++)
        {
            double k = omega / _speed * Math.Sqrt(1 - heights.Abscissas[h] * heights.Abscissas[h]);
            // v is real, so that directions half a turn apart are alike.
            for (int t = 0; t < Turns / 2; t++)
            {
                (double s, double c) = Math.SinCos(2 * Math.PI * t / Turns);
                sum += heights.Weights[h] * 2 * (2 * Math.PI / Turns) * Square(velocity, k * c, k * s);
            }
        }

        return omega * omega * _density / (8 * Math.PI * Math.PI * _speed) * sum;
    }

    /// <summary>Loss factor of a mode by the sound of one face.</summary>
    /// <param name="shape">Its deflection at the nodes at unit modal mass, 1/√kg.</param>
    /// <param name="frequency">Its frequency, Hz.</param>
    /// <returns>Power over ω times the energy, ½ω² at unit amplitude.</returns>
    public double Loss(IReadOnlyList<double> shape, double frequency) => Power(shape, frequency) / (Math.PI * frequency);

    /// <summary>The same where the plate is small against the wavelength: ρωV²/(2πc).</summary>
    /// <param name="volume">V, volume that the mode moves at unit modal mass, m²/√kg.</param>
    /// <param name="frequency">Hz.</param>
    /// <param name="density">Of the air, kg/m³.</param>
    /// <param name="soundSpeed">m/s.</param>
    /// <returns>Loss factor.</returns>
    public static double MonopoleLoss(double volume, double frequency, double density = AmbientAir.Density, double soundSpeed = AmbientAir.SoundSpeed) =>
        density * frequency * volume * volume / soundSpeed;

    /// <summary>Up to where volume velocity alone says what is radiated: ka = 1 of a disc of the plate's area.</summary>
    /// <param name="area">m².</param>
    /// <param name="soundSpeed">m/s.</param>
    /// <returns>Hz.</returns>
    public static double MonopoleLimit(double area, double soundSpeed = AmbientAir.SoundSpeed) => soundSpeed / (2 * Math.PI * Math.Sqrt(area / Math.PI));

    private double Square(IReadOnlyList<double> velocity, double kx, double ky)
    {
        double re = 0, im = 0;
        for (int i = 0; i < _areas.Length; i++)
        {
            (double s, double c) = Math.SinCos(kx * _points[i].X + ky * _points[i].Y);
            double part = velocity[i] * _areas[i];
            re += part * c;
            im += part * s;
        }

        return re * re + im * im;
    }
}
