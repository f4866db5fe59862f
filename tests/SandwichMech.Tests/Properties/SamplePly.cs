using SandwichMech.Core.Layups;

namespace SandwichMech.Tests.Properties;

/// <summary>Short ways to write plies; SI units, angles in degrees.</summary>
internal static class SamplePly
{
    public static Ply Isotropic(double thickness, double e, double nu, double density = 0) =>
        Orthotropic(thickness, e, e, nu, e / (2 * (1 + nu)), e / (2 * (1 + nu)), e / (2 * (1 + nu)), 0, density);

    public static Ply Orthotropic(
        double thickness, double e1, double e2, double nu12, double g12, double g13, double g23, double degrees = 0, double density = 0) => new()
        {
            Name = "ply",
            Thickness = thickness,
            E1 = e1,
            E2 = e2,
            Nu12 = nu12,
            G12 = g12,
            G13 = g13,
            G23 = g23,
            Density = density,
            Angle = degrees * Math.PI / 180,
        };

    /// <summary>A core that carries transverse shear alone.</summary>
    public static Ply Core(double thickness, double g13, double g23, double density = 0) =>
        Orthotropic(thickness, 0, 0, 0, 0, g13, g23, 0, density);

    /// <summary>A ply given by its reduced stiffnesses instead of its moduli.</summary>
    public static Ply Reduced(double thickness, double q11, double q12, double q22, double q66, double g13, double g23, double degrees = 0, double density = 0) =>
        Orthotropic(thickness, q11 - q12 * q12 / q22, q22 - q12 * q12 / q11, q12 / q22, q66, g13, g23, degrees, density);
}
