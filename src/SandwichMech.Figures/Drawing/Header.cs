namespace SandwichMech.Figures.Drawing;

/// <summary>Title and head lines of a picture.</summary>
internal static class Header
{
    internal const double Left = 40, TitleSize = 25, LineSize = 16, LineStep = 23;

    private const double TitleY = 36, FirstLineY = 66;

    /// <summary>Writes the board's name, what the picture shows, and lines with the figures that matter.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="name">The board's name; one that fills the title by itself is cut short at the picture's edge.</param>
    /// <param name="shows">What the picture shows: behind the name, or below a long one.</param>
    /// <param name="lines">Head lines; each is cut short at the picture's edge.</param>
    internal static void Write(Picture picture, string name, string shows, IEnumerable<string> lines)
    {
        double room = picture.Width - 2 * Left;
        string whole = $"{name}: {shows}";
        bool fits = TextWidth.Of(whole, TitleSize, true) <= room;
        picture.Add(new Words(fits ? whole : TextWidth.Fit(name, room, TitleSize, true), Left, TitleY, TitleSize) { Bold = true });
        int i = 0;
        foreach (string line in fits ? lines : lines.Prepend(shows))
        {
            picture.Add(new Words(TextWidth.Fit(line, room, LineSize), Left, FirstLineY + LineStep * i++, LineSize) { Colour = Palette.Muted });
        }
    }

    /// <summary>Explains, small, at the foot.</summary>
    internal static void Foot(Picture picture, params string[] lines)
    {
        for (int i = 0; i < lines.Length; i++)
        {
            double y = picture.Height - 20 - 20 * (lines.Length - 1 - i);
            picture.Add(new Words(TextWidth.Fit(lines[i], picture.Width - 2 * Left, Panel.TickSize), Left, y, Panel.TickSize) { Colour = Palette.Muted });
        }
    }
}
