namespace SandwichMech.Figures.Drawing;

/// <summary>Which part of the words stands at the point that is given for them.</summary>
internal enum Anchor
{
    Start,
    Middle,
    End,
}

/// <summary>One line of words on a picture.</summary>
/// <param name="Text">The words.</param>
/// <param name="X">Where the anchor stands, pixels from the left.</param>
/// <param name="Y">Middle of the capitals, pixels from the top.</param>
/// <param name="Size">Size of the font, pixels.</param>
internal sealed record Words(string Text, double X, double Y, double Size)
{
    /// <summary>Middle of the capitals above the baseline, as a share of the size; capitals are 0.7 to 0.73 high in the usual sans-serif fonts.</summary>
    internal const double CapitalMiddle = 0.36;

    private const double HalfLine = 0.56;

    /// <summary>The words on one line: names may hold line breaks and other control characters.</summary>
    internal string Text { get; init => field = OneLine(value); } = OneLine(Text);

    internal Anchor Anchor { get; init; } = Anchor.Start;

    internal bool Bold { get; init; }

    internal string Colour { get; init; } = Palette.Ink;

    /// <summary>Turned clockwise about the anchor, degrees.</summary>
    internal double Angle { get; init; }

    /// <summary>Whether a white rim keeps the words apart from what they lie on.</summary>
    internal bool Halo { get; init; }

    internal double Width => TextWidth.Of(Text, Size, Bold);

    private static string OneLine(string text) => string.Join(
        ' ', new string([.. text.Select(c => char.IsControl(c) ? ' ' : c)]).Split(' ', StringSplitOptions.RemoveEmptyEntries));

    /// <summary>The room the words take: one box, or a row of small ones where they are turned.</summary>
    internal IReadOnlyList<Box> Boxes()
    {
        double start = Anchor switch { Anchor.Start => 0, Anchor.Middle => -Width / 2, _ => -Width };
        double half = HalfLine * Size;
        if (Angle == 0)
        {
            return [new(X + start, Y - half, X + start + Width, Y + half)];
        }

        // Squares that a turn by any angle keeps within the height of the line.
        double square = half / Math.Sqrt(2), inset = Math.Min(square, Width / 2);
        int count = Math.Max(2, (int)Math.Ceiling(Width / (square * 1.5)));
        (double sin, double cos) = Math.SinCos(Angle * Math.PI / 180);
        return [.. Enumerable.Range(0, count).Select(i =>
        {
            double along = start + inset + (Width - 2 * inset) * i / (count - 1);
            return Box.Around(X + along * cos, Y + along * sin, square, square);
        })];
    }
}
