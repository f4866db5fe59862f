namespace SandwichMech.Figures.Drawing;

/// <summary>How a line is broken, so that it is told apart without colour too.</summary>
internal enum Dash
{
    Solid,
    Dashed,
    DashDot,
    Dotted,
}

/// <summary>How a line is drawn.</summary>
/// <param name="Colour">As #RRGGBB.</param>
/// <param name="Width">Pixels.</param>
/// <param name="Dash">How it is broken.</param>
internal sealed record Stroke(string Colour, double Width, Dash Dash = Dash.Solid);

/// <summary>Colours that survive colour-blindness and a grey printer: Okabe &amp; Ito (2008), "Color Universal Design".</summary>
internal static class Palette
{
    internal const string Ink = "#1A1A1A";
    internal const string Muted = "#595959";
    internal const string Grid = "#E3E3E3";
    internal const string Frame = "#8C8C8C";
    internal const string Orange = "#E69F00";
    /// <summary>Sky blue mixed with white, so that it stays apart from orange in grey.</summary>
    internal const string PaleBlue = "#B3DDF5";
    internal const string Green = "#009E73";
    internal const string Blue = "#0072B2";
    internal const string Vermillion = "#D55E00";
    internal const string Purple = "#CC79A7";

    /// <summary>The board and its family.</summary>
    internal static readonly Stroke Board = new(Blue, 3);

    /// <summary>Solid woods in order, the one that the board is measured against first; the dashes differ for a grey printer.</summary>
    internal static readonly IReadOnlyList<Stroke> Solids = [new(Vermillion, 2.5, Dash.Dashed), new(Green, 2.5, Dash.DashDot), new(Purple, 2.5, Dash.Dotted)];

    /// <summary>A colour of an ordered row, light to dark.</summary>
    /// <param name="share">0 lightest to 1 darkest.</param>
    internal static string Ordered(double share)
    {
        (int R, int G, int B) light = (0x62, 0xAA, 0xD8), dark = (0x06, 0x2B, 0x5C);
        int Mix(int from, int to) => (int)Math.Round(from + (to - from) * share);
        return $"#{Mix(light.R, dark.R):X2}{Mix(light.G, dark.G):X2}{Mix(light.B, dark.B):X2}";
    }
}
