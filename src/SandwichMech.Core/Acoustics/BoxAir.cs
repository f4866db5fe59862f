using SandwichMech.Core.Plates;

namespace SandwichMech.Core.Acoustics;

/// <summary>What air beyond the two ends of a hole moves along with it, in parts of the hole's radius.</summary>
public static class HoleEnds
{
    /// <summary>Both ends of a hole in a thin wall: π/2, from the conductance 2R of a round opening (Rayleigh, Theory of Sound, §306). The default.</summary>
    public const double ThinWall = Math.PI / 2;
    /// <summary>One end in a wide flange: 0.8217 (Nomura, Yamamura &amp; Inawashiro 1960, J. Phys. Soc. Jpn. 15, 510; from memory).</summary>
    public const double Flanged = 0.8217;
    /// <summary>One end of a thin pipe that stands free: 0.6133 (Levine &amp; Schwinger 1948, Phys. Rev. 73, 383).</summary>
    public const double Unflanged = 0.6133;
    /// <summary>One end in a wide flange whose air moves as a piston: 8/(3π) (Rayleigh, Theory of Sound, §302).</summary>
    public const double Piston = 8 / (3 * Math.PI);
}

/// <summary>The air of a box with one hole: its spring, and the air in the hole as a mass.</summary>
/// <remarks>One pressure all through the box, so for frequencies whose wavelength is several times the box's length: below some 250 Hz. Walls and back are rigid.</remarks>
/// <param name="Volume">V, m³.</param>
/// <param name="HoleArea">S, m²; 0 where the hole is shut.</param>
/// <param name="HoleThickness">Of the wall at the hole, m.</param>
/// <param name="EndCorrection">Of both ends together, in radii of a circle of the hole's area: see <see cref="HoleEnds"/>.</param>
/// <param name="Density">ρ of the air, kg/m³.</param>
/// <param name="SoundSpeed">c, m/s.</param>
public sealed record BoxAir(
    double Volume, double HoleArea, double HoleThickness, double EndCorrection = HoleEnds.ThinWall,
    double Density = AmbientAir.Density, double SoundSpeed = AmbientAir.SoundSpeed)
{
    /// <summary>Pressure for a change of volume, κ = ρc²/V, Pa/m³.</summary>
    public double Spring => Density * SoundSpeed * SoundSpeed / Volume;
    /// <summary>Length of the air that moves in the hole, m.</summary>
    public double HoleLength => HoleThickness + EndCorrection * Math.Sqrt(HoleArea / Math.PI);
    /// <summary>Mass of that air, kg.</summary>
    public double HoleMass => Density * HoleArea * HoleLength;
    /// <summary>Frequency of box and hole with rigid walls, f_h = c/2π √(S/(V l)), Hz (Helmholtz; Rayleigh, Theory of Sound, §303).</summary>
    public double Helmholtz => HoleArea > 0 ? SoundSpeed / (2 * Math.PI) * Math.Sqrt(HoleArea / (Volume * HoleLength)) : 0;

    /// <summary>The air and the first mode of the top together.</summary>
    /// <param name="frequency">Of the top's mode without the box's air, Hz: what the plate solver gives.</param>
    /// <param name="volume">Volume that the mode moves at unit modal mass, ∫φ dA, m²/√kg: effective area over the root of the effective mass.</param>
    /// <returns>The coupled pair.</returns>
    public BoxCoupling With(double frequency, double volume)
    {
        double own = frequency * frequency, spring = Spring * volume * volume / (4 * Math.PI * Math.PI);
        double plate = own + spring, hole = Helmholtz * Helmholtz;
        // (f² − f_p²)(f² − f_h²) = f_ph⁴; the smaller root by the product f_p² f_h² − f_ph⁴ = own · f_h², so that it is exact where it is near 0.
        double half = (plate + hole) / 2, upper = half + Math.Sqrt((plate - hole) * (plate - hole) / 4 + spring * hole);
        return new(frequency, Math.Sqrt(plate), Math.Sqrt(hole), Math.Pow(spring * hole, 0.25), Math.Sqrt(own * hole / upper), Math.Sqrt(upper));
    }
}

/// <summary>Top and air of a box as two oscillators.</summary>
/// <remarks>
/// m_p x_p'' + k_p x_p + κA(A x_p + S x_h) = F, m_h x_h'' + κS(A x_p + S x_h) = 0 (Christensen &amp; Vistisen 1980, J. Acoust. Soc. Am. 68, 758–766): with
/// f_p of the top with the hole shut, the air's spring in it, (f² − f_p²)(f² − f_h²) = f_ph⁴, f_ph⁴ = κ²A²S²/(m_p m_h)/(2π)⁴ = (f_p² − f_0²) f_h². Hence
/// f_−² + f_+² = f_p² + f_h² and f_− f_+ = f_0 f_h. The back is rigid, and one mode of the top stands for all: others as stiff springs would lower
/// both a little. The air on the inner face is counted in the top's mode as if it lay open to half a space.
/// </remarks>
/// <param name="TopAlone">f_0: the top's mode without the box's air, Hz.</param>
/// <param name="HoleShut">f_p: with the box's air as a spring and the hole shut, Hz.</param>
/// <param name="Helmholtz">f_h: air and hole with a rigid top, Hz.</param>
/// <param name="Coupling">f_ph, Hz.</param>
/// <param name="Lower">f_−: top and hole air against each other, so that both push air out, Hz; 0 with the hole shut.</param>
/// <param name="Upper">f_+, Hz.</param>
public sealed record BoxCoupling(double TopAlone, double HoleShut, double Helmholtz, double Coupling, double Lower, double Upper)
{
    /// <summary>The model the other way round, from three tones of a finished box: the lower and upper one, and the air's with the top held.</summary>
    /// <param name="lower">f_−, Hz.</param>
    /// <param name="upper">f_+, Hz.</param>
    /// <param name="helmholtz">f_h, Hz, between them.</param>
    /// <returns>The pair; nothing where no top gives these three.</returns>
    public static BoxCoupling? From(double lower, double upper, double helmholtz)
    {
        if (!(0 < lower && lower < helmholtz && helmholtz < upper && double.IsFinite(upper))) { return null; }
        double hole = helmholtz * helmholtz, plate = lower * lower + upper * upper - hole;
        return new(lower * upper / helmholtz, Math.Sqrt(plate), helmholtz, Math.Pow((upper * upper - hole) * (hole - lower * lower), 0.25), lower, upper);
    }
}
