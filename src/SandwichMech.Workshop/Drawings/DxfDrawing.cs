using SandwichMech.Core.Outlines;

namespace SandwichMech.Workshop.Drawings;

/// <summary>Reads ASCII DXF: lines, arcs, circles, ellipses, polylines with bulges, splines, and blocks inserted once.</summary>
internal sealed class DxfDrawing
{
    private const int MostDepth = 8;
    private readonly Sketch _sketch;
    private readonly Dictionary<string, List<DxfItem>> _blocks = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, Affine> _bases = new(StringComparer.OrdinalIgnoreCase);
    private readonly HashSet<string> _off = new(StringComparer.OrdinalIgnoreCase);
    private readonly DxfShapes _shapes;

    private DxfDrawing(Sketch sketch)
    {
        _sketch = sketch;
        _shapes = new(sketch);
    }

    internal static Sketch Read(string path, string text)
    {
        var sketch = new Sketch(path) { Format = "DXF" };
        var drawing = new DxfDrawing(sketch);
        Dictionary<string, List<DxfItem>> sections = DxfPairs.Sections(DxfPairs.Read(sketch, text));
        if (!sections.TryGetValue("ENTITIES", out List<DxfItem>? entities)) { throw sketch.Bad(null, "has no ENTITIES section: export the drawing as DXF anew"); }
        drawing.ReadUnit(sections);
        foreach (DxfItem layer in sections.GetValueOrDefault("TABLES", []).Where(item => item.Kind == "LAYER" && item.Text(2) is not null))
        {
            // Switched off is a negative colour, frozen the first flag.
            if (layer.Whole(62, 7) < 0 || (layer.Whole(70, 0) & 1) != 0) { drawing._off.Add(layer.Text(2)!); }
        }

        drawing.ReadBlocks(sections.GetValueOrDefault("BLOCKS", []));
        drawing.Read(entities.Skip(1).ToList(), Affine.Identity, null, 0);
        return sketch;
    }

    // $INSUNITS, of the DXF reference; what is left out there says nothing or means miles.
    private static double? Metres(int code) => code switch
    {
        1 => 0.0254,
        2 => 0.3048,
        4 => 1e-3,
        5 => 1e-2,
        6 => 1,
        8 => 0.0254e-6,
        9 => 0.0254e-3,
        10 => 0.9144,
        13 => 1e-6,
        14 => 0.1,
        _ => null,
    };

    private void ReadUnit(Dictionary<string, List<DxfItem>> sections)
    {
        if (!sections.TryGetValue("HEADER", out List<DxfItem>? header)) { return; }
        IReadOnlyList<DxfPair> groups = header[0].Groups;
        int at = groups.Select(g => g.Value).ToList().IndexOf("$INSUNITS");
        if (at < 0 || at + 1 >= groups.Count || MachineNumber.Whole(groups[at + 1].Value) is not { } code) { return; }
        _sketch.Unit = Metres(code);
        _sketch.UnitSaid = $"the file's own ($INSUNITS {code})";
    }

    private void ReadBlocks(List<DxfItem> items)
    {
        string? name = null;
        foreach (DxfItem item in items)
        {
            if (item.Kind == "BLOCK")
            {
                name = item.Text(2) ?? "";
                _blocks[name] = [];
                Point origin = _shapes.Start(item);
                _bases[name] = Affine.Move(-origin.X, -origin.Y);
            }
            else if (item.Kind == "ENDBLK")
            {
                name = null;
            }
            else if (name is not null)
            {
                _blocks[name].Add(item);
            }
        }
    }

    private void Read(List<DxfItem> items, Affine map, string? insertLayer, int depth)
    {
        for (int i = 0; i < items.Count; i++)
        {
            DxfItem item = items[i];
            // A POLYLINE's vertices follow it as items of their own.
            int end = i + 1;
            if (item.Kind == "POLYLINE")
            {
                while (end < items.Count && items[end].Kind == "VERTEX") { end++; }
            }

            List<DxfItem> vertices = items.GetRange(i + 1, end - i - 1);
            i = end - 1;
            // Layer 0 in a block means the layer of what inserts it.
            string layer = item.Layer == "0" && insertLayer is not null ? insertLayer : item.Layer;
            if (item.Kind == "SEQEND" || item.Whole(60, 0) == 1 || item.Whole(67, 0) == 1) { continue; }
            if (_off.Contains(layer))
            {
                _sketch.LeaveOut($"{item.Kind} on the layer {layer}, which is switched off");
                continue;
            }

            if (item.Kind == "INSERT") { Insert(item, map, layer, depth); }
            else if (_shapes.Read(item, vertices) is { } segments) { _sketch.Add([.. segments.Select(map.Of)], null, layer, item.Line); }
            else { _sketch.LeaveOut(item.Kind); }
        }
    }

    private void Insert(DxfItem item, Affine map, string layer, int depth)
    {
        string name = item.Text(2) ?? "";
        if (!_blocks.TryGetValue(name, out List<DxfItem>? block)) { throw _sketch.Bad(item.Line, $"inserts a block '{Units.TypedText.Short(name)}' that is not in the file: bind or explode it and export anew"); }
        if (depth > MostDepth) { throw _sketch.Bad(item.Line, $"inserts the block '{Units.TypedText.Short(name)}' into itself: explode it and export anew"); }
        if (item.Whole(70, 1) > 1 || item.Whole(71, 1) > 1) { throw _sketch.Bad(item.Line, $"inserts the block '{Units.TypedText.Short(name)}' in rows: explode it and export anew"); }
        Affine placed = _shapes.Plane(item).After(Affine.Move(_shapes.Number(item, 10, 0), _shapes.Number(item, 20, 0)))
            .After(Affine.Turn(_shapes.Number(item, 50, 0) * Math.PI / 180))
            .After(Affine.Scale(_shapes.Number(item, 41, 1), _shapes.Number(item, 42, 1))).After(_bases[name]);
        Read(block, map.After(placed), layer, depth + 1);
    }
}
