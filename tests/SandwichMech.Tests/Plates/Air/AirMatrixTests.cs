using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Plates.Air;

/// <summary>What the air's energy must be like, whatever the plate: symmetric, positive, cubic in the size, blind to where the plate lies, less without a baffle.</summary>
public class AirMatrixTests
{
    private static readonly Func<Point, double>[] Shapes =
    [
        _ => 1, p => p.X, p => p.Y, p => p.X * p.Y, p => p.X * p.X, p => Math.Cos(5 * p.X + 1), p => Math.Sin(4 * p.Y) * p.X, p => Math.Cos(7 * p.X) * Math.Cos(6 * p.Y),
    ];

    private static readonly bool[] Both = [false, true];

    public static TheoryData<string> Plates => [.. Meshes.Keys];

    private static readonly Dictionary<string, PlateMesh> Meshes = new()
    {
        ["disc"] = SamplePlate.DiscMesh(0.9, 4),
        ["ellipse"] = AirSamples.Ellipse(1, 0.35, 4),
        ["rectangle"] = PlateMesh.Rectangle(1.3, 0.5, 10, 4),
        ["ring"] = AirSamples.Annulus(0.3, 1, 4, 24),
        ["board"] = PlateMesher.Mesh(new MeshDomain(OutlineFamily.Of(2), [Core.Outlines.Shapes.Circle(new(1.36, 0), 0.18)], [], _ => 0), 0.25),
    };

    [Theory]
    [Trait("Check", "exact")]
    [MemberData(nameof(Plates))]
    public void Symmetric_and_positive(string plate)
    {
        foreach (bool baffled in Both)
        {
            var v = Matrix<double>.Build.DenseOfArray(AirSamples.Volumes(Meshes[plate], baffled, Shapes));
            Assert.True(v.IsSymmetric());
            Vector<double> size = v.Diagonal().PointwiseSqrt();
            double least = Normed(v, size).Evd(Symmetricity.Symmetric).EigenValues[0].Real;
            Assert.True(least > 1e-4, $"{plate}, {(baffled ? "baffled" : "free")}: {least}");
        }
    }

    [Theory]
    [Trait("Check", "exact")]
    [MemberData(nameof(Plates))]
    public void A_baffle_never_lightens_the_air(string plate)
    {
        var free = Matrix<double>.Build.DenseOfArray(AirSamples.Volumes(Meshes[plate], false, Shapes));
        var baffled = Matrix<double>.Build.DenseOfArray(AirSamples.Volumes(Meshes[plate], true, Shapes));
        Vector<double> size = baffled.Diagonal().PointwiseSqrt();
        double least = Normed(baffled - free, size).Evd(Symmetricity.Symmetric).EigenValues[0].Real;
        Assert.True(least > 0, $"{plate}: {least}");
    }

    // V of a deflection that moves with the plate grows with the cube of its size.
    [Fact]
    [Trait("Check", "exact")]
    public void Cubic_in_the_size()
    {
        PlateMesh mesh = Meshes["rectangle"];
        Gen.Double[0.01, 20].Sample(size =>
        {
            PlateMesh scaled = AirSamples.Mapped(mesh, p => size * p);
            foreach (bool baffled in Both)
            {
                double one = AirSamples.Volume(mesh, baffled, p => Math.Cos(3 * p.X)), other = AirSamples.Volume(scaled, baffled, p => Math.Cos(3 * p.X / size));
                Checks.Near(size * size * size * one, other, 1e-10);
            }
        }, iter: 5);
    }

    // Turned, the plate meets other waves: what is left is the error of the method itself.
    [Theory]
    [Trait("Check", "exact")]
    [MemberData(nameof(Plates))]
    public void Moving_the_plate_changes_nothing(string plate)
    {
        PlateMesh mesh = Meshes[plate];
        Gen.Select(Gen.Double[-3, 3], Gen.Double[-5, 5], Gen.Double[-5, 5]).Sample(
            (angle, dx, dy) =>
            {
                Point by = new(dx, dy);
                PlateMesh moved = SamplePlate.Moved(mesh, angle, by);
                foreach (bool baffled in Both)
                {
                    double[,] here = AirSamples.Volumes(mesh, baffled, Shapes);
                    double[,] there = AirSamples.Volumes(moved, baffled, [.. Shapes.Select<Func<Point, double>, Func<Point, double>>(w => p => w((p - by).Turned(-angle)))]);
                    for (int i = 0; i < Shapes.Length; i++)
                    {
                        for (int j = 0; j <= i; j++)
                        {
                            Checks.Close(here[i, j], there[i, j], 3e-3 * Math.Sqrt(here[i, i] * here[j, j]), $"{plate} {i} {j}");
                        }
                    }
                }
            },
            iter: 3);
    }

    private static Matrix<double> Normed(Matrix<double> v, Vector<double> size) => Matrix<double>.Build.Dense(v.RowCount, v.ColumnCount, (i, j) => v[i, j] / (size[i] * size[j]));
}
