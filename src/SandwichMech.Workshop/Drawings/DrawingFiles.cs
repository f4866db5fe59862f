using System.Text;
using SandwichMech.Core.Outlines;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Drawings;

/// <summary>Reads drawings: SVG, DXF, points or half-widths as CSV.</summary>
public static class DrawingFiles
{
    private const int LargestFile = 10_000_000;
    // m, as for a typed region.
    private const double SmallestRegion = 1e-3;
    private const string Formats = "SVG, ASCII DXF, or CSV of points or half-widths";

    /// <summary>Reads a drawing.</summary>
    /// <param name="path">The file; what it is, its content says.</param>
    /// <param name="wishes">What the user says about it.</param>
    /// <exception cref="InputException">The file cannot be read or used; what is wrong and how to mend it.</exception>
    public static Drawing Read(string path, DrawingWishes? wishes = null) => Parse(path, GivenFile.Bytes(path, "drawing", LargestFile), wishes);

    /// <summary>Reads a drawing's content.</summary>
    /// <param name="path">The file as it is to be called in messages.</param>
    /// <param name="bytes">Its content.</param>
    /// <param name="wishes">What the user says about it.</param>
    /// <exception cref="InputException">It cannot be used; what is wrong and how to mend it.</exception>
    public static Drawing Parse(string path, byte[] bytes, DrawingWishes? wishes = null)
    {
        wishes ??= new();
        if (bytes.Length > LargestFile) { throw new InputException(path, "is larger than 10 MB, which no outline needs: leave in the drawing only the outline and what belongs to it"); }
        double? told = wishes.Unit is null ? null : DrawingUnit.Metres(wishes.Unit)
            ?? throw new InputException(path, $"'{TypedText.Short(TypedText.OneLine(wishes.Unit))}' is no unit of a drawing: write {DrawingUnit.Offered}");
        Sketch sketch = Sketched(path, bytes, told is not null);
        if (sketch.Strokes.Count == 0)
        {
            throw sketch.Bad(null, $"holds no line or curve that is read here{(sketch.LeftOut.Any() ? $" (left out: {string.Join(", ", sketch.LeftOut)})" : "")}: draw the outline as lines, arcs, polylines, splines or paths");
        }

        Joining joined = Joining.Of(sketch);
        if (joined.Closed.Count == 0) { throw sketch.Bad(null, OpenPieces.Words(joined.Open, sketch.Numbers.Of, sketch.Unit ?? told)); }
        double unit = Unit(sketch, joined, told, wishes);
        return new(path, sketch.Format, Named(joined.Closed, unit, wishes.Smooth, sketch), Notes(sketch, joined, unit))
        {
            Wishes = wishes,
            Unit = unit,
            Numbers = p => sketch.Numbers.Of(1 / unit * p),
            Open = [.. joined.Open.Select(o => new OpenPiece(Scaled(o.Curve, unit), o.Group))],
        };
    }

