using System.Collections;
using CsCheck;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Boards;

/// <summary>Damaged files: a board without a NaN in it, or one exception with readable lines; never anything else.</summary>
[Trait("Check", "exact")]
public class BoardFuzzTests
{
    private const string Characters = "\"'[]{}=#.,\n\r\t :;-+±0159eEnmi²°%/\\u\0“é½\uFEFF\U0001F3B8_abkthou";
    private static readonly MaterialTables Tables = MaterialTables.BuiltIn();
    private static readonly string[] Demos = [File.ReadAllText(BoardCases.Demo("board.toml")), File.ReadAllText(BoardCases.Demo("board-foam.toml")), BoardCases.GoodBoard];

    private enum Damage { Delete, Insert, Replace, CutLine, DoubleLine, SwapLines }

    private static readonly Gen<(Damage Kind, double At, double To, int Character)[]> Damages =
        Gen.Select(Gen.Enum<Damage>(), Gen.Double[0, 1], Gen.Double[0, 1], Gen.Int[0, Characters.Length - 1]).Array[1, 6];

    [Fact]
    public void A_damaged_file_is_a_board_or_a_list_of_mistakes() =>
        Gen.Select(Gen.Int[0, Demos.Length - 1], Damages).Sample(
            sample => AssertBoardOrMistakes(sample.Item2.Aggregate(Demos[sample.Item1], Damaged)), iter: 3000);

    [Fact]
    public void Any_characters_at_all_are_a_board_or_a_list_of_mistakes() =>
        Gen.Char[Characters].Array[0, 200].Sample(text => AssertBoardOrMistakes(new string(text)), iter: 2000);

    [Fact]
    public void Any_text_in_a_value_is_a_board_or_a_list_of_mistakes() =>
        Gen.Select(Gen.Int[0, BoardFields.All.Count - 1], Gen.Char["0123456789.,/ ±-+einmghou²%°ndk=½"].Array[0, 14]).Sample(
            sample =>
            {
                BoardField field = BoardFields.All[sample.Item1];
                AssertBoardOrMistakes(BoardText.WithValue(BoardCases.GoodBoard, field.Table.Name, field.Key, new string(sample.Item2)));
            },
            iter: 3000);

    private static string Damaged(string text, (Damage Kind, double At, double To, int Character) damage)
    {
        if (text.Length == 0)
        {
            return text;
        }

        int at = (int)(damage.At * (text.Length - 1));
        string[] lines = text.Split('\n');
        int line = (int)(damage.At * (lines.Length - 1)), other = (int)(damage.To * (lines.Length - 1));
        string character = Characters[damage.Character].ToString();
        switch (damage.Kind)
        {
            case Damage.Delete:
                return text.Remove(at, Math.Min(text.Length - at, 1 + (int)(damage.To * 5)));
            case Damage.Insert:
                return text.Insert(at, character);
            case Damage.Replace:
                return text.Remove(at, 1).Insert(at, character);
            case Damage.CutLine:
                return string.Join('\n', lines.Where((_, i) => i != line));
            case Damage.DoubleLine:
                return string.Join('\n', lines.SelectMany((l, i) => i == line ? new[] { l, l } : [l]));
            default:
                (lines[line], lines[other]) = (lines[other], lines[line]);
                return string.Join('\n', lines);
        }
    }

    private static void AssertBoardOrMistakes(string text)
    {
        try
        {
            BoardFile file = BoardFiles.Parse("board.toml", text, Tables);
            AssertFinite(file.Board, "board");
            Assert.True(double.IsFinite(file.Board.Laminate().Bending.M11));
            Assert.All(file.Warnings, AssertReadable);
            Assert.All(file.ReadBack, line => Assert.DoesNotContain(line, c => char.IsControl(c)));
        }
        catch (InputException wrong)
        {
            Assert.NotEmpty(wrong.Problems);
            Assert.All(wrong.Problems, AssertReadable);
            int lines = text.Split('\n').Length;
            Assert.All(wrong.Problems, p => Assert.True(p.Line is null || (p.Line >= 1 && p.Line <= lines), $"{p} of {lines} lines"));
        }
    }

    private static void AssertReadable(Problem problem)
    {
        Assert.DoesNotContain(problem.ToString(), c => char.IsControl(c));
        Assert.InRange(problem.ToString().Length, 10, 600);
    }

    /// <summary>Every number that can be reached from an object.</summary>
    private static void AssertFinite(object? value, string path)
    {
        switch (value)
        {
            case null or string or Enum or bool or int:
                break;
            case double number:
                Assert.True(double.IsFinite(number), path);
                break;
            case IEnumerable many:
                foreach (object? one in many)
                {
                    AssertFinite(one, path + "[]");
                }

                break;
            default:
                foreach (var property in value.GetType().GetProperties().Where(p => p.GetIndexParameters().Length == 0))
                {
                    AssertFinite(property.GetValue(value), $"{path}.{property.Name}");
                }

                break;
        }
    }
}
