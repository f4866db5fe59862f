namespace SandwichMech.Core.Outlines;

/// <summary>How alike the two sides of a closed curve are.</summary>
public static class MirrorLine
{
    private const int Points = 256;

    /// <summary>Largest distance of the mirrored curve from the curve itself, in parts of the curve's size; zero where both sides are alike.</summary>
    /// <param name="curve">Closed.</param>
    /// <param name="angle">From x to the mirror line, which passes through the centre of area, rad.</param>
    public static double Unlikeness(Curve curve, double angle)
    {
        Point centre = AreaMoments.Of(curve).Centroid;
        var ruler = new CurveRuler(curve);
        return Enumerable.Range(0, Points).Max(i => curve.Nearest(Mirrored(ruler.At(ruler.Total * i / Points))).Distance) / curve.Size;

        Point Mirrored(Point p)
        {
            Point turned = (p - centre).Turned(-angle);
            return centre + (turned with { Y = -turned.Y }).Turned(angle);
        }
    }

    /// <summary>The direction of the longer principal axis of the area, rad: a mirror line is a principal axis.</summary>
    /// <param name="moments">Of the area.</param>
    public static double PrincipalAngle(AreaMoments moments) => Math.Atan2(2 * moments.Ixy, moments.Iyy - moments.Ixx) / 2;
}
