using SandwichMech.Workshop;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Boards;

/// <summary>Wrong board files: every mistake is named with its line and field, nothing else is, and nothing but an InputException comes out.</summary>
[Trait("Check", "exact")]
public class WrongBoardTests
{
    private static readonly MaterialTables Tables = MaterialTables.BuiltIn();

    public static TheoryData<string> Kinds => [.. BoardCases.Kinds];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Every_mistake_of_a_kind_is_named_and_nothing_else(string file)
    {
        IReadOnlyList<BoardCase> cases = BoardCases.In(file);
        Assert.NotEmpty(cases);
        Assert.Multiple([.. cases.Select<BoardCase, Action>(one => () => AssertNamed(one))]);
    }

    [Fact]
    public void There_are_a_hundred_wrong_boards_of_thirty_kinds()
    {
        Assert.True(BoardCases.Kinds.Count >= 30, $"{BoardCases.Kinds.Count} kinds");
        int count = BoardCases.Kinds.SelectMany(BoardCases.In).Select(one => one.Text).Distinct().Count();
        Assert.True(count >= 100, $"{count} wrong boards");
    }

    [Fact]
    public void Three_mistakes_in_a_file_are_all_three_named()
    {
        IReadOnlyList<BoardCase> cases = BoardCases.In("three-mistakes.txt");
        Assert.True(cases.Count >= 20, $"{cases.Count} files");
        Assert.All(cases, one => Assert.Equal(3, one.Expected.Count));
        Assert.Multiple([.. cases.Select<BoardCase, Action>(one => () => AssertNamed(one))]);
    }

    [Fact]
    public void What_is_unusual_is_a_warning_and_no_mistake()
    {
        foreach (BoardCase one in BoardCases.In("unusual.txt"))
        {
            AssertAre(one, BoardFiles.Parse("board.toml", one.Text, Tables).Warnings);
        }
    }

    [Fact]
    public void The_good_board_is_good()
    {
        BoardFile file = BoardFiles.Parse("board.toml", BoardCases.GoodBoard, Tables);
        Assert.Empty(file.Warnings);
    }

    [Fact]
    public void Windows_line_ends_change_no_message()
    {
        foreach (BoardCase one in BoardCases.Kinds.Where(kind => kind != "control-character.txt").SelectMany(BoardCases.In))
        {
            AssertNamed(one with { Text = one.Text.Replace("\n", "\r\n", StringComparison.Ordinal) });
        }
    }

    private static void AssertNamed(BoardCase one)
    {
        var thrown = Assert.Throws<InputException>(() => BoardFiles.Parse("board.toml", one.Text, Tables));
        AssertAre(one, thrown.Problems);
    }

    private static void AssertAre(BoardCase one, IReadOnlyList<Problem> actual)
    {
        string said = $"{one}\n{string.Join('\n', actual)}";
        Assert.True(one.Expected.Count == actual.Count, $"{one.Expected.Count} expected, {actual.Count} named in {said}");
        int lines = one.Text.Split('\n').Length;
        foreach (Problem problem in actual)
        {
            Assert.Equal("board.toml", problem.Where);
            Assert.True(problem.Line is null or >= 1 && !(problem.Line > lines), said);
            Assert.True(problem.ToString() is { Length: < 500 } line && !line.Any(char.IsControl), $"not one readable line: {said}");
            Assert.DoesNotContain("Exception", problem.Message, StringComparison.Ordinal);
        }

        foreach (Expected expected in one.Expected)
        {
            Assert.True(
                actual.Any(p => p.Line == expected.Line && p.Field == expected.Field && expected.Words.All(w => p.Message.Contains(w, StringComparison.Ordinal))),
                $"not named: line {expected.Line}, {expected.Field}, {string.Join(", ", expected.Words)} in {said}");
        }
    }
}
