using SandwichMech.Workshop;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Boards;

/// <summary>Writing board files: a new one from answers, and one value of an existing one.</summary>
[Trait("Check", "exact")]
public class BoardTextTests
{
    private static readonly MaterialTables Tables = MaterialTables.BuiltIn();

    [Fact]
    public void At_most_ten_things_are_asked_and_the_offered_answers_make_a_board()
    {
        Assert.InRange(BoardFields.Questions.Count, 1, 10);
        var offered = BoardFields.Questions.ToDictionary(field => field.Name, field => field.Offered);
        BoardFile file = BoardFiles.Parse("new.toml", BoardText.New(offered), Tables);
        Assert.Empty(file.Warnings);
        Assert.Equal(offered["name"], file.Board.Name);
        Assert.Equal(offered["core.material"], file.Board.Core.Material.Name);
    }

    [Fact]
    public void Every_field_s_example_and_default_is_right_and_usual()
    {
        foreach (BoardField field in BoardFields.All)
        {
            foreach (string text in new[] { field.Example, field.Default }.OfType<string>())
            {
                FieldReading reading = FieldReader.Read(field, text, Tables);
                Assert.True(reading is { Problem: null, Warning: null }, $"{field.Name} = {text}: {reading.Problem}{reading.Warning}");
            }
        }
    }

    [Fact]
    public void A_new_file_names_every_field_with_its_help()
    {
        string[] lines = BoardText.New(new Dictionary<string, string>()).Split('\n');
        string words = string.Join(' ', lines.Select(line => line.TrimStart('#').Trim()));
        Assert.All(BoardFields.All, field =>
        {
            Assert.Contains($"# {field.Key} = {BoardText.Quoted(field.Offered)}", lines);
            Assert.Contains(field.Help, words, StringComparison.Ordinal);
        });
        Assert.All(lines, line => Assert.True(line.Length <= 100, line));
    }

    [Fact]
    public void Taking_the_comment_mark_from_every_field_of_a_new_file_leaves_only_what_belongs_to_one_board()
    {
        // All examples together: the folder is not there, and an outline and a hole come by their measures or from a drawing.
        BoardField[] one = [.. BoardFields.All.Except(BoardFields.Alternatives)];
        var thrown = Assert.Throws<InputException>(() => BoardFiles.Parse("new.toml", Uncommented(one), Tables));
        Assert.Equal(["outline.lower", "outline.waist", "outline.upper", "hole.diameter", "hole.at", "materials.folder"], thrown.Problems.Select(p => p.Field).Where(f => f is not null));
        Assert.Contains("outline.svg: there is no such file", thrown.Message, StringComparison.Ordinal);
        BoardField[] drawn = [BoardFields.OutlineFile, BoardFields.OutlinePart, BoardFields.OutlineUnit, BoardFields.OutlineAlong, BoardFields.OutlineSmooth, BoardFields.HolePart];
        thrown = Assert.Throws<InputException>(() => BoardFiles.Parse("new.toml", Uncommented(one.Except(drawn)), Tables));
        Assert.Equal(["materials.folder"], thrown.Problems.Select(p => p.Field));

        static string Uncommented(IEnumerable<BoardField> fields)
        {
            string[] keys = [.. fields.Select(f => $"# {f.Key} = {BoardText.Quoted(f.Offered)}")];
            return string.Join('\n', BoardText.New(new Dictionary<string, string>()).Split('\n').Select(line => keys.Contains(line) || line.StartsWith("# [[", StringComparison.Ordinal) ? line[2..] : line));
        }
    }

    [Theory]
    [InlineData("plain")]
    [InlineData("an inch mark \" in it")]
    [InlineData("both \" and '")]
    [InlineData("back\\slash and '")]
    [InlineData("C:\\shop")]
    public void A_quoted_text_is_read_back_as_it_was(string text)
    {
        string edited = BoardText.WithValue(BoardCases.GoodBoard, "", "name", text);
        Assert.Equal(text, BoardFiles.Parse("board.toml", edited, Tables).Board.Name);
    }

