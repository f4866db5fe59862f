using SandwichMech.Core.Identification;
using SandwichMech.Tests.EndToEnd;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Pieces;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Tests.Log;

/// <summary>A log for the examples of help and README: invented pieces 1 (wood), 2 (core) and 3 (sandwich), a board 1 whose inner skin was weighed, and its export.</summary>
internal static class DemoLog
{
    /// <summary>How many entries it holds.</summary>
    internal const long Entries = 22;

    /// <summary>Writes log.sqlite and shop.json.</summary>
    /// <returns>The log.</returns>
    internal static string In(TemporaryFolder folder)
    {
        using ShopLog log = ShopLog.Open(folder.File("log.sqlite"));
        log.AddPiece(PieceKind.Wood, "Sitka spruce", "left half", readings: TypedReadings.Read(PieceKind.Wood, new()
        {
            Weight = "88.6 g",
            Length = "520 mm",
            Width = "200 mm",
            Thickness = "2.02 mm, 1.98 mm, 2.03 mm",
            Humidity = "45 %",
        }).Readings);
        log.AddPiece(PieceKind.Core, "aramid honeycomb 3.2-48", "", readings: TypedReadings.Read(PieceKind.Core, new() { Weight = "9.4 g", Length = "520 mm", Width = "200 mm", Thickness = "1.81 mm" }).Readings);
        log.AddPiece(PieceKind.Sandwich, "aramid honeycomb 3.2-48", "", "piece 1", "Sitka spruce", "laminating epoxy 100:30");
        KeepBuild.Start(log, Repository.File("shared", "demo", "outline.toml"), MaterialTables.BuiltIn(), 0.01, ["along at least 0.8 solid"]);
        KeepBuild.Add(log, 1, "skins", ["inner 41.2 g"], MaterialTables.BuiltIn());
        File.WriteAllText(folder.File("shop.json"), LogExport.Write(log));
        return log.File;
    }
}
