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
        Figures(r.Figures, screen);
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

        Figures(r.Figures, screen);
        screen.Warnings(r.Warnings);
    }

    private static void Figures(FiguresRow f, Screen screen)
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
        Row("density", f.Density, Shown.Density);
        screen.Table(table);
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
