using System.CommandLine;
using SandwichMech.App.Terminal;
using SandwichMech.Figures;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Drawings;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`outline FILE`: what a drawing gives, before a board uses it.</summary>
internal static class OutlineCommand
{
    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("outline", "Check a drawing of an outline (SVG, DXF, CSV) before a board uses it: area, length, widths, what lies inside",
            "sandwichmech outline shared/demo/outline.svg",
            "sandwichmech outline shared/demo/outline.dxf --part edge --plot outline.png",
            "sandwichmech outline shared/demo/half-widths.csv --smooth");
        var file = new Argument<string>("FILE") { Description = "A drawing: SVG, ASCII DXF, or CSV of points (x_mm,y_mm) or of half-widths along the centre line (station_mm,half_width_mm)" };
        Option<string?> part = Of(BoardFields.OutlinePart, "NAME"), unit = Of(BoardFields.OutlineUnit, "mm|cm|in|m|pt|px"), along = Of(BoardFields.OutlineAlong, "up|down|left|right|ANGLE");
        var smooth = new Option<bool>("--smooth") { Description = BoardFields.OutlineSmooth.Help };
        Option<string?> plot = CommonOptions.PlotOption("the outline with its measures");
        command.Arguments.Add(file);
        foreach (Option option in new Option[] { part, unit, along, smooth, plot })
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed =>
        {
            OutlineAnswer answer = ReadOutline.Run(parsed.GetRequiredValue(file), new()
            {
                Part = Read(parsed, part, BoardFields.OutlinePart)?.Name,
                Unit = Read(parsed, unit, BoardFields.OutlineUnit)?.Name,
                Along = Read(parsed, along, BoardFields.OutlineAlong)?.Value?.Value,
                Smooth = parsed.GetValue(smooth),
            });
            return common.Show(parsed, answer.Result, (r, screen) => Print(r, answer.Drawn.Drawing.Wishes, screen), plot, (_, units) => BoardPictures.Outline(answer, units));
        });
        return command;
    }

    // An option says what the field of the board file would, and is read by the same reader.
    private static Option<string?> Of(BoardField field, string name) => new($"--{field.Key}") { Description = field.Help, HelpName = name };

    private static FieldReading? Read(ParseResult parsed, Option<string?> option, BoardField field)
    {
        if (parsed.GetValue(option) is not { } text) { return null; }
        FieldReading reading = FieldReader.Read(field, text, MaterialTables.BuiltIn());
        return reading.Problem is { } problem ? throw new InputException(option.Name, problem) : reading;
    }

    private static void Print(OutlineResult r, DrawingWishes told, Screen screen)
    {
        screen.Title($"{r.Drawing} ({r.Format}), curve '{r.Outline}': {screen.Text(r.Area, Shown.Area)}, {screen.Text(r.Length, Shown.Length)} long, {screen.Text(r.Width, Shown.Length)} wide");
        var widths = new TextTable("", $">width {screen.Unit(Shown.Length)}", $">from the lower end {screen.Unit(Shown.Length)}");
        Add(r.Waist is null ? "widest" : "lower bout", r.LowerBout);
        if (r.Waist is { } waist && r.UpperBout is { } upper)
        {
            Add("waist", waist);
            Add("upper bout", upper);
        }

        screen.Table(widths);
        screen.Line($"All round {screen.Text(r.Perimeter, Shown.Length)}; the sides differ by {screen.Text(r.SidesDiffer, Shown.Thickness)} at most.");
        if (r.Inside.Count > 0)
        {
            screen.Heading("Inside");
            var inside = new TextTable("curve", $">area {screen.Unit(Shown.Area)}", $">from the lower end {screen.Unit(Shown.Length)}", $">width {screen.Unit(Shown.Length)}");
            foreach (InsideRow c in r.Inside)
            {
                inside.Add(c.Name, screen.Number(c.Area, Shown.Area), $"{screen.Number(c.From, Shown.Length)} to {screen.Number(c.To, Shown.Length)}", screen.Number(c.Width, Shown.Length));
            }

            screen.Table(inside);
        }

        screen.Heading("How it was read");
        foreach (string note in r.Notes) { screen.Line($"- {note}"); }
        string[] lines =
        [
            Field(BoardFields.OutlineFile, r.Drawing),
            .. told.Part is { } part ? [Field(BoardFields.OutlinePart, part)] : (string[])[],
            .. told.Unit is { } unit ? [Field(BoardFields.OutlineUnit, unit)] : (string[])[],
            .. told.Along is { } along ? [Field(BoardFields.OutlineAlong, Display.Text(along, Shown.Angle, UnitSystem.Metric))] : (string[])[],
            .. told.Smooth ? [Field(BoardFields.OutlineSmooth, "yes")] : (string[])[],
        ];
        screen.Line($"In a board file, under [{BoardFields.OutlineFile.Table.Name}]: {string.Join("; ", lines)}");

        static string Field(BoardField field, string value) => $"{field.Key} = {BoardText.Quoted(value)}";

        void Add(string what, WidthRow row) => widths.Add(what, screen.Number(row.Width, Shown.Length), screen.Number(row.At, Shown.Length));
    }
}
