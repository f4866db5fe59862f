using SandwichMech.Core.Outlines;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Drawings;

/// <summary>The outline of a drawing in the board's frame: x along the grain, the lower end at x = 0, the centre line at y = 0.</summary>
/// <param name="Drawing">What it was taken from.</param>
/// <param name="Name">The curve's name in the drawing.</param>
/// <param name="Outline">Closed, anticlockwise, m.</param>
/// <param name="Inside">Curves within it (soundhole and others), anticlockwise, m.</param>
/// <param name="Measures">Length and widths.</param>
/// <param name="Unlikeness">How far the two sides are from being mirror images, m at most.</param>
/// <param name="Notes">What was done, from the reading on.</param>
public sealed record DrawnOutline(
    Drawing Drawing, string Name, Curve Outline, IReadOnlyList<DrawnCurve> Inside, OutlineMeasures Measures, double Unlikeness, IReadOnlyList<string> Notes)
{
    // A rectangle round something as large as this part of it may be the sheet's frame.
    private const double FrameFilling = 0.2;

    // Both sides alike within this part of the size: the mirror line is the centre line.
    private const double Alike = 0.01;

    /// <summary>From the drawing's metres to the board's frame.</summary>
    internal Func<Curve, Curve> Laid { get; init; } = c => c;

    /// <summary>Area within the outline, holes not taken off, m².</summary>
    public double Area => Outline.SignedArea;

    /// <summary>Finds the outline and lays it along the grain.</summary>
    /// <param name="drawing">The drawing.</param>
    /// <exception cref="InputException">There is no outline, or a choice of several; or it crosses itself.</exception>
    public static DrawnOutline Of(Drawing drawing)
    {
        var notes = new List<string>(drawing.Notes);
        DrawnCurve outer = Chosen(drawing);
        CheckSimple(drawing, outer);
        double unlikeness = Laying.Direction(drawing, outer, Alike, notes, out double along);
        Laying laid = Laying.Of(outer.Curve, along, drawing.Wishes.Along is not null, unlikeness <= Alike, notes);
        List<DrawnCurve> inside = [], outside = [];
        foreach (DrawnCurve c in drawing.Curves.Where(c => c != outer))
        {
            // What is drawn twice, on another layer, is the outline once more.
            if (Joining.AreOne(c.Curve, c.Curve.Bounds(), outer.Curve, outer.Curve.Bounds(), Joining.Gap * outer.Curve.Size)) { notes.Add($"'{c.Name}' is the outline once more"); }
            else if (outer.Curve.Contains(c.Curve.At(0.5)) && c.Curve.Size < outer.Curve.Size) { inside.Add(c with { Curve = laid.Moved(c.Curve) }); }
            else { outside.Add(c); }
        }

        if (outside.Count > 0) { notes.Add($"outside the outline and left out: {string.Join(", ", outside.Take(6).Select(c => $"'{c.Name}'"))}{(outside.Count > 6 ? " and others" : "")}"); }
        int lines = laid.Outline.Segments.Count;
        if (!drawing.Wishes.Smooth && lines >= 12 && Smoothing.IsPolygon(laid.Outline))
        {
            double smooth = Math.Abs(Smoothing.Of(laid.Outline).SignedArea) / laid.Outline.SignedArea - 1;
            notes.Add(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"made of {lines} straight lines: a smooth curve through their ends (smooth = \"yes\", or --smooth) would enclose {100 * smooth:+0.00;-0.00} % of area more"));
        }

        return new(drawing, outer.Name, laid.Outline, inside, OutlineMeasures.Of(laid.Outline), unlikeness * outer.Curve.Size, notes) { Laid = laid.Moved };
    }

    /// <summary>The curve inside the outline that a word names.</summary>
    /// <param name="part">Its name or layer.</param>
    /// <exception cref="InputException">There is none, several, or one that cannot be a hole.</exception>
    public DrawnCurve InsideCurve(string part)
    {
        DrawnCurve[] found = [.. Inside.Where(c => string.Equals(c.Name, part, StringComparison.OrdinalIgnoreCase))];
        if (found.Length == 0) { found = [.. Inside.Where(c => c.Is(part))]; }
        if (found.Length != 1)
        {
            throw new InputException(Drawing.Path, found.Length > 1
                ? $"has {found.Length} curves inside the outline on '{TypedText.Short(part)}': name one of {Listed(found)}"
                : $"has no closed curve '{TypedText.Short(TypedText.OneLine(part))}' inside the outline: {(Inside.Count == 0 ? "there is none at all" : $"there is {Listed(Inside)}")}");
        }

        CheckSimple(Drawing, found[0]);
        if (Crossings.Between(found[0].Curve, Outline).Count > 0) { throw new InputException(Drawing.Path, $"the curve '{found[0].Name}' crosses the outline: draw it inside"); }
        return found[0];
    }

    private static DrawnCurve Chosen(Drawing drawing)
    {
        string? part = drawing.Wishes.Part;
        DrawnCurve[] possible = part is null ? [.. drawing.Curves] : [.. drawing.Curves.Where(c => c.Is(part))];
        if (possible.Length == 0)
        {
            OpenPiece[] open = [.. drawing.Open.Where(o => string.Equals(o.Group, part, StringComparison.OrdinalIgnoreCase))];
            if (open.Length > 0) { throw new InputException(drawing.Path, OpenPieces.Words(open, drawing.Numbers, 1)); }
            string? near = Nearest.Name(part!, [.. drawing.Curves.Select(c => c.Name), .. drawing.Curves.Select(c => c.Layer)]);
            throw new InputException(drawing.Path, $"has no closed curve '{TypedText.Short(TypedText.OneLine(part!))}'{(near is null ? "" : $"; did you mean '{near}'?")} (it has {Listed(drawing.Curves)})");
        }

        // A part named exactly goes before all that share its layer.
        if (part is not null && possible.FirstOrDefault(c => string.Equals(c.Name, part, StringComparison.OrdinalIgnoreCase) && c.Layer != c.Name) is { } exact) { return exact; }
        DrawnCurve[] outermost = Outermost(possible);
        DrawnCurve first = outermost.MaxBy(c => c.Curve.Size)!;
        if (part is null && drawing.Curves.Where(c => c.Is("outline")).ToArray() is [var named]) { first = named; }
        else if (outermost.Any(c => c != first && !Joining.AreOne(c.Curve, c.Curve.Bounds(), first.Curve, first.Curve.Bounds(), Joining.Gap * first.Curve.Size)))
        {
            throw new InputException(drawing.Path, $"has several curves that could be the outline: {Listed(outermost)}; choose one (part = \"{first.Name}\" in the board file, or --part \"{first.Name}\")");
        }
        else if (part is null && IsFrame(first, possible))
        {
            throw new InputException(drawing.Path, $"has a rectangle '{first.Name}' round everything, which may be the sheet's frame: choose the outline ({Listed(possible)}) with part = \"…\" in the board file, or --part");
        }

        // A larger piece that is open by a little is likelier the outline than what is closed inside it.
        if (part is null && drawing.Open.Where(o => o.Curve.Size > first.Curve.Size && o.Gap < 0.2 * o.Curve.Size).ToArray() is { Length: > 0 } larger)
        {
            throw new InputException(drawing.Path, $"{OpenPieces.Words(larger, drawing.Numbers, 1)}; or choose '{first.Name}' with part if that is the outline");
        }

        return first;
    }

    private static DrawnCurve[] Outermost(DrawnCurve[] curves) =>
        [.. curves.Where(c => !Array.Exists(curves, o => o != c && o.Curve.Size > c.Curve.Size * (1 + Joining.Gap) && o.Curve.Contains(c.Curve.At(0.5))))];

    private static bool IsFrame(DrawnCurve first, DrawnCurve[] all) =>
        first.Curve.Segments.Count == 4 && Smoothing.IsPolygon(first.Curve)
            && Array.Exists(all, c => c != first && first.Curve.Contains(c.Curve.At(0.5)) && c.Curve.SignedArea > FrameFilling * first.Curve.SignedArea);

    internal static void CheckSimple(Drawing drawing, DrawnCurve curve)
    {
        if (Crossings.Within(curve.Curve) is [var cross, ..])
        {
            // Where the maker can find it; a curve inside the outline is in the board's frame already.
            Point place = drawing.Numbers(cross.At);
            string at = drawing.Curves.Contains(curve) ? $" at ({MachineNumber.Show(place.X)}, {MachineNumber.Show(place.Y)})" : "";
            throw new InputException(drawing.Path, $"the curve '{curve.Name}' {(cross.IsShared ? "runs back over itself" : "crosses itself")}{at}: draw it as one line round, without a loop");
        }
    }

    internal static string Listed(IReadOnlyList<DrawnCurve> curves)
    {
        IEnumerable<string> all = curves.OrderByDescending(c => c.Curve.Size).Take(8).Select(c =>
        {
            Box box = c.Curve.Bounds();
            return $"'{TypedText.Short(c.Name)}' ({Display.Number(box.MaxX - box.MinX, Shown.Length, UnitSystem.Metric)} × {Display.Text(box.MaxY - box.MinY, Shown.Length, UnitSystem.Metric)})";
        });
        return string.Join(", ", all) + (curves.Count > 8 ? $" and {curves.Count - 8} more" : "");
    }
}
