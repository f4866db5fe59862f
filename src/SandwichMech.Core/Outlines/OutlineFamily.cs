using System.Globalization;

namespace SandwichMech.Core.Outlines;

/// <summary>Outlines from a few measures: a family of our own with two bouts and a waist, rectangles and ellipses.</summary>
/// <remarks>
/// All lie on the board's axes: x along the grain from 0 to the length, the lower bout at the small x, alike on both sides of
/// y = 0, anticlockwise. Proportions are invented ones.
/// </remarks>
public static class OutlineFamily
{
    private const double LowerShare = 0.745, WaistShare = 0.49, UpperShare = 0.57;
    private const double LowerAt = 0.24, WaistAt = 0.62, UpperAt = 0.82;

    // Least distance of the places along the board from each other and from the ends, in parts of the length.
    private const double LeastStep = 0.04;

    // Handles of the round ends, in parts of the way; 0.5523 would be a quarter of an ellipse, more is fuller.
    private const double EndFullness = 0.62;

    // Handles along the side lie between these parts of the way to the next widest or narrowest place.
    private const double ShortHandle = 0.2, LongHandle = 0.62;

    /// <summary>An outline with two bouts and a waist.</summary>
    /// <param name="length">Along the grain, m.</param>
    /// <param name="lowerWidth">Largest width of the lower bout, m; by default in proportion to the length.</param>
    /// <param name="waistWidth">Width of the waist, m; no wider than the bouts.</param>
    /// <param name="upperWidth">Largest width of the upper bout, m.</param>
    /// <param name="waistPosition">Where the waist lies, m from the lower end.</param>
    /// <param name="lowerPosition">Where the lower bout is widest, m from the lower end.</param>
    /// <param name="upperPosition">Where the upper bout is widest, m from the lower end.</param>
    /// <returns>Eight cubic segments. Widths and places are met exactly; the tangent is continuous everywhere, and the
    /// curvature too wherever the proportions leave room for it.</returns>
    /// <remarks>
    /// Half the outline is four cubics, with tangents across at the ends and along at bouts and waist. A cubic that leaves an end
    /// along its tangent with a handle a, its other handle ending a distance h off that tangent, begins with the curvature
    /// 2h/(3a²) (Farin 2002); equating these at each joint gives the handles on the far side from those on the near side.
    /// </remarks>
    /// <exception cref="ArgumentException">The measures do not make such an outline; the message says which.</exception>
    public static Curve Of(
        double length, double? lowerWidth = null, double? waistWidth = null, double? upperWidth = null,
        double? waistPosition = null, double? lowerPosition = null, double? upperPosition = null)
    {
        double lower = (lowerWidth ?? LowerShare * length) / 2, upper = (upperWidth ?? lower * 2 * UpperShare / LowerShare) / 2;
        double waist = (waistWidth ?? Math.Min(WaistShare / LowerShare * 2 * lower, 2 * upper)) / 2;
        double atLower = lowerPosition ?? LowerAt * length, atWaist = waistPosition ?? WaistAt * length, atUpper = upperPosition ?? UpperAt * length;
        Check(length, lower, waist, upper, atLower, atWaist, atUpper);

        double tail = EndFullness * lower, neck = EndFullness * upper;
        // Per unit of the handle on one side of a joint, the handle on the other that has the same curvature.
        double intoWaist = Math.Sqrt((lower - waist) / (lower - tail)), throughWaist = Ratio(upper - waist, lower - waist), outOfWaist = Math.Sqrt((upper - waist) / (upper - neck));
        double first = atWaist - atLower, second = atUpper - atWaist, end = length - atUpper;
        double a = Near(atLower, EndFullness * atLower, intoWaist, first), b = Within(first, a * intoWaist);
        double e = Near(end, EndFullness * end, outOfWaist, second), d = Within(second, e * outOfWaist);
        double c1 = Near(first, 0.45 * first, throughWaist, second), c2 = Within(second, c1 * throughWaist);
        Bezier[] half =
        [
            new(new(0, 0), new(0, -tail), new(atLower - a, -lower), new(atLower, -lower)),
            new(new(atLower, -lower), new(atLower + b, -lower), new(atWaist - c1, -waist), new(atWaist, -waist)),
            new(new(atWaist, -waist), new(atWaist + c2, -waist), new(atUpper - d, -upper), new(atUpper, -upper)),
            new(new(atUpper, -upper), new(atUpper + e, -upper), new(length, -neck), new(length, 0)),
        ];
        return new([.. half, .. half.Reverse().Select(s => Mirrored(s).Reversed())]);
    }

