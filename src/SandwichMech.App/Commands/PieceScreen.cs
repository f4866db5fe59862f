using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>Pieces and their entries on the screen.</summary>
internal static class PieceScreen
{
    internal static void List(PiecesResult r, Screen screen)
    {
        if (r.Pieces.Count == 0)
        {
            screen.Line("No pieces yet: `sandwichmech piece add --help` shows how the first is added.");
            screen.Warnings(r.Warnings);
            return;
        }

        var table = new TextTable(">piece", "kind", "material", "name", $">{screen.Unit(Shown.Thickness)}", $">{screen.Unit(Shown.Mass)}", $">{screen.Unit(Shown.Density)}", ">readings", "last");
        foreach (ListedPiece p in r.Pieces)
        {
            table.Add(
                p.Piece.Number.ToString(CultureInfo.InvariantCulture), p.Piece.Kind, p.Piece.Material, p.Piece.Name,
                Number(p.Figures.MeanThickness, Shown.Thickness, screen), Number(p.Figures.Mass, Shown.Mass, screen), Number(p.Figures.Density, Shown.Density, screen),
                p.Readings.ToString(CultureInfo.InvariantCulture), p.LastAtUtc is { } last ? Date(last) : "");
        }

        screen.Table(table);
        screen.Warnings(r.Warnings);
    }

    internal static void Show(PieceResult r, Screen screen)
    {
        screen.Title(Called(r.Piece));
        Sandwich(r.Piece, screen);
        screen.Heading("Entries");
        var entries = new TextTable(">entry", "kind", "read", "as typed", "");
        foreach (EntryRow e in r.Entries)
        {
            entries.Add(Entry(e.Entry), KindOf(e), Time(e.AtUtc), Said(e), Mark(e));
        }

        screen.Table(entries);
        Figures(r.Figures, r.Piece.Kind, screen);
        screen.Warnings([.. r.Notes, .. r.Warnings]);
    }

    internal static void Changed(PieceChanged r, Screen screen, string done)
    {
        screen.Title($"{Called(r.Piece)}: {done}");
        Sandwich(r.Piece, screen);
        var entries = new TextTable(">entry", "kind", "as typed", "");
        foreach (EntryRow e in r.Added)
        {
            entries.Add(Entry(e.Entry), KindOf(e), Said(e), Mark(e));
        }

        screen.Table(entries);
        foreach (string line in r.ReadBack)
        {
            screen.Line(line);
        }

        Figures(r.Figures, r.Piece.Kind, screen);
        screen.Warnings(r.Warnings);
    }

    private static void Figures(FiguresRow f, string kind, Screen screen)
    {
        if (f is { Mass: null, Length: null, Width: null, MeanThickness: null })
        {
            return;
        }

        screen.Heading("By the last weighing and measuring");
        var table = new TextTable("", ">", "", ">give or take (sd)", "");
        void Row(string name, Estimate? value, Shown kind, string note = "")
        {
            if (value is { } v)
            {
                table.Add(name, screen.Number(v.Value, kind), screen.Unit(kind), $"{screen.Number(v.Value * v.Spread, kind)} {screen.Unit(kind)}", note);
            }
        }

        Row("weight", f.Mass, Shown.Mass);
        Row("length", f.Length, Shown.Length);
        Row("width", f.Width, Shown.Length);
        Row("mean thickness", f.MeanThickness, Shown.Thickness, f is { ThicknessOverPlaces: { } sd, LeastThickness: { } least, MostThickness: { } most }
            ? $"{f.Places} places, {screen.Number(least, Shown.Thickness)} to {screen.Number(most, Shown.Thickness)}, sd {screen.Text(sd, Shown.Thickness)}"
            : f.Places == 1 ? "one place" : "");
        Row("density", f.Density, Shown.Density, kind == "wood" ? "as weighed; `measure` has it at 12 % moisture" : "as weighed");
        screen.Table(table);
        if (f.Grading is { } grading) { Grading(grading, f.LeastThickness!.Value, screen); }
    }

