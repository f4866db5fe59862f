using SandwichMech.Core.Outlines;
using SandwichMech.Workshop.Units;
using Tomlyn.Syntax;

namespace SandwichMech.Workshop.Boards;

/// <summary>A place on the board as typed.</summary>
/// <param name="At">From the lower end along, and from the centre line across, m.</param>
/// <param name="Thickness">m, where one is typed with it.</param>
public sealed record TypedPlace(Point At, double Thickness);

/// <summary>Reads lists of places: "12 mm, 30 mm; 50 mm, 30 mm", or with a thickness each "12 mm, 30 mm: 0.7 mm".</summary>
internal static class TypedPlaces
{
    private const int Most = 500;
    private static readonly TypedRange
        Reach = new(Dimension.Length, "-2 m", "3 m"),
        Thicknesses = new(Dimension.Length, "0.1 mm", "10 mm");

    /// <summary>A TOML list of texts as one text; null where it holds something else.</summary>
    internal static string? Texts(ArraySyntax list)
    {
        var texts = new List<string>();
        foreach (ArrayItemSyntax item in list.Items)
        {
            if (item.Value is not StringValueSyntax { Value: { } text }) { return null; }
            texts.Add(text);
        }

        return string.Join("; ", texts);
    }

    /// <summary>Reads places.</summary>
    /// <param name="kind">What is wanted.</param>
    /// <param name="text">Places with ; between them.</param>
    internal static FieldReading Read(PlacesKind kind, string text)
    {
        string[] parts = text.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length < kind.Fewest || parts.Length > Most)
        {
            return FieldReading.Refused($"holds {parts.Length} place{(parts.Length == 1 ? "" : "s")}: write {kind.Fewest} to {Most}, each as {Form(kind)}");
        }

        var places = new List<TypedPlace>();
        foreach (string part in parts)
        {
            (TypedPlace? place, string? problem) = One(kind, part);
            if (place is null) { return FieldReading.Refused(problem!); }
            places.Add(place);
        }

        return new(null, null, null, null) { Places = places };
    }

    private static string Form(PlacesKind kind) => kind.WithThickness ? "\"120 mm, -40 mm: 0.7 mm\"" : "\"120 mm, -40 mm\"";

    private static (TypedPlace? Place, string? Problem) One(PlacesKind kind, string part)
    {
        string quoted = TypedText.Quote(TypedText.Short(TypedText.OneLine(part)));
        string[] halves = part.Split(':', StringSplitOptions.TrimEntries);
        int comma = Comma(halves[0]);
        if (halves.Length != (kind.WithThickness ? 2 : 1) || comma < 0)
        {
            return (null, $"{quoted} is no place: write it from the lower end, then from the centre line (to the left positive), each with its unit{(kind.WithThickness ? ", a colon and the thickness" : "")}, as {Form(kind)}");
        }

        string? problem = null;
        double x = Length(halves[0][..comma], Reach), y = Length(halves[0][(comma + 1)..], Reach), thickness = kind.WithThickness ? Length(halves[1], Thicknesses) : 0;
        return problem is null ? (new(new(x, y), thickness), null) : (null, $"{quoted}: {problem}");

        double Length(string typed, TypedRange possible)
        {
            ReadResult read = TypedValues.Read(typed, Dimension.Length);
            problem ??= !read.IsRead ? read.Problem : !possible.Contains(read.Value.Value) ? $"{TypedText.Short(typed.Trim())} is out of reach: {possible} is possible" : null;
            return read.IsRead ? read.Value.Value : 0;
        }
    }

    // A comma behind a digit belongs to the number; the one between the two measures stands behind a unit.
    private static int Comma(string text)
    {
        int found = -1;
        for (int i = 0; i < text.Length; i++)
        {
            if (text[i] != ',' || text[..i].TrimEnd() is not [.., var last] || char.IsDigit(last)) { continue; }
            if (found >= 0) { return -1; }
            found = i;
        }

        return found;
    }
}
