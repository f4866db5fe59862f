using MathNet.Numerics.LinearAlgebra;

namespace SandwichMech.Core.Plates;

/// <summary>One mode of a plate in air.</summary>
/// <param name="Frequency">Hz.</param>
/// <param name="Nearest">Number of the mode in vacuo that it mostly is, from 0.</param>
/// <param name="Ratio">Its frequency divided by that mode's.</param>
/// <param name="Parts">Amplitude of each flexible mode in vacuo in it, for unit modal mass of plate and air together.</param>
/// <param name="RigidParts">Amplitude of each rigid-body mode in it, for the same.</param>
/// <param name="Shape">Deflection w at the nodes, for that same modal mass, 1/√kg; what a free plate gives way as a whole is in it.</param>
public sealed record AirMode(double Frequency, int Nearest, double Ratio, IReadOnlyList<double> Parts, IReadOnlyList<double> RigidParts, IReadOnlyList<double> Shape);

/// <summary>The modes of a plate in air.</summary>
/// <param name="Modes">Flexible modes, lowest first.</param>
/// <param name="AddedMass">Modal mass of the air between the flexible modes in vacuo, whose own modal mass is 1: [mode, mode], symmetric.</param>
public sealed record AirModes(IReadOnlyList<AirMode> Modes, double[,] AddedMass);

/// <summary>Frequencies in air from the modes in vacuo.</summary>
/// <remarks>
/// The deflection is a sum of the modes in vacuo of unit modal mass, rigid ones included. The air adds A = ρV (<see cref="AirVolume"/>) to their mass and
/// nothing to their stiffness: (Λ − ω² (I + A)) q = 0. A is positive semidefinite, so no frequency rises. Rigid modes are kept because the air ties
/// them to the flexible ones. Modes that are left out enter with the square of their entry in A: four more than wanted leave about 0.01 % in a
/// frequency, ten 0.003 % (measured on free, hinged and clamped boards).
/// </remarks>
internal static class AirMass
{
    /// <summary>Modes in air.</summary>
    /// <param name="system">The plate.</param>
    /// <param name="vacuum">Its modes in vacuo: as many flexible ones as wanted, better four to ten more.</param>
    /// <param name="baffled">Whether the plate lies in an infinite rigid baffle, as a board on its rim does nearly; otherwise air flows round its edges and through its holes.</param>
    /// <param name="airDensity">kg/m³, 0 or more.</param>
    /// <param name="wanted">Flexible modes wanted.</param>
    /// <returns>The modes in air.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The density is negative or not a number, or more modes are wanted than there are in vacuo.</exception>
    internal static AirModes Of(PlateSystem system, PlateModes.Result vacuum, bool baffled, double airDensity, int wanted)
    {
        int all = vacuum.Values.Length, rigid = vacuum.Rigid, flexible = all - rigid;
        if (!(airDensity >= 0) || double.IsInfinity(airDensity))
        {
            throw new ArgumentOutOfRangeException(nameof(airDensity), airDensity, "The density of the air must be 0 kg/m³ or more.");
        }

        if (wanted < 1 || wanted > flexible)
        {
            throw new ArgumentOutOfRangeException(nameof(wanted), wanted, $"In air, 1 to {flexible} modes can be had from {flexible} in vacuo: solve for more of those.");
        }

        double[][] shapes = [.. vacuum.Vectors.Select(v => system.Deflection(v))];
        var points = new AirPoints(system.Mesh, system.IntegralsOf, AirDetail.Usual);
        Matrix<double> added = airDensity * Matrix<double>.Build.DenseOfArray(AirVolume.Of(points, shapes, baffled));
        Matrix<double> inverse = (Matrix<double>.Build.DenseIdentity(all) + added).Cholesky().Factor.Inverse();
        // L⁻¹ Λ L⁻ᵀ has the same ω²; the rigid modes' are exactly 0 and come first.
        Matrix<double> stiffness = Matrix<double>.Build.DenseDiagonal(all, all, i => i < rigid ? 0 : vacuum.Values[i]);
        var evd = (inverse * stiffness * inverse.Transpose()).Evd(Symmetricity.Symmetric);
        Matrix<double> parts = inverse.Transpose() * evd.EigenVectors;
        return new(
            [.. Enumerable.Range(rigid, wanted).Select(i => Mode(vacuum, evd.EigenValues[i].Real, parts.Column(i).ToArray(), shapes))],
            added.SubMatrix(rigid, flexible, rigid, flexible).ToArray());
    }

    private static AirMode Mode(PlateModes.Result vacuum, double value, double[] parts, double[][] shapes)
    {
        double[] flexible = parts[vacuum.Rigid..], shape = new double[shapes[0].Length];
        int nearest = Array.IndexOf(flexible, flexible.MaxBy(Math.Abs));
        for (int j = 0; j < parts.Length; j++)
        {
            for (int i = 0; i < shape.Length; i++) { shape[i] += parts[j] * shapes[j][i]; }
        }

        return new(Math.Sqrt(value) / (2 * Math.PI), nearest, Math.Sqrt(value / vacuum.Values[vacuum.Rigid + nearest]), flexible, parts[..vacuum.Rigid], shape);
    }
}
