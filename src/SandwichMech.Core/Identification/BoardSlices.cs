using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;

namespace SandwichMech.Core.Identification;

/// <summary>A board or its blank laid over two straight supports that run right across it, as a beam whose section changes along the span.</summary>
/// <remarks>
/// Plane sections: at each station N = ∫(e_a ε + e_b κ) dy and M = ∫(e_b ε + e_d κ) dy with no force along, so EI = ∫e_d − (∫e_b)²/∫e_a about the plane that all places share; e_a, e_b, e_d are a place's stiffness
/// against stretching and bending one way, with no force or moment the other way, as of a strip that is free to curve across (ASTM D7250/D7250M takes a beam so). Deflection at mid-span by unit load,
/// δ = ∫M m/EI ds + ∫V v/U ds (Timoshenko, Strength of Materials, 1955, from memory). That wood let in takes its full share from its very edge on makes it a little too stiff.
/// </remarks>
public sealed class BoardSlices
{
    private const int Stations = 160, Rows = 160;

    private readonly BendingReading _test;
    private readonly SectionPlace[] _places;
    private readonly double[][] _widths;

    private BoardSlices(BendingReading test, SectionPlace[] places, double[][] widths) => (_test, _places, _widths) = (test, places, widths);

    /// <summary>Slices a shape for a bending test.</summary>
    /// <param name="shape">The shape; the span lies about its middle.</param>
    /// <param name="test">The test.</param>
    /// <returns>The slices; nothing where the supports do not both lie under the board.</returns>
    public static BoardSlices? Of(BoardShape shape, BendingReading test)
    {
        Box box = shape.Outline.Bounds();
        double middle = test.Across ? box.Middle.Y : box.Middle.X, from = test.Across ? box.MinX : box.MinY, to = test.Across ? box.MaxX : box.MaxY;
        double size = test.Across ? box.MaxY - box.MinY : box.MaxX - box.MinX, step = test.Span.Value / Stations, row = (to - from) / Rows;
        if (test.Span.Value >= size) { return null; }
        var places = new List<SectionPlace>();
        var numbers = new Dictionary<string, int>(StringComparer.Ordinal);
        var widths = new List<Dictionary<int, double>>();
        for (int i = 0; i < Stations; i++)
        {
            double along = middle - test.Span.Value / 2 + (i + 0.5) * step;
            var slice = new Dictionary<int, double>();
            for (int j = 0; j < Rows; j++)
            {
                double across = from + (j + 0.5) * row;
                Point p = test.Across ? new(across, along) : new(along, across);
                if (!shape.Outline.Contains(p) || shape.Holes.Any(h => h.Contains(p))) { continue; }
                int[] regions = BoardShape.Covering(shape.Regions, p);
                string key = string.Join(',', regions);
                if (!numbers.TryGetValue(key, out int number))
                {
                    numbers[key] = number = places.Count;
                    places.Add(new(regions, p));
                }

                slice[number] = slice.GetValueOrDefault(number) + row;
            }

            if (slice.Count == 0) { return null; }
            widths.Add(slice);
        }

        return new(test, [.. places], [.. widths.Select(slice => Enumerable.Range(0, places.Count).Select(n => slice.GetValueOrDefault(n)).ToArray())]);
    }

    /// <summary>Deflection at mid-span.</summary>
    /// <param name="board">The board on that shape, its woods as a weight finds them.</param>
    /// <returns>Bending and shear, m.</returns>
    public BeamDeflection Deflected(Board board)
    {
        (double A, double B, double D, double S)[] of = [.. _places.Select(p => OneWay(BoardPlate.Section(board, p)))];
        double load = _test.Load.Value * Observations.Gravity + _test.Plunger, span = _test.Span.Value, arm = (span - _test.LoadSpan) / 2, step = span / Stations;
        double bending = 0, shear = 0;
        for (int i = 0; i < Stations; i++)
        {
            double a = 0, b = 0, d = 0, s = 0;
            for (int n = 0; n < of.Length; n++)
            {
                double width = _widths[i][n];
                a += width * of[n].A;
                b += width * of[n].B;
                d += width * of[n].D;
                s += width * of[n].S;
            }

            double at = (i + 0.5) * step, near = Math.Min(at, span - at);
            bending += load / 2 * Math.Min(near, arm) * (near / 2) / (d - b * b / a) * step;
            if (near < arm) { shear += load / 4 / s * step; }
        }

        return new(bending, shear);
    }

    private (double A, double B, double D, double S) OneWay(PlateSection section)
    {
        Matrix<double> stiffness = Matrix<double>.Build.Dense(6, 6);
        Put(0, 0, section.A);
        Put(0, 3, section.B);
        Put(3, 0, section.B);
        Put(3, 3, section.D);
        Matrix<double> compliance = stiffness.Inverse();
        int e = _test.Across ? 1 : 0, k = e + 3;
        double det = compliance[e, e] * compliance[k, k] - compliance[e, k] * compliance[k, e];
        return (compliance[k, k] / det, -compliance[e, k] / det, compliance[e, e] / det, _test.Across ? section.S.Sy : section.S.Sx);

        void Put(int row, int column, Sym3 block)
        {
            double[,] full = { { block.M11, block.M12, block.M16 }, { block.M12, block.M22, block.M26 }, { block.M16, block.M26, block.M66 } };
            for (int r = 0; r < 3; r++)
            {
                for (int c = 0; c < 3; c++) { stiffness[row + r, column + c] = full[r, c]; }
            }
        }
    }
}
