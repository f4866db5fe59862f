using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates;

/// <summary>A direction in the plane, the stretch of it that the plate covers, and the waves that fit on that stretch.</summary>
/// <param name="Along">Unit vector e.</param>
/// <param name="Middle">Middle of the stretch of s = x·e, m.</param>
/// <param name="Half">Half its length σ, m.</param>
/// <param name="Angle">Share of the half circle of directions that it stands for, rad; all add up to π.</param>
/// <param name="FirstOrder">Order of the first wave, 1 or ½; the wave of order n is exp(iπn(s − middle)/σ).</param>
internal readonly record struct AirDirection(Point Along, double Middle, double Half, double Angle, double FirstOrder);

/// <summary>Sums of columns of numbers at points with plane waves in many directions.</summary>
/// <remarks>
/// Directions lie even on the circle after the plate has been stretched to equal second moments along its two principal axes, so that a long
/// plate is met as well as a round one. Orders are whole in every other direction and halves in the rest: both sets are
/// complete on the stretch, and where the series is cut off the two ends of the stretch meet with opposite signs, so that what
/// they do to each other cancels between neighbours.
/// </remarks>
internal sealed class AirWaves
{
    /// <summary>Waves in each direction.</summary>
    internal const int Terms = 12;
    /// <summary>Directions; an even number.</summary>
    internal const int Directions = 36;
    private const int Lanes = 4, Chunk = 512;
    private readonly Point _centre;
    private readonly double _xx, _xy, _yy, _narrowest;
    private readonly Point[] _edge;

    /// <summary>Waves for a plate.</summary>
    /// <param name="centre">Its centre of area.</param>
    /// <param name="xx">∫(x − x₀)² dA / area.</param>
    /// <param name="xy">∫(x − x₀)(y − y₀) dA / area.</param>
    /// <param name="yy">∫(y − y₀)² dA / area.</param>
    /// <param name="edge">Points on its boundary, close enough to show its extent in any direction.</param>
    internal AirWaves(Point centre, double xx, double xy, double yy, Point[] edge)
    {
        (_centre, _edge) = (centre, edge);
        // The square root of the inverse of a 2 × 2 matrix C: with s = √det C and t = √(tr C + 2s), √C = (C + s I)/t.
        double s = Math.Sqrt(xx * yy - xy * xy), t = Math.Sqrt(xx + yy + 2 * s);
        (_xx, _xy, _yy) = ((yy + s) / (s * t), -xy / (s * t), (xx + s) / (s * t));
        All = [.. Enumerable.Range(0, Directions).Select(At)];
        Point[] stretched = [.. edge.Select(Stretched)];
        Reach = stretched.Max(p => p.Norm);
        _narrowest = Enumerable.Range(0, Directions).Min(i => Extent(stretched, new Point(1, 0).Turned(Math.PI * i / Directions)).Half);
    }

    /// <summary>The directions.</summary>
    internal AirDirection[] All { get; }
    /// <summary>Largest distance of the boundary from the centre on the stretched plate.</summary>
    internal double Reach { get; }

    /// <summary>A point on the stretched plate, about its centre.</summary>
    internal Point Stretched(Point p)
    {
        Point d = p - _centre;
        return new(_xx * d.X + _xy * d.Y, _xy * d.X + _yy * d.Y);
    }

    /// <summary>The largest change of phase of any wave along a vector, rad.</summary>
    internal double Phase(Point vector) => Math.PI * Terms * Stretched(_centre + vector).Norm / _narrowest;

    /// <summary>Wavenumber at which the series in a direction is cut off, rad/m: midway to the first wave left out, mean of whole and half orders.</summary>
    internal double CutOff(Point along) => Math.PI * (Terms + 0.25) / Extent(_edge, along).Half;

    /// <summary>Σ over points of column · cos and sin of each wave: [direction][(2·term + 0 or 1) · columns + column].</summary>
    internal double[][] Sums(double[] x, double[] y, double[] columns, int count)
    {
        int points = x.Length, rows = 2 * Terms;
        double[][] sums = [.. All.Select(_ => new double[rows * count])];
        double[] waves = new double[rows * Chunk];
        for (int from = 0; from < points; from += Chunk)
        {
            int length = Math.Min(Chunk, points - from);
            for (int d = 0; d < All.Length; d++)
            {
                Fill(All[d], x.AsSpan(from, length), y.AsSpan(from, length), waves);
                Add(waves, Chunk, rows, columns.AsSpan(from), points, count, length, sums[d]);
            }
        }

        return sums;
    }

    /// <summary>sums[row · columns + column] += Σ rows · columns; counts of rows, columns and points are multiples of 4.</summary>
    internal static void Add(ReadOnlySpan<double> rows, int rowStride, int rowCount, ReadOnlySpan<double> columns, int columnStride, int columnCount, int length, double[] sums)
    {
        ref double r = ref MemoryMarshal.GetReference(rows), c = ref MemoryMarshal.GetReference(columns);
        for (int j = 0; j < columnCount; j += Lanes)
        {
            for (int i = 0; i < rowCount; i += Lanes)
            {
                Tile(ref r, i * rowStride, rowStride, ref c, j * columnStride, columnStride, length, sums.AsSpan(i * columnCount + j), columnCount);
            }
        }
    }