    [Fact]
    public void An_answer_to_no_question_is_refused()
    {
        Assert.Throws<ArgumentException>(() => BoardText.New(new Dictionary<string, string> { ["outer.weight"] = "3 g" }));
        Assert.Throws<ArgumentException>(() => BoardText.WithValue(BoardCases.GoodBoard, "outer", "weight", "3 g"));
    }

    [Theory]
    [InlineData("board.toml")]
    [InlineData("board-foam.toml")]
    public void Changing_any_value_that_is_there_changes_nothing_else(string demo)
    {
        string text = File.ReadAllText(BoardCases.Demo(demo));
        int changed = 0;
        foreach (BoardField field in BoardFields.All)
        {
            string edited = BoardText.WithValue(text, field.Table.Name, field.Key, "CHANGED");
            string[] before = text.Split('\n'), after = edited.Split('\n');
            if (before.Length != after.Length)
            {
                continue;
            }

            changed++;
            int at = Assert.Single(Enumerable.Range(0, before.Length), i => before[i] != after[i]);
            Assert.StartsWith($"{field.Key} = \"CHANGED\"", after[at], StringComparison.Ordinal);
            int comment = before[at].IndexOf('#', StringComparison.Ordinal);
            Assert.EndsWith(comment < 0 ? "\"CHANGED\"" : before[at][comment..], after[at], StringComparison.Ordinal);
        }

        Assert.True(changed >= 10, $"{changed} values were there");
    }

    [Fact]
    public void A_value_is_changed_in_its_own_table()
    {
        string edited = BoardText.WithValue(File.ReadAllText(BoardCases.Demo("board.toml")), "inner", "thickness", "0.022 in");
        BoardFile file = BoardFiles.Parse("board.toml", edited, Tables);
        Checks.Near(0.022 * 0.0254, file.Board.Inner.Thickness.Value, 1e-12);
        Checks.Near(0.030 * 0.0254, file.Board.Outer.Thickness.Value, 1e-12);
    }

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    public void A_value_that_is_not_there_is_added_behind_the_last_of_its_table(string newLine)
    {
        string text = "# top\nname = \"x\"\n\n[outer] # seen\nwood = \"cedar\" # light\n\n# next\n[core]\n".Replace("\n", newLine, StringComparison.Ordinal);
        Assert.Equal(
            "# top\nname = \"x\"\n\n[outer] # seen\nwood = \"cedar\" # light\ngrain = \"2°\"\n\n# next\n[core]\n".Replace("\n", newLine, StringComparison.Ordinal),
            BoardText.WithValue(text, "outer", "grain", "2°"));
        Assert.Equal(
            "# top\nname = \"x\"\n\n[outer] # seen\nwood = \"cedar\" # light\n\n# next\n[core]\nheight = \"2 mm\"\n".Replace("\n", newLine, StringComparison.Ordinal),
            BoardText.WithValue(text, "core", "height", "2 mm"));
        Assert.Equal(
            text.Replace("name = \"x\"", $"name = \"x\"{newLine}note = \"new\"", StringComparison.Ordinal),
            BoardText.WithValue(text, "", "note", "new"));
        Assert.Equal(
            text + "\n[solid]\nthickness = \"2.6 mm\"\n".Replace("\n", newLine, StringComparison.Ordinal),
            BoardText.WithValue(text, "solid", "thickness", "2.6 mm"));
        Assert.Equal("\uFEFFname = \"y\"\n", BoardText.WithValue("\uFEFFname = \"x\"\n", "", "name", "y"));
        Assert.Equal($"name = \"y\"\n[core]\nheight = \"2 mm\"\n", BoardText.WithValue("[core]\nheight = \"2 mm\"", "", "name", "y") + "\n");
    }

    [Fact]
    public void A_value_over_several_lines_is_replaced_whole()
    {
        string edited = BoardText.WithValue(File.ReadAllText(BoardCases.Demo("board-foam.toml")), "", "note", "short");
        Assert.DoesNotContain("Demo data", edited, StringComparison.Ordinal);
        Assert.Contains("note = \"short\"\n\n[size]", edited, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_cannot_be_read_is_not_edited()
    {
        var thrown = Assert.Throws<InputException>(() => BoardText.WithValue("[outer]\nwood = cedar\n", "outer", "wood", "spruce"));
        Assert.Equal(2, Assert.Single(thrown.Problems).Line);
    }
}
