namespace SandwichMech.Core.Layups;

/// <summary>Strain, stress, or force or moment per width in the plane, in Voigt order.</summary>
/// <param name="X">Along x.</param>
/// <param name="Y">Along y.</param>
/// <param name="Xy">Shear (of strains the engineering one), or twist.</param>
public readonly record struct InPlane(double X, double Y, double Xy)
{
    /// <summary>Sum.</summary>
    public static InPlane operator +(InPlane a, InPlane b) => new(a.X + b.X, a.Y + b.Y, a.Xy + b.Xy);

    /// <summary>Difference.</summary>
    public static InPlane operator -(InPlane a, InPlane b) => new(a.X - b.X, a.Y - b.Y, a.Xy - b.Xy);

    /// <summary>Multiple.</summary>
    public static InPlane operator *(InPlane a, double s) => new(a.X * s, a.Y * s, a.Xy * s);

    /// <summary>Product of a stiffness or compliance with it.</summary>
    public static InPlane operator *(Sym3 m, InPlane a) => new(
        m.M11 * a.X + m.M12 * a.Y + m.M16 * a.Xy,
        m.M12 * a.X + m.M22 * a.Y + m.M26 * a.Xy,
        m.M16 * a.X + m.M26 * a.Y + m.M66 * a.Xy);

    /// <summary>A stress or line force seen from axes turned by an angle: X is then what acts along that direction.</summary>
    /// <param name="angle">From x towards y, rad.</param>
    /// <returns>Components in the turned axes.</returns>
    public InPlane SeenFrom(double angle)
    {
        double c = Math.Cos(angle), s = Math.Sin(angle);
        return new(c * c * X + s * s * Y + 2 * s * c * Xy, s * s * X + c * c * Y - 2 * s * c * Xy, s * c * (Y - X) + (c * c - s * s) * Xy);
    }

    /// <summary>A strain given in axes that are turned by an angle, in the board's.</summary>
    /// <param name="along">Strain along the turned axis 1.</param>
    /// <param name="across">Strain along the turned axis 2.</param>
    /// <param name="angle">From x to axis 1, rad.</param>
    /// <returns>Strain, engineering shear.</returns>
    public static InPlane Strain(double along, double across, double angle)
    {
        double c = Math.Cos(angle), s = Math.Sin(angle);
        return new(c * c * along + s * s * across, s * s * along + c * c * across, 2 * s * c * (along - across));
    }
}
