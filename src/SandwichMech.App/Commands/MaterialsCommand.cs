using System.CommandLine;
using SandwichMech.App.Terminal;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`materials`: what the tables hold, and where each value comes from.</summary>
internal static class MaterialsCommand
{
    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("materials", "Woods, cores and adhesives of the tables, with their sources",
            "sandwichmech materials",
            "sandwichmech materials show \"Sitka spruce\"",
            "sandwichmech materials table woods");
        command.SetAction(parsed => common.Show(parsed, ShowMaterials.List(common.Tables(parsed)), PrintList));

        var list = new WorkCommand("list", "All materials, a line each", "sandwichmech materials list --units inch");
        list.SetAction(parsed => common.Show(parsed, ShowMaterials.List(common.Tables(parsed)), PrintList));

        var show = new WorkCommand("show", "One material: every value with its spread and its source", "sandwichmech materials show \"aramid honeycomb 3.2-48\"");
        var name = new Argument<string>("NAME") { Description = "Name, or one of its other names" };
        name.CompletionSources.Add(_ => ShowMaterials.Names(MaterialTables.BuiltIn()).Select(n => new System.CommandLine.Completions.CompletionItem(n)));
        show.Arguments.Add(name);
        show.SetAction(parsed => common.Show(parsed, ShowMaterials.Show(common.Tables(parsed), parsed.GetRequiredValue(name)), PrintOne));

        var table = new WorkCommand("table", "A table as CSV, to start your own from", "sandwichmech materials table cores");
        var which = new Argument<string>("TABLE") { Description = "woods, cores or adhesives" };
        which.AcceptOnlyFromAmong("woods", "cores", "adhesives");
        table.Arguments.Add(which);
        table.SetAction(parsed =>
        {
            if (common.IsJson(parsed))
            {
                throw new InputException("materials table", "a table is CSV; `sandwichmech materials --json` gives the same rows as JSON");
            }

            common.Console.Out.Write(MaterialTables.Text(parsed.GetRequiredValue(which)));
            return Cli.Done;
        });
        command.Subcommands.Add(list);
        command.Subcommands.Add(show);
        command.Subcommands.Add(table);
        return command;
    }

    private static void PrintList(MaterialsResult r, Screen screen)
    {
        screen.Title("Woods (12 % moisture unless `show` says otherwise)");
        var woods = new TextTable("name", $">{screen.Unit(Shown.Density)}", $">E_L {screen.Unit(Shown.Modulus)}", $">E_R {screen.Unit(Shown.Modulus)}", $">G_LR {screen.Unit(Shown.Modulus)}", "use");
        foreach (WoodRow w in r.Woods)
        {
            woods.Add(w.Name, screen.Number(w.Density.Value, Shown.Density), screen.Number(w.EL.Value, Shown.Modulus), screen.Number(w.ER, Shown.Modulus), screen.Number(w.Glr, Shown.Modulus), w.Use);
        }

        screen.Table(woods);
        screen.Heading("Cores");
        var cores = new TextTable("name", $">{screen.Unit(Shown.Density)}", $">G ribbon {screen.Unit(Shown.Stress)}", $">G across {screen.Unit(Shown.Stress)}", $">heights {screen.Unit(Shown.Thickness)}");
        foreach (CoreRow c in r.Cores)
        {
            cores.Add(c.Name, screen.Number(c.Density.Value, Shown.Density), screen.Number(c.ShearRibbon.Value, Shown.Stress), screen.Number(c.ShearAcross.Value, Shown.Stress), string.Join(" ", c.Heights.Select(h => screen.Number(h, Shown.Thickness))));
        }

        screen.Table(cores);
        screen.Heading("Adhesives");
        var adhesives = new TextTable("name", $">mixed {screen.Unit(Shown.ArealDensity)}", ">kept", ">parts by mass");
        foreach (AdhesiveRow a in r.Adhesives)
        {
            adhesives.Add(a.Name, screen.Number(a.Mixed.Value, Shown.ArealDensity), EstimateCommand.Percent(a.KeptShare.Value), a.PartsByMass ?? "one part");
        }

        screen.Table(adhesives);
        screen.Line();
        screen.Line("`sandwichmech materials show NAME` gives every value with its spread and source. Table values stand for the species, not for your piece: weigh and measure it.");
    }

    private static void PrintOne(MaterialDetail r, Screen screen)
    {
        screen.Title(r.Name);
        if (r.Also.Count > 0)
        {
            screen.Line($"also: {string.Join(", ", r.Also)}");
        }

        var table = new TextTable("", ">", "", ">give or take");
        foreach (MaterialValue v in r.Values)
        {
            Shown? kind = v.Kind;
            table.Add(v.Name, kind is { } k ? screen.Number(v.Value, k) : v.Value.ToString("0.####", System.Globalization.CultureInfo.InvariantCulture), kind is { } u ? screen.Unit(u) : "", v.Spread > 0 ? EstimateCommand.Percent(v.Spread) : "");
        }

        screen.Table(table);
        screen.Line($"Source: {(r.Source.Length > 0 ? r.Source : "none given")} ({r.Table})");
        if (r.Note.Length > 0)
        {
            screen.Line(r.Note);
        }
    }
}
