using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Outlines;

namespace SandwichMech.Tests.Plates;

/// <summary>Domains on the invented outline.</summary>
internal static class SampleDomain
{
    public const double Size = 0.045;

    public static Curve Band { get; } = Offset.Inward(SampleOutline.Board, 0.010)[0];

    /// <summary>Soundhole, edge band of 10 mm, bridge patch: regions 1 (band), 2 (patch), 0 (the rest).</summary>
    public static MeshDomain Standard { get; } = new(SampleOutline.Board, [SampleOutline.Soundhole], [Band, SampleOutline.BridgePatch],
        p => SampleOutline.BridgePatch.Contains(p) ? 2 : Band.Contains(p) ? 0 : 1);

    /// <summary>A rosette ring of 12 mm and the joint along the middle besides.</summary>
    public static MeshDomain Full { get; } = Standard with
    {
        Borders = [Band, SampleOutline.BridgePatch, Shapes.Circle(new(0.325, 0), 0.0545), Shapes.Polygon([new(-0.01, 0), new(0.5, 0)], closed: false)],
    };

    public static MeshDomain Mapped(this MeshDomain d, Func<Point, Point> map, Func<Point, Point> back) => new(
        d.Outline.Mapped(map), [.. d.Holes.Select(h => h.Mapped(map))], [.. d.Borders.Select(b => b.Mapped(map))], p => d.Region(back(p)));
}
