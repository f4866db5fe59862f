using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>A stretch of a curve that runs together with another.</summary>
internal sealed class CurveStretch
{
    private readonly Curve _part;
    private readonly double _t0;
    private readonly double _t1;
    private readonly double _segments;

    /// <summary>The stretch from t0 to t1, which may lie beyond the end of a closed curve.</summary>
    internal CurveStretch(Curve curve, double t0, double t1)
    {
        (_t0, _t1, _segments) = (t0, t1, curve.Segments.Count);
        _part = curve.Part(t0, t1);
    }

    /// <summary>Whether a place of the whole curve lies on the stretch.</summary>
    internal bool Holds(double t) => (t >= _t0 && t <= _t1) || (t + _segments >= _t0 && t + _segments <= _t1);

    /// <summary>The place on the whole curve that is nearest to a point, and its distance.</summary>
    internal (double T, double Distance) Nearest(Point p)
    {
        NearestPoint n = _part.Nearest(p);
        int k = Math.Min((int)n.T, _part.Segments.Count - 1);
        double start = Math.Max(_t0, Math.Floor(_t0) + k), end = Math.Min(_t1, Math.Floor(_t0) + k + 1);
        double t = start + (n.T - k) * (end - start);
        return (t > _segments ? t - _segments : t, n.Distance);
    }
}
