using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>How finely the air's motion is resolved.</summary>
/// <param name="Waves">Waves in each direction, an even number.</param>
/// <param name="Directions">Directions.</param>
/// <param name="Degree">Degree of the polynomials in the pressure jump.</param>
internal readonly record struct AirDetail(int Waves, int Directions, int Degree)
{
    /// <summary>Within 0.2 % of the added mass, which is some hundredths of a per cent of a frequency at most.</summary>
    internal static readonly AirDetail Usual = new(20, 28, 12);

    /// <summary>Within 0.05 % of the first frequencies of a free rectangle, 0.07 % where it is ten times as long as wide (measured), in less than half the time.</summary>
    internal static readonly AirDetail OfTaps = new(16, 24, 10);
}

/// <summary>A direction in the plane and the stretch of it that the plate covers.</summary>
/// <param name="Along">Unit vector e.</param>
/// <param name="Middle">Middle of the stretch of s = x·e, m.</param>
/// <param name="Half">Half its length σ, m.</param>
/// <param name="Angle">Share of the half circle of directions that it stands for, rad; all add up to π.</param>
internal readonly record struct AirDirection(Point Along, double Middle, double Half, double Angle)
{
    /// <summary>Wavenumber of a wave, rad/m: whole and half periods on the stretch, that is, whole periods on one of twice its length.</summary>
    internal double Wavenumber(double order) => Math.PI * order / (2 * Half);
}

/// <summary>Sums of columns of numbers at points with plane waves in many directions.</summary>
/// <remarks>
/// Directions lie even on the circle after the plate has been stretched to equal second moments along its principal axes, so that a long
/// plate is met as well as a round one. They begin a sixth of a step from the fourfold direction that the edges keep to most: the energy of a straight
/// edge goes with −log of the angle to its normal, and Σ log|n + 1/6| = log(2 sin π/6) = 0 leaves no error for a rectangle.
/// </remarks>
internal sealed class AirWaves
{
    private const int Lanes = 4, Chunk = 128;
    private readonly AirDetail _detail;
    private readonly Point _centre;
    private readonly double _xx, _xy, _yy, _narrowest;
    private readonly Point[] _edge;

    /// <summary>Waves for a plate.</summary>
    /// <param name="detail">How many.</param>
    /// <param name="centre">Centre of area.</param>
    /// <param name="xx">∫(x − x₀)² dA / area, m².</param>
    /// <param name="xy">∫(x − x₀)(y − y₀) dA / area, m².</param>
    /// <param name="yy">∫(y − y₀)² dA / area, m².</param>
    /// <param name="sides">Points on each side of a triangle that lies on the boundary, its ends the first and the last.</param>
    internal AirWaves(AirDetail detail, Point centre, double xx, double xy, double yy, Point[][] sides)
    {
        (_detail, _centre, _edge) = (detail, centre, [.. sides.SelectMany(s => s)]);
        // C^(−1/2) of a 2 × 2 matrix: with s = √det C and t = √(tr C + 2s), √C = (C + s I)/t, whose determinant is s.
        double s = Math.Sqrt(xx * yy - xy * xy), t = Math.Sqrt(xx + yy + 2 * s);
        (_xx, _xy, _yy) = ((yy + s) / (s * t), -xy / (s * t), (xx + s) / (s * t));
        double axis = Fourfold([.. sides.Select(side => Stretched(side[^1]) - Stretched(side[0]))]);
        All = [.. Enumerable.Range(0, detail.Directions).Select(i => At(axis + Math.PI * (i + 1.0 / 6) / detail.Directions))];
        Point[] stretched = [.. _edge.Select(Stretched)];
        Reach = stretched.Max(p => p.Norm);
        _narrowest = Enumerable.Range(0, detail.Directions)
            .Min(i => Extent(stretched, new Point(1, 0).Turned(axis + Math.PI * i / detail.Directions)).Half);
    }

    /// <summary>The directions.</summary>
    internal AirDirection[] All { get; }
    /// <summary>Waves in each direction; their orders are 1, 2, …</summary>
    internal int Count => _detail.Waves;
    /// <summary>Largest distance of the boundary from the centre on the stretched plate.</summary>
    internal double Reach { get; }

