using System.Globalization;

namespace SandwichMech.Figures.Drawing;

/// <summary>How wide words come out at the most.</summary>
/// <remarks>
/// A table in place of the installed font, so that a picture is laid out alike on every machine, and on one without any
/// font. The widths are those of DejaVu Sans rounded up to a twentieth of the size; it is among the widest of the usual
/// sans-serif fonts, so words in another take less room than was kept for them.
/// </remarks>
internal static class TextWidth
{
    private const double BoldTimes = 1.13, Unlisted = 1.05;

    private static readonly (double Width, string Characters)[] Groups =
    [
        (0.30, "'IJijl′"), (0.35, " ,./:;\\|·"), (0.40, "()-[]ft″"), (0.45, "!r²³"), (0.50, "\"*_`°–"), (0.55, "?cszç"),
        (0.60, "FLkvxy"), (0.65, "$0123456789EPSTYabdeghnopquµäöüéßøåñ{}"), (0.70, "ABCKRVXZ"), (0.75, "NU"), (0.80, "&DGHOQ"),
        (0.85, "#+<=>^w~×→±≈≤"), (0.90, "M"), (1.00, "%@Wm—…½¼¾"),
    ];

    private static readonly Dictionary<char, double> Widths =
        Groups.SelectMany(g => g.Characters.Select(c => (c, g.Width))).ToDictionary(p => p.c, p => p.Width);

    /// <summary>Width of words, pixels.</summary>
    internal static double Of(string text, double size, bool bold) =>
        text.Sum(c => Widths.GetValueOrDefault(c, Unlisted)) * size * (bold ? BoldTimes : 1);

    /// <summary>The words, cut short with an ellipsis where they are wider than there is room for.</summary>
    internal static string Fit(string text, double room, double size, bool bold = false)
    {
        if (Of(text, size, bold) <= room)
        {
            return text;
        }

        // By text elements, so that no accent is torn from its letter.
        int[] starts = StringInfo.ParseCombiningCharacters(text);
        return starts.Reverse().Select(start => text[..start].TrimEnd() + "…").FirstOrDefault(t => Of(t, size, bold) <= room) ?? "…";
    }
}
