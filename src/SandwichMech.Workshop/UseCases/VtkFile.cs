using System.Globalization;
using System.Text;
using SandwichMech.Core.Plates;

namespace SandwichMech.Workshop.UseCases;

/// <summary>Mode shapes as an unstructured grid of the VTK XML format (.vtu), which general viewers of computed fields open.</summary>
public static class VtkFile
{
    private const int Triangle = 5;

    /// <summary>The text of the file.</summary>
    /// <param name="answer">The modes.</param>
    /// <returns>XML, ASCII data: points in m, one field a mode (w, largest value 1), the region of each small triangle.</returns>
    public static string Text(ModesAnswer answer)
    {
        ShapeField field = answer.Field;
        var text = new StringBuilder();
        text.Append("<?xml version=\"1.0\"?>\n<VTKFile type=\"UnstructuredGrid\" version=\"1.0\" byte_order=\"LittleEndian\">\n<UnstructuredGrid>\n");
        Add($"<Piece NumberOfPoints=\"{field.Nodes.Count}\" NumberOfCells=\"{field.Cells.Count}\">\n<Points>\n");
        Data("Float64", "position_m", 3, field.Nodes.Select(p => Row($"{p.X:G9} {p.Y:G9} 0")));
        text.Append("</Points>\n<Cells>\n");
        Data("Int32", "connectivity", 1, field.Cells.Select(c => Row($"{c.A} {c.B} {c.C}")));
        Data("Int32", "offsets", 1, Enumerable.Range(1, field.Cells.Count).Select(i => Row($"{3 * i}")));
        Data("UInt8", "types", 1, field.Cells.Select(_ => Row($"{Triangle}")));
        text.Append("</Cells>\n<PointData>\n");
        for (int i = 0; i < answer.Shapes.Count; i++)
        {
            double[] shape = answer.Shapes[i];
            double largest = shape.Max(Math.Abs);
            Data("Float64", Row($"mode {i + 1} {answer.Result.Modes[i].Frequency.Value:F1} Hz"), 1, shape.Select(w => Row($"{w / largest:G7}")));
        }

        text.Append("</PointData>\n<CellData>\n");
        Data("Int32", "region", 1, field.Regions.Select(r => Row($"{r}")));
        text.Append("</CellData>\n</Piece>\n</UnstructuredGrid>\n</VTKFile>\n");
        return text.ToString();

        static string Row(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);

        void Add(FormattableString s) => text.Append(s.ToString(CultureInfo.InvariantCulture));

        void Data(string type, string name, int components, IEnumerable<string> rows)
        {
            Add($"<DataArray type=\"{type}\" Name=\"{name}\" NumberOfComponents=\"{components}\" format=\"ascii\">\n");
            text.AppendJoin('\n', rows).Append("\n</DataArray>\n");
        }
    }
}