    /// <summary>A point on the stretched plate, about its centre.</summary>
    internal Point Stretched(Point p)
    {
        Point d = p - _centre;
        return new(_xx * d.X + _xy * d.Y, _xy * d.X + _yy * d.Y);
    }

    /// <summary>The largest change of phase of any wave along a vector, rad.</summary>
    internal double Phase(Point vector) => Math.PI / 2 * Count * Stretched(_centre + vector).Norm / _narrowest;

    /// <summary>
    /// Wavenumber at which the series in a direction is cut off, rad/m: that of the last wave, which counts half. So the sum is cut as by the
    /// trapezoidal rule, and terms that change sign from wave to wave (an edge with the edge across) cancel too.
    /// </summary>
    internal double CutOff(Point along)
    {
        (double middle, double half) = Extent(_edge, along);
        return new AirDirection(along, middle, half, 0).Wavenumber(Count);
    }

    /// <summary>Σ over points of column · cosine and sine of each wave: [direction][(2 · wave + 0 or 1) · columns + column].</summary>
    /// <param name="x">x of the points, m; their number is a multiple of 4.</param>
    /// <param name="y">y of the points, m.</param>
    /// <param name="columns">The columns, one after the other.</param>
    /// <param name="count">Number of columns, a multiple of 4.</param>
    internal double[][] Sums(double[] x, double[] y, double[] columns, int count)
    {
        int rows = 2 * Count;
        double[][] sums = [.. All.Select(_ => new double[rows * count])];
        double[] waves = new double[rows * Chunk];
        for (int from = 0; from < x.Length; from += Chunk)
        {
            int length = Math.Min(Chunk, x.Length - from);
            for (int d = 0; d < All.Length; d++)
            {
                Fill(All[d], x.AsSpan(from, length), y.AsSpan(from, length), waves);
                AddProducts(waves, Chunk, rows, columns.AsSpan(from), x.Length, count, length, sums[d]);
            }
        }

        return sums;
    }

    /// <summary>sums[row · columns + column] += row · column, over a length; all three numbers are multiples of 4.</summary>
    internal static void AddProducts(
        ReadOnlySpan<double> rows, int rowStride, int rowCount, ReadOnlySpan<double> columns, int columnStride, int columnCount, int length, double[] sums)
    {
        ref double r = ref MemoryMarshal.GetReference(rows), c = ref MemoryMarshal.GetReference(columns);
        for (int j = 0; j < columnCount; j += Lanes)
        {
            for (int i = 0; i < rowCount; i += Lanes)
            {
                AddTile(ref r, i * rowStride, rowStride, ref c, j * columnStride, columnStride, length, sums.AsSpan(i * columnCount + j), columnCount);
            }
        }
    }

    /// <summary>The next multiple of 4.</summary>
    internal static int Padded(int n) => (n + Lanes - 1) / Lanes * Lanes;

    private AirDirection At(double angle)
    {
        Point f = new Point(1, 0).Turned(angle), e = new(_xx * f.X + _xy * f.Y, _xy * f.X + _yy * f.Y);
        double square = e.Dot(e);
        Point along = 1 / Math.Sqrt(square) * e;
        (double middle, double half) = Extent(_edge, along);
        return new(along, middle, half, (_xx * _yy - _xy * _xy) / square * Math.PI / _detail.Directions);
    }

    private static double Fourfold(Point[] vectors)
    {
        double sine = 0, cosine = 0;
        foreach (Point v in vectors)
        {
            (double sin, double cos) = Math.SinCos(4 * Math.Atan2(v.Y, v.X));
            (sine, cosine) = (sine + v.Norm * sin, cosine + v.Norm * cos);
        }

        return Math.Atan2(sine, cosine) / 4;
    }

    private static (double Middle, double Half) Extent(Point[] points, Point along)
    {
        double low = double.MaxValue, high = double.MinValue;
        foreach (Point p in points)
        {
            double s = p.Dot(along);
            (low, high) = (Math.Min(low, s), Math.Max(high, s));
        }

        return ((low + high) / 2, (high - low) / 2);
    }

