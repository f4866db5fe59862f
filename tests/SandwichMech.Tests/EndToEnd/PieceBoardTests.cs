using System.Text.Json;
using SandwichMech.Core.Identification;
using SandwichMech.Tests.Log;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Pieces;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>Board files that name pieces of the log.</summary>
[Trait("Check", "exact")]
public sealed class PieceBoardTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public void A_piece_stands_wherever_a_wood_or_a_core_is_named_with_its_own_density()
    {
        string log = DemoLog.In(_folder);
        BoardFile file = Read(log, Text(("outer", "wood", "piece 1"), ("solid", "wood", "Piece  1"), ("core", "material", "piece 2")));
        using ShopLog pieces = ShopLog.Open(log);
        double Density(int piece) => PieceFigures.Of(pieces.Readings(piece).Select(e => e.Reading!)).Density!.Value.Value;
        Assert.Equal("piece 1 (Sitka spruce)", file.Board.Outer.Wood.Name);
        Assert.Equal(Density(1), file.Board.Outer.Wood.Density.Value);
        // 88.6 g on 520 × 200 × 2.01 mm.
        Checks.Near(423.8, file.Board.Outer.Wood.Density.Value, 1e-4);
        Assert.Equal(file.Board.Outer.Wood, file.Board.Solid.Wood);
        Assert.Equal(("piece 2 (aramid honeycomb 3.2-48)", Density(2)), (file.Board.Core.Material.Name, file.Board.Core.Material.Density.Value));
        Assert.Contains(file.ReadBack, r => r.Contains("outer.wood: 'piece 1' is read as piece 1 (Sitka spruce): density 424 kg/m³ by weighing, all else by the table", StringComparison.Ordinal));
        // What is not measured is the table's, and thickness is the file's own.
        BoardFile plain = Read(log, Text());
        var table = MaterialTables.Find(MaterialTables.BuiltIn().Woods, "Sitka spruce")!.Item;
        Assert.Equal(table with { Name = "piece 1 (Sitka spruce)", Density = file.Board.Outer.Wood.Density }, file.Board.Outer.Wood);
        Assert.Equal(plain.Board.Outer.Thickness, file.Board.Outer.Thickness);
        Assert.Equal(plain.Board.Inner, file.Board.Inner);
    }

    [Fact]
    public void A_piece_stands_in_every_field_that_names_a_wood()
    {
        string log = DemoLog.In(_folder);
        BoardField[] woods = [.. BoardFields.All.Where(f => f.Kind is NameKind { Of: MaterialKind.Wood })];
        Assert.True(woods.Length > 8);
        foreach (BoardField field in woods)
        {
            Assert.Equal("piece 1 (Sitka spruce)", FieldReader.Read(field, "piece 1", Tables(log)).Name);
        }

        // Those of the demo with regions, in lists too, all at once.
        string text = File.ReadAllText(Repository.File("shared", "demo", "regions.toml"));
        string edited = System.Text.RegularExpressions.Regex.Replace(text, "(?m)^wood = \"[^\"]*\"", "wood = \"piece 1\"");
        Assert.NotEqual(text, edited);
        BoardFile file = BoardFiles.Parse(Repository.File("shared", "demo", "regions.toml"), edited, Tables(log));
        Assert.Equal("piece 1 (Sitka spruce)", file.Board.Inner.Wood.Name);

        // And named in a list alone.
        string one = new System.Text.RegularExpressions.Regex("(?s)(\\[\\[let_in\\]\\].*?\nwood = )\"[^\"]*\"").Replace(text, "$1\"piece 1\"", 1);
        Assert.NotEqual(text, one);
        BoardFile listed = BoardFiles.Parse(Repository.File("shared", "demo", "regions.toml"), one, Tables(log));
        Assert.Contains(listed.Board.Shape!.Regions, r => r.Change is Core.Layups.LetInWood { Wood.Name: "piece 1 (Sitka spruce)" });
    }

    [Theory]
    [InlineData("outer", "wood", "piece 9", "there is no piece 9 in the log; there are 1, 2, 3")]
    [InlineData("outer", "wood", "piece 2", "piece 2 (aramid honeycomb 3.2-48) is a core; a wood is wanted")]
    [InlineData("outer", "wood", "piece 3", "piece 3 is a sandwich")]
    [InlineData("core", "material", "piece 1", "piece 1 (Sitka spruce) is a wood; a core is wanted")]
    [InlineData("adhesive", "product", "piece 1", "a piece is no adhesive")]
    [InlineData("outer", "wood", "piece one", "no wood 'piece one' is known")]
    [InlineData("outer", "wood", "piece -1", "no wood 'piece -1' is known")]
    public void A_piece_that_does_not_fit_is_refused_with_line_and_field(string table, string key, string piece, string says)
    {
        string log = DemoLog.In(_folder);
        Problem problem = Assert.Single(Assert.Throws<InputException>(() => Read(log, Text((table, key, piece)))).Problems);
        Assert.Equal($"{table}.{key}", problem.Field);
        Assert.NotNull(problem.Line);
        Assert.Contains(says, problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_command_reads_the_named_log_and_follows_a_correction()
    {
        string log = DemoLog.In(_folder), board = _folder.File("board.toml");
        File.WriteAllText(board, Text(("outer", "wood", "piece 1")));
        double Mass()
        {
            using JsonDocument json = JsonDocument.Parse(Commanded.Run("estimate", board, "--log", log, "--json").Out);
            return json.RootElement.GetProperty("mass_kg").GetProperty("value").GetDouble();
        }

        double before = Mass();
        Assert.Equal(0, Commanded.Run("piece", "correct", "1", "2", "--weight", "98.6 g", "--log", log).Code);
        BoardFile file = Read(log, Text(("outer", "wood", "piece 1")));
        Checks.Near(file.Board.Size.Area * file.Board.Outer.Thickness.Value * 0.01 / (0.52 * 0.2 * 0.00201), Mass() - before, 1e-6, "what the skin gained");
    }

    [Fact]
    public void A_board_without_pieces_never_touches_the_log()
    {
        string log = _folder.File("log.sqlite");
        File.WriteAllText(log, "no log at all");
        Assert.Equal(0, Commanded.Run("estimate", Commanded.Demo, "--log", log).Code);
        string board = _folder.File("board.toml");
        File.WriteAllText(board, Text(("outer", "wood", "piece 1")));
        Commanded run = Commanded.Run("estimate", board, "--log", log);
        Assert.Equal(2, run.Code);
        Assert.Contains("is no log", run.Err, StringComparison.Ordinal);
        File.Delete(log);
        Commanded none = Commanded.Run("estimate", board, "--log", log);
        Assert.Equal(2, none.Code);
        Assert.Contains("it holds none yet", none.Err, StringComparison.Ordinal);
        Assert.False(File.Exists(log));
    }

    public void Dispose() => _folder.Dispose();

    private static string Text(params (string Table, string Key, string Value)[] edits)
    {
        string text = File.ReadAllText(Commanded.Demo);
        foreach ((string table, string key, string value) in edits)
        {
            text = BoardText.WithValue(text, table, key, value);
        }

        return text;
    }

    private static MaterialTables Tables(string log) => MaterialTables.BuiltIn() with
    {
        Pieces = (number, tables) =>
        {
            using ShopLog open = ShopLog.Open(log);
            return PieceMaterials.Of(open, number, tables);
        },
    };

    private static BoardFile Read(string log, string text) => BoardFiles.Parse("board.toml", text, Tables(log));
}
