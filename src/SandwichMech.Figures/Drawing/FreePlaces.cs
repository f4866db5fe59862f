namespace SandwichMech.Figures.Drawing;

/// <summary>Finds places for words where nothing lies yet.</summary>
/// <param name="bounds">Where words may stand.</param>
internal sealed class FreePlaces(Box bounds)
{
    private const double Gap = 2, GapBetweenWords = 5;

    // A word in the way weighs more than a line in the way; one that leaves its panel is never right.
    private const int WordCost = 20, OutsideCost = 1000;

    private readonly List<Box> _shapes = [];
    private readonly List<Box> _words = [];

    /// <summary>Keeps words off a box.</summary>
    internal void KeepClear(Box box) => _shapes.Add(box);

    /// <summary>Keeps further words off these.</summary>
    internal void KeepClear(Words words) => _words.AddRange(words.Boxes());

    /// <summary>Keeps words off a line, given in pixels.</summary>
    internal void KeepClear(IReadOnlyList<(double X, double Y)> line, double half)
    {
        const double step = 5;
        foreach (((double X, double Y) a, (double X, double Y) b) in line.Zip(line.Skip(1)))
        {
            int count = Math.Max(1, (int)Math.Ceiling(Math.Sqrt((b.X - a.X) * (b.X - a.X) + (b.Y - a.Y) * (b.Y - a.Y)) / step));
            foreach (int i in Enumerable.Range(0, count + 1))
            {
                double share = (double)i / count, x = a.X + (b.X - a.X) * share, y = a.Y + (b.Y - a.Y) * share;
                if (bounds.Contains(x, y))
                {
                    _shapes.Add(Box.Around(x, y, half, half));
                }
            }
        }
    }

    /// <summary>The first place that is free, or else the one that touches least.</summary>
    /// <param name="places">Each a block of lines that stay together; best liked first.</param>
    /// <param name="needed">Whether a place that touches something is better than none.</param>
    internal Words[]? Choose(IEnumerable<Words[]> places, bool needed)
    {
        (Words[] Lines, int Cost)? best = null;
        foreach (Words[] lines in places)
        {
            int cost = lines.Sum(Cost);
            if (cost == 0)
            {
                return lines;
            }

            if (best is null || cost < best.Value.Cost)
            {
                best = (lines, cost);
            }
        }

        return needed ? best?.Lines : null;
    }

    private int Cost(Words words)
    {
        int cost = 0;
        foreach (Box box in words.Boxes().Select(b => b.Grown(Gap)))
        {
            cost += bounds.Contains(box) ? 0 : OutsideCost;
            cost += _words.Count(box.Grown(GapBetweenWords - Gap).Overlaps) * WordCost + _shapes.Count(box.Overlaps);
        }

        return cost;
    }
}