    /// <summary>A rectangle.</summary>
    /// <param name="length">Along the grain, m.</param>
    /// <param name="width">Across, m.</param>
    /// <exception cref="ArgumentException">A measure is not positive.</exception>
    public static Curve Rectangle(double length, double width)
    {
        Positive(("length", length), ("width", width));
        return Shapes.Rectangle(new(0, -width / 2, length, width / 2));
    }

    /// <summary>An ellipse.</summary>
    /// <param name="length">Along the grain, m.</param>
    /// <param name="width">Across, m.</param>
    /// <exception cref="ArgumentException">A measure is not positive.</exception>
    public static Curve Ellipse(double length, double width)
    {
        Positive(("length", length), ("width", width));
        return Shapes.Ellipse(new(length / 2, 0), length / 2, width / 2, 0);
    }

    // The wanted handle, shortened or lengthened so that the one it asks for beyond the joint fits there, if it can.
    private static double Near(double way, double wanted, double ratio, double otherWay) => ratio > 0
        ? Math.Clamp(Math.Clamp(wanted, ShortHandle * otherWay / ratio, LongHandle * otherWay / ratio), ShortHandle * way, 0.9 * way)
        : wanted;

    private static double Within(double way, double handle) => Math.Clamp(handle, ShortHandle * way, LongHandle * way);

    private static double Ratio(double above, double below) => below > 0 ? Math.Sqrt(above / below) : 0;

    private static Bezier Mirrored(Bezier s)
    {
        return new(Over(s.P0), Over(s.P1), Over(s.P2), Over(s.P3));

        static Point Over(Point p) => p with { Y = -p.Y };
    }

    private static void Check(double length, double lower, double waist, double upper, double atLower, double atWaist, double atUpper)
    {
        Positive(("length", length), ("lower bout's width", 2 * lower), ("waist", 2 * waist), ("upper bout's width", 2 * upper));
        if (waist > lower) { throw Impossible($"a waist of {Mm(2 * waist)} is wider than the lower bout ({Mm(2 * lower)}): make the waist narrower or the bout wider"); }
        if (waist > upper) { throw Impossible($"a waist of {Mm(2 * waist)} is wider than the upper bout ({Mm(2 * upper)}): make the waist narrower or the bout wider"); }
        (string Name, double At)[] places = [("the lower end", 0), ("the lower bout's widest place", atLower), ("the waist", atWaist), ("the upper bout's widest place", atUpper), ("the upper end", length)];
        for (int i = 1; i < places.Length; i++)
        {
            if (!(places[i].At - places[i - 1].At >= LeastStep * length))
            {
                throw Impossible($"{places[i].Name} ({Mm(places[i].At)} from the lower end) has to lie beyond {places[i - 1].Name} ({Mm(places[i - 1].At)}) by {Mm(LeastStep * length)} or more");
            }
        }
    }

    private static void Positive(params ReadOnlySpan<(string Name, double Value)> measures)
    {
        foreach ((string name, double value) in measures)
        {
            if (!(value > 0 && double.IsFinite(value))) { throw Impossible($"the {name} has to be greater than 0"); }
        }
    }

    private static ArgumentException Impossible(string message) => new(message);

    private static string Mm(double metres) => string.Create(CultureInfo.InvariantCulture, $"{1000 * metres:0.#} mm");
}
