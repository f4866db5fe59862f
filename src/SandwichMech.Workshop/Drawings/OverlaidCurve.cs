using SandwichMech.Core.Outlines;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Drawings;

/// <summary>A closed line of a drawing of its own that lies over the outline's drawing, coordinate on coordinate.</summary>
internal static class OverlaidCurve
{
    /// <summary>Reads the line and lays it as the outline was laid.</summary>
    /// <param name="outline">The outline.</param>
    /// <param name="path">The other drawing.</param>
    /// <param name="part">Id or layer of the line; needed where the drawing holds several.</param>
    /// <param name="unit">The other drawing's unit; what it says itself when left out, else what was told of the outline's.</param>
    /// <exception cref="InputException">The drawing cannot be read, or leaves a choice; or the line crosses itself.</exception>
    internal static Curve Of(DrawnOutline outline, string path, string? part, string? unit)
    {
        Drawing drawing = DrawingFiles.Read(path, new() { Unit = unit, UnitIfSilent = outline.Drawing.Wishes.Unit, IsOfRegion = true });
        if ((drawing.Format == "SVG") != (outline.Drawing.Format == "SVG"))
        {
            throw new InputException(path, $"is read as {drawing.Format} and the outline's drawing as {outline.Drawing.Format}, and only in an SVG y runs down the page: save both as one kind");
        }

        DrawnCurve curve = Chosen(drawing, part);
        DrawnOutline.CheckSimple(drawing, curve);
        return outline.Laid(curve.Curve);
    }

    private static DrawnCurve Chosen(Drawing drawing, string? part)
    {
        if (part is null)
        {
            return drawing.Curves is [var only] ? only
                : throw new InputException(drawing.Path, $"has several closed lines ({DrawnOutline.Listed(drawing.Curves)}): choose one with part = \"…\"");
        }

        // An id goes before the layer that has the same name; of several lines on a layer the first is called as the layer, and is not meant for that.
        DrawnCurve[] named = [.. drawing.Curves.Where(c => c.Is(part))], byId = [.. named.Where(c => !string.Equals(c.Layer, part, StringComparison.OrdinalIgnoreCase))];
        if (byId.Length == 1) { return byId[0]; }
        if (named.Length == 1) { return named[0]; }
        if (named.Length > 1) { throw new InputException(drawing.Path, $"has {named.Length} closed lines on '{TypedText.Short(part)}': name one of {DrawnOutline.Listed(named)}"); }
        OpenPiece[] open = [.. drawing.Open.Where(o => string.Equals(o.Group, part, StringComparison.OrdinalIgnoreCase))];
        throw new InputException(drawing.Path, open.Length > 0
            ? OpenPieces.Words(open, drawing.Numbers, 1)
            : $"has no closed line '{TypedText.Short(TypedText.OneLine(part))}' (it has {DrawnOutline.Listed(drawing.Curves)})");
    }
}
