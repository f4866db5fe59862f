using SkiaSharp;

namespace SandwichMech.Figures.Drawing;

/// <summary>Finds a font by name: the default of a machine may have serifs, or no letters at all.</summary>
internal static class Fonts
{
    /// <summary>Wanted in this order; also what an SVG asks its viewer for.</summary>
    internal static readonly IReadOnlyList<string> Names = ["DejaVu Sans", "Liberation Sans", "Noto Sans", "Arial", "Helvetica", "Segoe UI"];

    /// <summary>What to install where no font is found.</summary>
    internal const string HowToInstall =
        "install a font, for example fonts-dejavu-core (Debian, Ubuntu) or dejavu-sans-fonts (Fedora)";

    /// <summary>Whether words can be drawn.</summary>
    /// <param name="family">Gives the typeface for a family name and whether it is to be bold, or nothing.</param>
    internal static bool AnyUsable(Func<string, bool, SKTypeface?> family) => Find(family, bold: false) is not null;

    /// <summary>The first font with letters, by the wanted names and then by any name the machine has.</summary>
    /// <param name="family">Gives the typeface for a family name and whether it is to be bold, or nothing.</param>
    /// <param name="bold">Bold or regular.</param>
    internal static SKTypeface? Find(Func<string, bool, SKTypeface?> family, bool bold) =>
        Names.Concat(SKFontManager.Default.FontFamilies.Order(StringComparer.Ordinal))
            .Select(name => family(name, bold))
            .FirstOrDefault(face => face is not null && face.ContainsGlyph('A'));

    /// <summary>The typeface of exactly this family on this machine; Skia would hand out another in its place.</summary>
    internal static SKTypeface? OfThisMachine(string family, bool bold) =>
        SKFontManager.Default.MatchFamily(family, bold ? SKFontStyle.Bold : SKFontStyle.Normal);
}