    private static Sketch Sketched(string path, byte[] bytes, bool unitGiven)
    {
        if (bytes.AsSpan().Trim(" \t\r\n"u8).IsEmpty) { throw new InputException(path, $"is empty: give a drawing ({Formats})"); }
        if (bytes.AsSpan(0, Math.Min(bytes.Length, 22)).IndexOf(" Binary DXF"u8) >= 0) { throw new InputException(path, "is a binary DXF: export the drawing as ASCII DXF"); }
        if (bytes.AsSpan().StartsWith((ReadOnlySpan<byte>)[0x1F, 0x8B])) { throw new InputException(path, "is compressed (as .svgz files are): export the drawing as plain SVG, or unpack it"); }
        bool wide = bytes.AsSpan().StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]) || bytes.AsSpan().StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]);
        if (!wide && bytes.AsSpan().Contains((byte)0)) { throw new InputException(path, $"is not a text file: export the drawing as {Formats}"); }
        string text = wide ? Encoding.Unicode.GetString(bytes) : Decoded(bytes);
        string start = text.TrimStart('\uFEFF', ' ', '\t', '\r', '\n');
        string ending = Path.GetExtension(path).ToUpperInvariant();
        if (ending == ".SVG" || start.StartsWith('<')) { return SvgDrawing.Read(path, bytes, unitGiven); }
        bool isDxf = ending == ".DXF" || (start.StartsWith('0') && start.Contains("SECTION", StringComparison.Ordinal)) || start.StartsWith("999", StringComparison.Ordinal);
        if (ending is not (".DXF" or ".CSV" or ".TXT" or ".TSV") && !isDxf && !char.IsAsciiDigit(start[0]) && start[0] is not ('-' or '+' or '.'))
        {
            throw new InputException(path, $"is no drawing that is read here: export it as {Formats}; points with a head line need the ending .csv");
        }

        return isDxf ? DxfDrawing.Read(path, text) : CsvDrawing.Read(path, text);
    }

    // Names of layers may be in an old character set; numbers are the same in all.
    private static string Decoded(byte[] bytes)
    {
        try
        {
            return new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes);
        }
        catch (DecoderFallbackException)
        {
            return Encoding.Latin1.GetString(bytes);
        }
    }

    private static double Unit(Sketch sketch, Joining joined, double? told, DrawingWishes wishes)
    {
        if (wishes.IsOfRegion) { return UnitOfRegion(sketch, joined, told, wishes); }
        string? typed = wishes.Unit;
        Box box = joined.Closed.Select(s => s.Curve.Bounds()).MaxBy(b => b.Size);
        double length = Math.Max(box.MaxX - box.MinX, box.MaxY - box.MinY);
        string? sensible = DrawingUnit.Sensible(length);
        if ((told ?? sketch.Unit) is not { } unit)
        {
            string likely = sensible is null ? "" : $"; in {sensible} its largest curve would be {Show(length * DrawingUnit.Metres(sensible)!.Value)} long";
            throw sketch.Bad(null, $"does not say in which unit it is drawn{likely}: say the unit ({DrawingUnit.Told(sensible ?? "mm")})");
        }

        if (length * unit is < DrawingUnit.Shortest or > DrawingUnit.Longest)
        {
            string from = told is null ? $"with the unit from {sketch.UnitSaid}" : $"in {typed}";
            throw sketch.Bad(null, $"{from} its largest curve is {Show(length * unit)} long, which is no board: "
                + (sensible is null ? $"no usual unit makes it {Show(DrawingUnit.Shortest)} to {Show(DrawingUnit.Longest)} long; scale the drawing"
                    : $"in {sensible} it would be {Show(length * DrawingUnit.Metres(sensible)!.Value)} long; say the unit ({DrawingUnit.Told(sensible)}) if that is meant"));
        }

        bool usual = DrawingUnit.IsUsual(length * unit);
        sketch.Note((told is null ? $"unit from {sketch.UnitSaid}" : $"unit {typed}, as told{(sketch.Unit is { } own && Math.Abs(own / unit - 1) > 1e-6 && sketch.Format != "SVG" ? $", which differs from {sketch.UnitSaid}" : "")}")
            + $": the largest curve is {Show(length * unit)} long"
            + (usual || sensible is null || DrawingUnit.Metres(sensible) == unit || !DrawingUnit.IsUsual(length * DrawingUnit.Metres(sensible)!.Value) ? "" : $", which is unusual; in {sensible} it would be {Show(length * DrawingUnit.Metres(sensible)!.Value)}"));
        return unit;
    }

    // Of a region no size is usual, so none is guessed from it.
    private static double UnitOfRegion(Sketch sketch, Joining joined, double? told, DrawingWishes wishes)
    {
        double? silent = wishes.UnitIfSilent is { } of ? DrawingUnit.Metres(of) : null;
        double unit = told ?? sketch.Unit ?? silent ?? throw sketch.Bad(null, $"does not say in which unit it is drawn: say the unit ({DrawingUnit.Told("mm")})");
        string said = told is not null ? $"the unit {wishes.Unit}" : sketch.Unit is not null ? $"the unit from {sketch.UnitSaid}" : $"the outline's unit {wishes.UnitIfSilent}";
        double size = unit * joined.Closed.Max(s => s.Curve.Size);
        return size is >= SmallestRegion and <= DrawingUnit.Longest
            ? unit
            : throw sketch.Bad(null, $"with {said} its largest closed line is {Show(size)} in size, which is no part of a board: say the unit, or scale the drawing");
    }

    private static List<DrawnCurve> Named(List<Stroke> closed, double unit, bool smooth, Sketch sketch)
    {
        var curves = new List<DrawnCurve>();
        var names = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (Stroke s in closed)
        {
            Curve curve = Scaled(s.Curve, unit);
            if (smooth && Smoothing.IsPolygon(curve)) { curve = Smoothing.Of(curve); }
            string wanted = s.Called.Length > 0 ? TypedText.OneLine(s.Called) : "curve", name = wanted;
            for (int i = 2; !names.Add(name); i++) { name = $"{wanted} {i}"; }
            curves.Add(new(name, s.Group, curve.SignedArea < 0 ? curve.Reversed() : curve));
        }

        if (smooth) { sketch.Note("straight lines replaced by a smooth curve through their ends, as told; turns sharper than 45° stay corners"); }
        return curves;
    }

    private static Curve Scaled(Curve curve, double unit) => curve.Mapped(p => unit * p);

    private static List<string> Notes(Sketch sketch, Joining joined, double unit)
    {
        List<string> notes = [.. sketch.Notes];
        if (joined.LargestGap * unit > 1e-6) { notes.Add($"ends up to {Show(joined.LargestGap * unit)} apart joined half-way"); }
        if (joined.Open.Count > 0)
        {
            OpenPiece longest = joined.Open.MaxBy(o => o.Curve.TotalLength)!;
            notes.Add($"{joined.Open.Count} open {(joined.Open.Count == 1 ? "piece" : "pieces")} left out, the longest {Show(longest.Curve.TotalLength * unit)}{(longest.Group.Length > 0 ? $" on '{longest.Group}'" : "")}");
        }

        if (sketch.LeftOut.Any()) { notes.Add($"not read: {string.Join(", ", sketch.LeftOut)}"); }
        return notes;
    }

    private static string Show(double metres) => Display.Text(metres, metres < 1e-3 ? Shown.Thickness : Shown.Length, UnitSystem.Metric);
}