    private static void Grading(GradingRow g, double least, Screen screen)
    {
        screen.Heading(string.Create(CultureInfo.InvariantCulture, $"Thickness all over, {screen.Unit(Shown.Thickness)}: the upper end on top, seen from outside"));
        var map = new TextTable([.. g.Map[0].Select(_ => ">")]);
        foreach (IReadOnlyList<double> row in g.Map.Reverse()) { map.Add([.. row.Select(t => screen.Number(t, Shown.Thickness))]); }
        screen.Table(map);
        screen.Line($"Along and across: {Fall(g.Along, g.AlongSd, g.AlongSlope, "upper end", "lower end", "along", screen)}; {Fall(g.Across, g.AcrossSd, g.AcrossSlope, "right", "left", "across", screen)}.");
        string scatter = $"single places lie {screen.Text(g.Scatter, Shown.Thickness)} (sd) off that even grading";
        screen.Line(g.MiddleLessEdge is { } middle ? $"The {(middle < 0 ? "middle" : "edge")} is thinner than the {(middle < 0 ? "edge" : "middle")} by {screen.Text(Math.Abs(middle), Shown.Thickness)}; {scatter}." : $"S{scatter[1..]}.");
        string at = g is { ThinnestAlong: { } along, ThinnestAcross: { } across } ? $", about {screen.Text(along, Shown.Length)} from the lower end and {screen.Text(across, Shown.Length)} from the left" : "";
        screen.Line(string.Create(CultureInfo.InvariantCulture, $"Thinnest, {screen.Text(least, Shown.Thickness)}, in row {g.ThinnestRow} from the lower end, place {g.ThinnestPlace} from the left{at}."));
    }

    // A fall that its own deviation covers is none.
    private static string Fall(double whole, double sd, double? slope, string more, string less, string word, Screen screen)
    {
        const double Shows = 2;
        (double length, string named) = screen.Units == UnitSystem.Inch ? (0.0254, "inch") : (0.1, "100 mm");
        if (Math.Abs(whole) < Shows * sd || whole == 0) { return $"no grading shows {word} ({screen.Text(Math.Abs(whole), Shown.Thickness)}, sd {screen.Text(sd, Shown.Thickness)})"; }
        string per = slope is { } s ? $", {screen.Text(Math.Abs(s) * length, Shown.Thickness)} for each {named}" : "";
        return $"thinner towards the {(whole < 0 ? more : less)} by {screen.Text(Math.Abs(whole), Shown.Thickness)} (sd {screen.Text(sd, Shown.Thickness)}){per}";
    }

    private static void Sandwich(PieceRow p, Screen screen)
    {
        if (p.OuterWood is not null)
        {
            screen.Line($"outer skin {p.OuterWood}, inner skin {p.InnerWood}, core {p.Material}, {p.Adhesive}");
        }
    }

    private static string Called(PieceRow p) => string.Create(CultureInfo.InvariantCulture, $"Piece {p.Number}: {p.Kind}, {p.Material}") + (p.Name.Length > 0 ? $", “{p.Name}”" : "");

    private static string KindOf(EntryRow e) => e.Reading is SizeReading size ? size.Across ? "width" : "length" : e.Kind;

    private static string Said(EntryRow e) => e.Text is { } text ? $"{text.Material}{(text.Name.Length > 0 ? $", “{text.Name}”" : "")}" : e.AsTyped;

    private static string Mark(EntryRow e) =>
        e.CorrectedBy is { } by ? $"{(e.IsWithdrawn ? "withdrawn" : "corrected")} by entry {Entry(by)}"
        : e.Corrects is { } old ? $"{(e.Kind == EntryKind.Withdrawn ? "takes back" : "in place of")} entry {Entry(old)}" : "";

    private static string Entry(long number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Number(Estimate? value, Shown kind, Screen screen) => value is { } v ? screen.Number(v.Value, kind) : "";

    private static string Date(DateTimeOffset at) => at.ToLocalTime().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Time(DateTimeOffset at) => at.ToLocalTime().ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
