using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Workshop.Boards;

/// <summary>Book-matched skins: on the right of the centre line the grain is that of the left half mirrored.</summary>
internal static class BookMatching
{
    private sealed record Half(SkinFields Skin, Face Face, string Name);

    private static readonly Half[] Halves = [new(BoardFields.Outer, Face.Outer, "right half of the outer skin"), new(BoardFields.Inner, Face.Inner, "right half of the inner skin")];

    /// <summary>Warns where there is nothing to mirror.</summary>
    internal static void Check(ReadFields fields, Findings findings)
    {
        foreach (Half half in Halves.Where(h => IsMatched(fields, h) && Grain(fields, h) == 0))
        {
            findings.Warn(fields.Line(half.Skin.BookMatched), half.Skin.BookMatched.Name, "changes nothing, since the grain runs along the board: write grain, the angle of the left half, or leave this out");
        }
    }

    /// <summary>The mirrored halves as regions of the board.</summary>
    internal static IEnumerable<FiledRegion> Of(ReadFields fields, Curve outline)
    {
        Box box = outline.Bounds();
        foreach (Half half in Halves.Where(h => IsMatched(fields, h) && Grain(fields, h) != 0))
        {
            Curve centre = Shapes.Polygon([new(box.MinX, 0), new(box.MaxX, 0)], closed: false);
            yield return new(new(half.Name, [centre], p => p.Y < 0, new MirroredGrain(half.Face)) { IsPart = false }, fields.LineOrNull(half.Skin.BookMatched), half.Skin.BookMatched.Name);
        }
    }

    private static bool IsMatched(ReadFields fields, Half half) => fields.Reading(half.Skin.BookMatched)?.Name == "yes";

    private static double Grain(ReadFields fields, Half half) => fields.Typed(half.Skin.Grain)?.Value ?? 0;
}
