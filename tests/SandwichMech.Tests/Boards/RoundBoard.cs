using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Boards;

/// <summary>A round board of 150 mm radius with a hole of 40 mm, drawn: its lower end at x = 0, the middle of its hole on the centre line.</summary>
public abstract class RoundBoard : IDisposable
{
    private protected const double Radius = 0.15, HoleRadius = 0.04, HoleAt = 0.2, Outer = 0.8e-3, Inner = 0.6e-3, Core = 2e-3;
    private protected static readonly MaterialTables Tables = MaterialTables.BuiltIn();

    private const string Text = """
        [outline]
        file = "round.svg"
        part = "edge"
        along = "up"
        [hole]
        part = "hole"
        [outer]
        wood = "western redcedar"
        thickness = "0.8 mm"
        [core]
        material = "aramid honeycomb 3.2-29"
        height = "2 mm"
        [inner]
        wood = "Sitka spruce"
        thickness = "0.6 mm"
        [edge_band]
        width = "10 mm"
        wood = "Sitka spruce"

        """;

    private protected RoundBoard() => Write("round.svg", """
        <svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="300mm" viewBox="0 0 300 300">
        <circle id="edge" cx="150" cy="150" r="150"/><circle id="hole" cx="150" cy="100" r="40"/>
        <path id="patch" d="M 100 240 L 200 240 L 150 280 Z"/></svg>
        """);

    private string Folder { get; } = Directory.CreateTempSubdirectory().FullName;

    public void Dispose()
    {
        Directory.Delete(Folder, recursive: true);
        GC.SuppressFinalize(this);
    }

    private protected void Write(string file, string text) => File.WriteAllText(Path.Combine(Folder, file), text);

    private protected static double Density(string wood) => MaterialTables.Find(Tables.Woods, wood)!.Item.Density.Value;

    private protected BoardFile Read(string regions, params (string Old, string New)[] edits) => BoardFiles.Parse(
        Path.Combine(Folder, "board.toml"), edits.Aggregate(Text, (text, e) => text.Replace(e.Old, e.New, StringComparison.Ordinal)) + regions, Tables);

    /// <summary>Area and mass of a region by name.</summary>
    private protected static (double Area, double Mass) Of(Board board, string name)
    {
        int region = Enumerable.Range(0, board.Shape!.Regions.Count).Single(i => board.Shape.Regions[i].Name == name);
        BoardPart[] parts = [.. board.Shape.Parts.Where(p => p.Regions.Contains(region))];
        return (parts.Sum(p => p.Area), parts.Sum(board.MassOf));
    }

    private protected static Ply[] PliesIn(Board board, string name, Point at)
    {
        int[] regions = BoardShape.Covering(board.Shape!.Regions, at);
        Assert.Contains(regions, i => board.Shape!.Regions[i].Name == name);
        return [.. LocalLayup.Of(board, regions, at).Plies];
    }

    private protected static double Skins(Board board) => board.Outer.Wood.Density.Value * Outer + board.Inner.Wood.Density.Value * Inner;
}
