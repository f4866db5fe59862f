using System.Text;

namespace SandwichMech.App.Terminal;

/// <summary>Aligned columns of text: words to the left, numbers to the right.</summary>
internal sealed class TextTable
{
    private const string Gap = "  ";
    private readonly Column[] _columns;
    private readonly List<string[]> _rows = [];

    /// <summary>Makes a table.</summary>
    /// <param name="columns">Heads; one that begins with '>' is aligned to the right.</param>
    internal TextTable(params string[] columns) =>
        _columns = [.. columns.Select(c => c.StartsWith('>') ? new Column(c[1..], true) : new Column(c, false))];

    private sealed record Column(string Head, bool Right);

    internal void Add(params string[] cells) => _rows.Add(cells);

    internal IEnumerable<string> Lines(Func<string, string> head)
    {
        var widths = new int[_columns.Length];
        for (int i = 0; i < widths.Length; i++)
        {
            widths[i] = _columns[i].Head.Length;
            foreach (string[] row in _rows)
            {
                widths[i] = Math.Max(widths[i], row[i].Length);
            }
        }

        if (_columns.Any(c => c.Head.Length > 0))
        {
            yield return head(Line([.. _columns.Select(c => c.Head)], widths));
        }

        foreach (string[] row in _rows)
        {
            yield return Line(row, widths);
        }
    }

    private string Line(string[] cells, int[] widths)
    {
        var line = new StringBuilder();
        for (int i = 0; i < cells.Length; i++)
        {
            line.Append(i == 0 ? "" : Gap).Append(_columns[i].Right ? cells[i].PadLeft(widths[i]) : cells[i].PadRight(widths[i]));
        }

        return line.ToString().TrimEnd();
    }
}
