namespace SandwichMech.Figures.Drawing;

/// <summary>Places for words around a marked point.</summary>
internal static class AroundPoint
{
    private const double Off = 13, LineStep = 20;

    /// <summary>To the right first: for a point with a curve that rises to the right through it.</summary>
    internal static readonly IReadOnlyList<(double X, double Y, Anchor Anchor)> Right =
    [
        (1, 1, Anchor.Start), (1, 0, Anchor.Start), (1, -1, Anchor.Start), (0, 1.6, Anchor.Middle),
        (-1, -1, Anchor.End), (-1, 1, Anchor.End), (0, -1.6, Anchor.Middle),
    ];

    /// <summary>To the left first: for a point with something on its right.</summary>
    internal static readonly IReadOnlyList<(double X, double Y, Anchor Anchor)> Left =
    [
        (-1, -1, Anchor.End), (-1, 1, Anchor.End), (1, 1, Anchor.Start), (1, -1, Anchor.Start),
        (0, 1.6, Anchor.Middle), (0, -1.6, Anchor.Middle),
    ];

    /// <summary>Places for a block of lines, nearer ones first.</summary>
    /// <param name="x">The point, pixels.</param>
    /// <param name="y">The point, pixels.</param>
    /// <param name="words">How the words look; where they stand and what they say is not used.</param>
    /// <param name="lines">What they say.</param>
    /// <param name="sides"><see cref="Right"/> or <see cref="Left"/>.</param>
    internal static IEnumerable<Words[]> Places(
        double x, double y, Words words, string[] lines, IReadOnlyList<(double X, double Y, Anchor Anchor)> sides)
    {
        double block = LineStep * (lines.Length - 1);
        foreach (double reach in new[] { 1.0, 1.6, 2.4 })
        {
            foreach ((double dx, double dy, Anchor anchor) in sides)
            {
                // The line nearest to the point keeps the distance; the others follow outward.
                double first = y + dy * Off * reach - (dy < 0 ? block : dy == 0 ? block / 2 : 0);
                yield return [.. lines.Select((line, i) => words with
                {
                    Text = line,
                    X = x + dx * Off * reach,
                    Y = first + LineStep * i,
                    Anchor = anchor,
                    Halo = true,
                })];
            }
        }
    }
}