    // Each wave from the one before by a turn through the phase of the first. Compiled at full speed at once, as below: the first
    // call already does nearly all of the work.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Fill(in AirDirection d, ReadOnlySpan<double> x, ReadOnlySpan<double> y, double[] waves)
    {
        double k = d.Wavenumber(1);
        for (int p = 0; p < x.Length; p++)
        {
            (waves[Chunk + p], waves[p]) = Math.SinCos(k * (x[p] * d.Along.X + y[p] * d.Along.Y - d.Middle));
        }

        ref double w = ref MemoryMarshal.GetArrayDataReference(waves);
        for (int at = 2 * Chunk; at < 2 * Count * Chunk; at += 2 * Chunk)
        {
            for (int p = 0; p < x.Length; p += Lanes)
            {
                Vector256<double> cos1 = Vector256.LoadUnsafe(ref w, (nuint)p), sin1 = Vector256.LoadUnsafe(ref w, (nuint)(Chunk + p));
                Vector256<double> cos = Vector256.LoadUnsafe(ref w, (nuint)(at - 2 * Chunk + p)), sin = Vector256.LoadUnsafe(ref w, (nuint)(at - Chunk + p));
                (cos * cos1 - sin * sin1).StoreUnsafe(ref w, (nuint)(at + p));
                (sin * cos1 + cos * sin1).StoreUnsafe(ref w, (nuint)(at + Chunk + p));
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void AddTile(ref double r, int row, int rowStride, ref double c, int column, int columnStride, int length, Span<double> sums, int stride)
    {
        Vector256<double> s00 = default, s01 = default, s02 = default, s03 = default, s10 = default, s11 = default, s12 = default, s13 = default;
        Vector256<double> s20 = default, s21 = default, s22 = default, s23 = default, s30 = default, s31 = default, s32 = default, s33 = default;
        for (int p = 0; p < length; p += Lanes)
        {
            var c0 = Vector256.LoadUnsafe(ref c, (nuint)(column + p));
            var c1 = Vector256.LoadUnsafe(ref c, (nuint)(column + columnStride + p));
            var c2 = Vector256.LoadUnsafe(ref c, (nuint)(column + 2 * columnStride + p));
            var c3 = Vector256.LoadUnsafe(ref c, (nuint)(column + 3 * columnStride + p));
            var v = Vector256.LoadUnsafe(ref r, (nuint)(row + p));
            s00 = Vector256.FusedMultiplyAdd(v, c0, s00); s01 = Vector256.FusedMultiplyAdd(v, c1, s01);
            s02 = Vector256.FusedMultiplyAdd(v, c2, s02); s03 = Vector256.FusedMultiplyAdd(v, c3, s03);
            v = Vector256.LoadUnsafe(ref r, (nuint)(row + rowStride + p));
            s10 = Vector256.FusedMultiplyAdd(v, c0, s10); s11 = Vector256.FusedMultiplyAdd(v, c1, s11);
            s12 = Vector256.FusedMultiplyAdd(v, c2, s12); s13 = Vector256.FusedMultiplyAdd(v, c3, s13);
            v = Vector256.LoadUnsafe(ref r, (nuint)(row + 2 * rowStride + p));
            s20 = Vector256.FusedMultiplyAdd(v, c0, s20); s21 = Vector256.FusedMultiplyAdd(v, c1, s21);
            s22 = Vector256.FusedMultiplyAdd(v, c2, s22); s23 = Vector256.FusedMultiplyAdd(v, c3, s23);
            v = Vector256.LoadUnsafe(ref r, (nuint)(row + 3 * rowStride + p));
            s30 = Vector256.FusedMultiplyAdd(v, c0, s30); s31 = Vector256.FusedMultiplyAdd(v, c1, s31);
            s32 = Vector256.FusedMultiplyAdd(v, c2, s32); s33 = Vector256.FusedMultiplyAdd(v, c3, s33);
        }

        AddRow(sums, s00, s01, s02, s03);
        AddRow(sums[stride..], s10, s11, s12, s13);
        AddRow(sums[(2 * stride)..], s20, s21, s22, s23);
        AddRow(sums[(3 * stride)..], s30, s31, s32, s33);
    }

    private static void AddRow(Span<double> sums, Vector256<double> a, Vector256<double> b, Vector256<double> c, Vector256<double> d)
    {
        sums[0] += Vector256.Sum(a);
        sums[1] += Vector256.Sum(b);
        sums[2] += Vector256.Sum(c);
        sums[3] += Vector256.Sum(d);
    }
}
