using SandwichMech.Core.Outlines;

namespace SandwichMech.Tests.Outlines;

/// <summary>An invented outline with bouts and a waist, smooth all round, 0.48 m × 0.36 m.</summary>
internal static class SampleOutline
{
    // Half-widths at stations from the tail, m; the ends lie on the centre line.
    private static readonly (double X, double HalfWidth)[] Stations =
    [
        (0, 0), (0.004, 0.062), (0.022, 0.112), (0.06, 0.157), (0.115, 0.179), (0.17, 0.1755), (0.225, 0.150), (0.275, 0.1235), (0.315, 0.118),
        (0.36, 0.1285), (0.40, 0.1385), (0.435, 0.132), (0.462, 0.107), (0.4765, 0.06), (0.48, 0),
    ];

    public static Curve Board { get; } = Shapes.Smooth(
        [.. Stations.Select(s => new Point(s.X, -s.HalfWidth)), .. Stations.Reverse().Skip(1).SkipLast(1).Select(s => new Point(s.X, s.HalfWidth))]);

    public static Curve Soundhole { get; } = Shapes.Circle(new(0.325, 0), 0.0425);

    public static Curve BridgePatch { get; } = Shapes.Rectangle(new(0.115, -0.095, 0.145, 0.095));
}
