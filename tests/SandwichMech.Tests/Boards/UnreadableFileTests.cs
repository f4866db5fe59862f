using System.Text;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Boards;

/// <summary>Files that are no board files, and folders of own tables, on a real disk.</summary>
[Trait("Check", "exact")]
public sealed class UnreadableFileTests : IDisposable
{
    private static readonly MaterialTables Tables = MaterialTables.BuiltIn();
    private readonly string _folder = Directory.CreateTempSubdirectory("boards").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void A_missing_file_names_a_near_one()
    {
        Write("cedar.toml", BoardCases.GoodBoard);
        Assert.Contains("did you mean cedar.toml?", OnlyProblem(In("ceder.toml")), StringComparison.Ordinal);
        Assert.Contains("no such file", OnlyProblem(In("entirely-different.toml")), StringComparison.Ordinal);
        Assert.Contains("no folder", OnlyProblem(In("nowhere/cedar.toml")), StringComparison.Ordinal);
        Assert.Contains("no file is named", OnlyProblem(" "), StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_is_no_file() => Assert.Contains("is a folder", OnlyProblem(_folder), StringComparison.Ordinal);

    [Theory]
    [InlineData("")]
    [InlineData(" \n\t\r\n")]
    public void An_empty_file_is_called_empty(string text) =>
        Assert.Contains("is empty", OnlyProblem(Write("empty.toml", text)), StringComparison.Ordinal);

    [Fact]
    public void A_file_of_comments_lacks_all_that_a_board_needs()
    {
        var thrown = Assert.Throws<InputException>(() => BoardFiles.Read(Write("comments.toml", "# nothing\n"), Tables));
        Assert.Equal(
            ["size.area", "outer.wood", "outer.thickness", "core.material", "core.height", "inner.wood", "inner.thickness"],
            thrown.Problems.Select(p => p.Field));
    }

    [Fact]
    public void A_file_that_is_no_text_is_told_from_one_in_another_encoding()
    {
        Assert.Contains("not a text file", OnlyProblem(Write("picture.toml", [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0, 0, 0, 0x0D])), StringComparison.Ordinal);
        Assert.Contains("UTF-16", OnlyProblem(Write("utf16.toml", [0xFF, 0xFE, .. Encoding.Unicode.GetBytes(BoardCases.GoodBoard)])), StringComparison.Ordinal);
        Assert.Contains("UTF-16", OnlyProblem(Write("utf16be.toml", [0xFE, 0xFF, .. Encoding.BigEndianUnicode.GetBytes(BoardCases.GoodBoard)])), StringComparison.Ordinal);
        Assert.Contains("not in UTF-8", OnlyProblem(Write("latin.toml", Encoding.Latin1.GetBytes(BoardCases.GoodBoard))), StringComparison.Ordinal);
    }

    [Fact]
    public void A_byte_order_mark_does_no_harm() =>
        Assert.Equal("test board", BoardFiles.Read(Write("bom.toml", [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(BoardCases.GoodBoard)]), Tables).Board.Name);

    [Fact]
    public void A_file_of_more_than_a_megabyte_is_refused_before_it_is_parsed()
    {
        Assert.Contains("larger than 1 MB", OnlyProblem(Write("large.toml", BoardCases.GoodBoard + new string('#', 1_000_000))), StringComparison.Ordinal);
        Assert.Throws<InputException>(() => BoardFiles.Parse("pasted", BoardCases.GoodBoard + new string('#', 1_000_000), Tables));
    }

    [Fact]
    public void A_file_that_another_program_holds_is_said_to_be_held()
    {
        string path = Write("held.toml", BoardCases.GoodBoard);
        using var held = new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.None);
        Assert.Contains("cannot be read just now", OnlyProblem(path), StringComparison.Ordinal);
    }

    [Fact]
    public void A_hopeless_file_is_given_up_with_its_first_mistakes()
    {
        string text = string.Concat(Enumerable.Repeat("this is = no board file at all\n", 500));
        var thrown = Assert.Throws<InputException>(() => BoardFiles.Parse("prose.toml", text, Tables));
        Assert.InRange(thrown.Problems.Count, 10, 101);
        Assert.Contains(thrown.Problems, p => p.Message.Contains("nothing could be read", StringComparison.Ordinal));
        string keys = string.Concat(Enumerable.Range(0, 500).Select(i => $"key{i} = 'x'\n"));
        thrown = Assert.Throws<InputException>(() => BoardFiles.Parse("keys.toml", keys, Tables));
        Assert.Equal(101, thrown.Problems.Count);
        Assert.Contains("more mistakes", thrown.Problems[^1].Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData('[')]
    [InlineData('{')]
    public void Brackets_within_brackets_do_not_break_the_reader(char bracket)
    {
        string text = BoardCases.GoodBoard.Replace("note = \"invented\"", $"note = {new string(bracket, 100_000)}", StringComparison.Ordinal);
        var thrown = Assert.Throws<InputException>(() => BoardFiles.Parse("deep.toml", text, Tables));
        Assert.Equal([(2, "note")], thrown.Problems.Select(p => (p.Line!.Value, p.Field!)));
    }

    [Theory]
    [InlineData("note = \"a backslash at the very end \\")]
    [InlineData("note = \"half a character \\\uD83C\"\n")]
    public void What_the_parser_cannot_bear_is_one_mistake_in_its_line(string last)
    {
        var thrown = Assert.Throws<InputException>(() => BoardFiles.Parse("board.toml", BoardCases.GoodBoard + last, Tables));
        Assert.Equal(35, Assert.Single(thrown.Problems).Line);
    }

    [Fact]
    public void Own_tables_are_read_from_beside_the_board_file_and_go_before_the_tool_s()
    {
        Directory.CreateDirectory(In("mine"));
        string[] rows = File.ReadAllLines(Path.Combine(BoardCases.Repository, "shared", "materials", "woods.csv"));
        string header = rows.First(row => row.StartsWith("name,", StringComparison.Ordinal));
        string sitka = rows.First(row => row.StartsWith("Sitka spruce,", StringComparison.Ordinal));
        Write("mine/woods.csv", $"{header}\n{sitka.Replace("Sitka spruce,", "spruce from the loft,", StringComparison.Ordinal)}\n");
        string text = BoardCases.GoodBoard.Replace("\"Sitka spruce\"", "\"spruce from the loft\"", StringComparison.Ordinal) + "\n[materials]\nfolder = \"mine\"\n";
        BoardFile file = BoardFiles.Read(Write("board.toml", text), Tables);
        Assert.Equal("spruce from the loft", file.Board.Inner.Wood.Name);
        Assert.NotNull(MaterialTables.Find(file.Tables.Woods, "spruce from the loft"));
        Assert.Contains(file.ReadBack, line => line.Contains("own tables read from mine", StringComparison.Ordinal));
    }

    [Fact]
    public void What_is_wrong_with_own_tables_is_named_in_their_own_lines()
    {
        Directory.CreateDirectory(In("mine"));
        string text = BoardCases.GoodBoard + "\n[materials]\nfolder = \"mine\"\n";
        string board = Write("board.toml", text);
        Assert.Contains("holds none of", OnlyProblem(board), StringComparison.Ordinal);
        Write("mine/woods.csv", "name,density_kg_m3\nmy cedar,heavy\n");
        var thrown = Assert.Throws<InputException>(() => BoardFiles.Read(board, Tables));
        Assert.Contains(thrown.Problems, p => p.Where.EndsWith("woods.csv", StringComparison.Ordinal) && p is { Line: 2, Field: "density_kg_m3" });
        Assert.DoesNotContain(thrown.Problems, p => p.Where == board);
        Write("mine-too", "");
        Assert.Contains("is a file", OnlyProblem(Write("board2.toml", text.Replace("\"mine\"", "\"mine-too\"", StringComparison.Ordinal))), StringComparison.Ordinal);
        using var held = new FileStream(In("mine/woods.csv"), FileMode.Open, FileAccess.ReadWrite, FileShare.None);
        Assert.Contains("cannot be read", OnlyProblem(board), StringComparison.Ordinal);
    }

    private string In(string name) => Path.Combine(_folder, name);

    private string Write(string name, string text) => Write(name, Encoding.UTF8.GetBytes(text));

    private string Write(string name, byte[] bytes)
    {
        File.WriteAllBytes(In(name), bytes);
        return In(name);
    }

    private static string OnlyProblem(string path)
    {
        var thrown = Assert.Throws<InputException>(() => BoardFiles.Read(path, Tables));
        return Assert.Single(thrown.Problems).ToString();
    }
}
