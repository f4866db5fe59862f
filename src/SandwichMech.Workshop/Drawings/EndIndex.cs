using SandwichMech.Core.Outlines;

namespace SandwichMech.Workshop.Drawings;

/// <summary>Finds loose strokes by where they end.</summary>
internal sealed class EndIndex
{
    private readonly double _tolerance;
    private readonly (double X, Point At, int Stroke)[] _ends;
    private readonly bool[] _taken;
    private int _next;

    internal EndIndex(List<Stroke> strokes, double tolerance)
    {
        _tolerance = tolerance;
        _taken = new bool[strokes.Count];
        _ends = [.. strokes.SelectMany((s, i) => ((Point, int)[])[(s.Curve.Segments[0].P0, i), (s.Curve.Segments[^1].P3, i)])
            .Select(e => (e.Item1.X, e.Item1, e.Item2)).OrderBy(e => e.X)];
    }

    /// <summary>Takes the first stroke that is left; nothing where none is.</summary>
    internal int? Any()
    {
        while (_next < _taken.Length && _taken[_next]) { _next++; }
        if (_next == _taken.Length) { return null; }
        _taken[_next] = true;
        return _next;
    }

    internal void Take(int stroke) => _taken[stroke] = true;

    /// <summary>Strokes not yet taken with an end at a point.</summary>
    internal IEnumerable<int> Near(Point p)
    {
        int low = 0, high = _ends.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (_ends[middle].X < p.X - _tolerance) { low = middle + 1; }
            else { high = middle; }
        }

        for (int i = low; i < _ends.Length && _ends[i].X <= p.X + _tolerance; i++)
        {
            if (!_taken[_ends[i].Stroke] && (_ends[i].At - p).Norm <= _tolerance) { yield return _ends[i].Stroke; }
        }
    }
}
