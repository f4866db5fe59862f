using SandwichMech.Figures;
using SandwichMech.Workshop.Units;
using ScottPlot.Plottables;

namespace SandwichMech.Tests.Pictures;

/// <summary>Reads back what a panel plots.</summary>
internal static class DrawnData
{
    /// <summary>All lines and rows of marks of a panel, as values in the units that are shown.</summary>
    internal static List<(double X, double Y)[]> Series(this Picture picture, int panel)
    {
        var p = picture.Panels[panel];
        return [.. p.Plot.GetPlottables<Scatter>().Select(s => s.Data.GetScatterPoints().Select(c => (Back(c.X, p.X.IsLog), Back(c.Y, p.Y.IsLog))).ToArray())];
    }

    /// <summary>The bands of a panel, each as its upper edge and then its lower edge backward.</summary>
    internal static (double X, double Y)[][] Bands(this Picture picture, int panel) =>
        [.. picture.Panels[panel].Plot.GetPlottables<Polygon>().Select(b => b.Coordinates.Select(c => (c.X, c.Y)).ToArray())];

    internal static (double X, double Y)[] Arrow(this Picture picture, int panel)
    {
        var p = picture.Panels[panel];
        Arrow arrow = p.Plot.GetPlottables<Arrow>().Single();
        return [(Back(arrow.Base.X, p.X.IsLog), Back(arrow.Base.Y, p.Y.IsLog)), (Back(arrow.Tip.X, p.X.IsLog), Back(arrow.Tip.Y, p.Y.IsLog))];
    }

    internal static Rectangle[] Bars(this Picture picture, int panel) => [.. picture.Panels[panel].Plot.GetPlottables<Rectangle>()];

    /// <summary>Fails unless one of the series is this one, point by point.</summary>
    internal static void Holds(this IEnumerable<(double X, double Y)[]> series, IEnumerable<(double X, double Y)> wanted, string what)
    {
        (double X, double Y)[] all = [.. wanted];
        Assert.True(
            series.Any(s => s.Length == all.Length && s.Zip(all).All(p => Same(p.First.X, p.Second.X) && Same(p.First.Y, p.Second.Y))),
            $"no series is {what}: {string.Join(" ", all.Take(3))} …");
    }

    internal static double In(this UnitSystem units, double si, Shown kind) => Display.In(si, kind, units);

    // A logarithm and back costs a few of the last digits.
    private static bool Same(double a, double b) => Math.Abs(a - b) <= 1e-12 * Math.Max(Math.Abs(a), Math.Abs(b));

    private static double Back(double coordinate, bool isLog) => isLog ? Math.Pow(10, coordinate) : coordinate;
}
