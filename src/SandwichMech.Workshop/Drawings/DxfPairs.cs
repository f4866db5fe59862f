namespace SandwichMech.Workshop.Drawings;

/// <summary>A group of a DXF file: a code, and the value on the line below it.</summary>
/// <param name="Code">What the value is.</param>
/// <param name="Value">As it stands.</param>
/// <param name="Line">The value's line, from 1.</param>
internal sealed record DxfPair(int Code, string Value, int Line);

/// <summary>An entity or table entry: its kind and its groups.</summary>
/// <param name="Kind">As "LINE".</param>
/// <param name="Groups">All groups up to the next entity.</param>
/// <param name="Line">Its line.</param>
internal sealed record DxfItem(string Kind, IReadOnlyList<DxfPair> Groups, int Line)
{
    internal string? Text(int code) => Groups.FirstOrDefault(g => g.Code == code)?.Value;

    internal int Whole(int code, int otherwise) => Text(code) is { } text && MachineNumber.Whole(text) is { } value ? value : otherwise;

    internal string Layer => Text(8) ?? "0";
}

/// <summary>Takes an ASCII DXF file apart into groups and items.</summary>
internal static class DxfPairs
{
    internal static List<DxfPair> Read(Sketch sketch, string text)
    {
        string[] lines = text.Split('\n');
        var pairs = new List<DxfPair>(lines.Length / 2);
        for (int i = 0; i + 1 < lines.Length; i += 2)
        {
            if (MachineNumber.Whole(lines[i]) is not { } code)
            {
                // Blank lines may follow the end.
                if (string.IsNullOrWhiteSpace(lines[i]) && lines.Skip(i).All(string.IsNullOrWhiteSpace)) { break; }
                throw sketch.Bad(i + 1, $"is no DXF: a group code (a whole number) is wanted where '{Units.TypedText.Short(Units.TypedText.OneLine(lines[i]))}' stands; export the drawing as ASCII DXF anew");
            }

            var pair = new DxfPair(code, lines[i + 1].Trim(), i + 2);
            pairs.Add(pair);
            if (pair is { Code: 0, Value: "EOF" }) { return pairs; }
        }

        throw sketch.Bad(lines.Length, pairs.Count == 0
            ? "is no DXF: it holds no groups; export the drawing as ASCII DXF"
            : "ends in the middle, without EOF: the file is cut off; export or copy it anew");
    }

    /// <summary>The items of a section, by the section's name.</summary>
    internal static Dictionary<string, List<DxfItem>> Sections(List<DxfPair> pairs)
    {
        var sections = new Dictionary<string, List<DxfItem>>(StringComparer.Ordinal);
        List<DxfItem>? current = null;
        for (int i = 0; i < pairs.Count;)
        {
            int end = i + 1;
            while (end < pairs.Count && pairs[end].Code != 0) { end++; }
            var item = new DxfItem(pairs[i].Value, pairs.GetRange(i + 1, end - i - 1), pairs[i].Line);
            if (item.Kind == "SECTION")
            {
                current = [];
                sections[item.Text(2) ?? ""] = current;
                // A header has no entities: its groups follow the section's own.
                current.Add(item);
            }
            else if (item.Kind == "ENDSEC")
            {
                current = null;
            }
            else
            {
                current?.Add(item);
            }

            i = end;
        }

        return sections;
    }
}
