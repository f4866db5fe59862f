using System.Collections.Concurrent;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Workshop.Boards;

/// <summary>What changes from place to place is asked at the same places for every input's spread, and the nearest point of an outline takes long to find.</summary>
internal static class Remembered
{
    /// <summary>The same function that works out each place once.</summary>
    internal static Func<Point, double> Of(Func<Point, double> at)
    {
        var known = new ConcurrentDictionary<Point, double>();
        return p => known.GetOrAdd(p, at);
    }
}
