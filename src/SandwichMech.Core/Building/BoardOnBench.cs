using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;

namespace SandwichMech.Core.Building;

/// <summary>The board as it lies on the bench at a stage: half-built or whole, blank or cut out, with or without what is glued on later.</summary>
public static class BoardOnBench
{
    /// <summary>The board at a stage.</summary>
    /// <param name="board">The board as known; its shape is given.</param>
    /// <param name="stage">From the first bond on.</param>
    /// <param name="margin">Of the blank, m.</param>
    /// <returns>The board: free on foam until it is on the rim.</returns>
    /// <exception cref="DomainException">The blank cannot be meshed.</exception>
    /// <exception cref="ArgumentException">The board has no shape.</exception>
    public static Board At(Board board, BuildStage stage, double margin)
    {
        BoardShape shape = board.Shape ?? throw new ArgumentException("The board has no outline.", nameof(board));
        if (stage >= BuildStage.OnRim) { return board with { Shape = shape with { Edge = shape.Edge == EdgeHold.Free ? EdgeHold.Rim : shape.Edge } }; }
        bool half = stage < BuildStage.SecondBond, blank = stage < BuildStage.CutOut;
        BoardRegion[] regions = [.. shape.Regions.Where(r => stage == BuildStage.Braced || IsThere(r.Change, half, blank))];
        Curve outline = blank ? BondAreas.Blank(shape.Outline, margin) : shape.Outline;
        IReadOnlyList<Curve> holes = blank ? [] : shape.Holes;
        return board with
        {
            IsHalfBuilt = half,
            Shape = shape with
            {
                Outline = outline,
                Holes = holes,
                Regions = regions,
                Edge = EdgeHold.Free,
                Stretches = [],
                Parts = regions.Length == shape.Regions.Count && !blank ? shape.Parts : BoardPlate.Parts(outline, holes, regions),
            },
        };
    }

    // Bars, weights and joints come on last; channels are cut with the edge, and a skin is graded when it is sanded.
    private static bool IsThere(RegionChange change, bool half, bool blank) => change switch
    {
        LetInWood or TurnedCore => true,
        SkinPart part => !half || part.Face == Face.Outer,
        MirroredGrain mirrored => !half || mirrored.Face == Face.Outer,
        FilledChannel or GradedSkin => !blank,
        _ => false,
    };
}
