using System.Globalization;
using System.Text;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Tests.Drawings;

/// <summary>Writes curves as drawing files, the way a drawing program would: not by the code that reads them.</summary>
internal static class DrawingWriter
{
    internal static string Row(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);

    /// <summary>An SVG page whose numbers are mm, y downwards.</summary>
    internal static string Svg(params (string Id, Curve Curve)[] curves) => SvgPage(string.Concat(curves.Select(c => $"<path id=\"{c.Id}\" d=\"{SvgData(c.Curve)}\"/>\n")));

    internal static string SvgPage(string content, string size = "width=\"1000mm\" height=\"1000mm\" viewBox=\"0 0 1000 1000\"") =>
        $"<?xml version=\"1.0\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" {size}>\n{content}\n</svg>\n";

    internal static string SvgData(Curve curve)
    {
        var d = new StringBuilder();
        d.Append(Row($"M {1000 * curve.Segments[0].P0.X:R} {-1000 * curve.Segments[0].P0.Y:R}"));
        foreach (Bezier s in curve.Segments) { d.Append(Row($" C {1000 * s.P1.X:R} {-1000 * s.P1.Y:R} {1000 * s.P2.X:R} {-1000 * s.P2.Y:R} {1000 * s.P3.X:R} {-1000 * s.P3.Y:R}")); }
        return d.Append(curve.IsClosed ? " Z" : "").ToString();
    }

    /// <summary>A DXF in mm of the given entities.</summary>
    internal static string Dxf(string entities, int unit = 4, string blocks = "", string tables = "") =>
        Groups(0, "SECTION", 2, "HEADER", 9, "$ACADVER", 1, "AC1015", 9, "$INSUNITS", 70, unit, 0, "ENDSEC")
        + (tables.Length > 0 ? Groups(0, "SECTION", 2, "TABLES") + tables + Groups(0, "ENDSEC") : "")
        + (blocks.Length > 0 ? Groups(0, "SECTION", 2, "BLOCKS") + blocks + Groups(0, "ENDSEC") : "")
        + Groups(0, "SECTION", 2, "ENTITIES") + entities + Groups(0, "ENDSEC", 0, "EOF");

    /// <summary>Codes and values in turn, each on its line.</summary>
    internal static string Groups(params object[] codesAndValues)
    {
        var text = new StringBuilder();
        foreach (object o in codesAndValues)
        {
            text.Append(o is double d ? d.ToString("R", CultureInfo.InvariantCulture) : Convert.ToString(o, CultureInfo.InvariantCulture)).Append('\n');
        }

        return text.ToString();
    }

    /// <summary>A cubic as SPLINE of degree 3, mm.</summary>
    internal static string Spline(Bezier s, string layer)
    {
        string text = Groups(0, "SPLINE", 8, layer, 70, 8, 71, 3, 72, 8, 73, 4) + string.Concat("00001111".Select(k => Groups(40, k)));
        return text + string.Concat(new[] { s.P0, s.P1, s.P2, s.P3 }.Select(p => Groups(10, 1000 * p.X, 20, 1000 * p.Y, 30, 0.0)));
    }

    internal static string Line(Point a, Point b, string layer = "0") => Groups(0, "LINE", 8, layer, 10, a.X, 20, a.Y, 30, 0.0, 11, b.X, 21, b.Y, 31, 0.0);

    /// <summary>A closed LWPOLYLINE of x, y, bulge.</summary>
    internal static string Polyline(string layer, params (double X, double Y, double Bulge)[] vertices) =>
        Groups(0, "LWPOLYLINE", 8, layer, 90, vertices.Length, 70, 1) + string.Concat(vertices.Select(v => Groups(10, v.X, 20, v.Y, 42, v.Bulge)));

    internal static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);
}