    /// <summary>The next multiple of 4.</summary>
    internal static int Padded(int n) => (n + Lanes - 1) / Lanes * Lanes;

    private AirDirection At(int index)
    {
        (double sin, double cos) = Math.SinCos(Math.PI * (index + 0.5) / Directions);
        Point stretched = new(_xx * cos + _xy * sin, _xy * cos + _yy * sin);
        double square = stretched.Dot(stretched);
        Point along = (1 / Math.Sqrt(square)) * stretched;
        (double middle, double half) = Extent(_edge, along);
        double angle = (_xx * _yy - _xy * _xy) / square * Math.PI / Directions;
        return new(along, middle, half, angle, index % 2 == 0 ? 1 : 0.5);
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

    // One wave from the one before by a turn through the phase of a whole order.
    private static void Fill(in AirDirection d, ReadOnlySpan<double> x, ReadOnlySpan<double> y, double[] waves)
    {
        double scale = Math.PI / d.Half;
        Span<double> cos1 = stackalloc double[x.Length], sin1 = stackalloc double[x.Length];
        for (int p = 0; p < x.Length; p++)
        {
            double phase = scale * (x[p] * d.Along.X + y[p] * d.Along.Y - d.Middle);
            (sin1[p], cos1[p]) = Math.SinCos(phase);
            (waves[Chunk + p], waves[p]) = Math.SinCos(phase * d.FirstOrder);
        }

        ref double c1 = ref MemoryMarshal.GetReference(cos1), s1 = ref MemoryMarshal.GetReference(sin1), w = ref MemoryMarshal.GetArrayDataReference(waves);
        for (int term = 1; term < Terms; term++)
        {
            int at = 2 * term * Chunk;
            for (int p = 0; p < x.Length; p += Lanes)
            {
                Vector256<double> c = Vector256.LoadUnsafe(ref w, (nuint)(at - 2 * Chunk + p)), s = Vector256.LoadUnsafe(ref w, (nuint)(at - Chunk + p));
                Vector256<double> turnC = Vector256.LoadUnsafe(ref c1, (nuint)p), turnS = Vector256.LoadUnsafe(ref s1, (nuint)p);
                (c * turnC - s * turnS).StoreUnsafe(ref w, (nuint)(at + p));
                (s * turnC + c * turnS).StoreUnsafe(ref w, (nuint)(at + Chunk + p));
            }
        }
    }

    private static void Tile(ref double r, int row, int rowStride, ref double c, int column, int columnStride, int length, Span<double> sums, int stride)
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
            (s00, s01, s02, s03) = (Vector256.FusedMultiplyAdd(v, c0, s00), Vector256.FusedMultiplyAdd(v, c1, s01), Vector256.FusedMultiplyAdd(v, c2, s02), Vector256.FusedMultiplyAdd(v, c3, s03));
            v = Vector256.LoadUnsafe(ref r, (nuint)(row + rowStride + p));
            (s10, s11, s12, s13) = (Vector256.FusedMultiplyAdd(v, c0, s10), Vector256.FusedMultiplyAdd(v, c1, s11), Vector256.FusedMultiplyAdd(v, c2, s12), Vector256.FusedMultiplyAdd(v, c3, s13));
            v = Vector256.LoadUnsafe(ref r, (nuint)(row + 2 * rowStride + p));
            (s20, s21, s22, s23) = (Vector256.FusedMultiplyAdd(v, c0, s20), Vector256.FusedMultiplyAdd(v, c1, s21), Vector256.FusedMultiplyAdd(v, c2, s22), Vector256.FusedMultiplyAdd(v, c3, s23));
            v = Vector256.LoadUnsafe(ref r, (nuint)(row + 3 * rowStride + p));
            (s30, s31, s32, s33) = (Vector256.FusedMultiplyAdd(v, c0, s30), Vector256.FusedMultiplyAdd(v, c1, s31), Vector256.FusedMultiplyAdd(v, c2, s32), Vector256.FusedMultiplyAdd(v, c3, s33));
        }

        Store(sums, s00, s01, s02, s03);
        Store(sums[stride..], s10, s11, s12, s13);
        Store(sums[(2 * stride)..], s20, s21, s22, s23);
        Store(sums[(3 * stride)..], s30, s31, s32, s33);
    }

    private static void Store(Span<double> sums, Vector256<double> a, Vector256<double> b, Vector256<double> c, Vector256<double> d)
    {
        sums[0] += Vector256.Sum(a);
        sums[1] += Vector256.Sum(b);
        sums[2] += Vector256.Sum(c);
        sums[3] += Vector256.Sum(d);
    }
}
