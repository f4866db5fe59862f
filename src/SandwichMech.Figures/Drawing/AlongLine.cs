namespace SandwichMech.Figures.Drawing;

/// <summary>Places for words that run beside a line and turn with it.</summary>
internal static class AlongLine
{
    /// <summary>Room between line and words, pixels.</summary>
    internal const double Gap = 6;

    /// <summary>Places on one side of a line that goes from left to right, those near its right end first.</summary>
    /// <param name="line">The line in pixels, as far as it can be seen.</param>
    /// <param name="words">The words; where they stand is not used.</param>
    /// <param name="above">Which side.</param>
    /// <param name="gap">Room between line and words, pixels.</param>
    internal static IEnumerable<Words> Places(IReadOnlyList<(double X, double Y)> line, Words words, bool above, double gap = Gap)
    {
        double left = line[0].X, right = line[^1].X;
        for (double share = 0.92; share >= 0.08; share -= 0.03)
        {
            double middle = left + share * (right - left);
            double half = words.Width / 2 * Math.Cos(Angle(line, middle - 2, middle + 2));
            double from = Math.Max(left, middle - half), to = Math.Min(right, middle + half), angle = Angle(line, from, to);
            (double sin, double cos) = Math.SinCos(angle);
            double y = YAt(line, middle), side = above ? -1 : 1;
            // The line may bend towards the words: they keep clear of its nearest point.
            double nearest = Enumerable.Range(0, 13).Max(i =>
            {
                double x = from + (to - from) * i / 12;
                return side * ((YAt(line, x) - y) * cos - (x - middle) * sin);
            });
            double off = side * (nearest + words.Size * 0.56 + gap);
            yield return words with { X = middle - off * sin, Y = y + off * cos, Angle = angle * 180 / Math.PI, Anchor = Anchor.Middle, Halo = true };
        }
    }

    private static double Angle(IReadOnlyList<(double X, double Y)> line, double from, double to) =>
        Math.Atan2(YAt(line, to) - YAt(line, from), to - from);

    private static double YAt(IReadOnlyList<(double X, double Y)> line, double x)
    {
        int i = 1;
        while (i < line.Count - 1 && line[i].X < x)
        {
            i++;
        }

        ((double X, double Y) a, (double X, double Y) b) = (line[i - 1], line[i]);
        return a.Y + (b.Y - a.Y) * (x - a.X) / (b.X - a.X);
    }
}
