using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Boards;

/// <summary>What a right board file gives, worked out by hand from its text.</summary>
[Trait("Check", "exact")]
public class BoardFilesTests
{
    private const double Inch = 0.0254;
    private static readonly MaterialTables Tables = MaterialTables.BuiltIn();

    // ± a as limits is a/√3 (JCGM 100:2008, 4.3.7); sd of the logarithm from the coefficient of variation, √ln(1 + cv²).
    private static double LogSpread(double value, double sd) => Math.Sqrt(Math.Log(1 + (sd / value * (sd / value))));

    [Fact]
    public void The_demo_board_is_read()
    {
        BoardFile file = BoardFiles.Read(BoardCases.Demo("board.toml"), Tables);
        Board board = file.Board;
        Assert.Equal("demo board, cedar over spruce", board.Name);
        Checks.Near(241 * Inch * Inch, board.Size.Area, 1e-12, "area");
        Checks.Near(19 * Inch, board.Size.Length!.Value, 1e-12, "length");
        Checks.Near(14.5 * Inch, board.Size.Width!.Value, 1e-12, "width");
        Assert.Equal("western redcedar", board.Outer.Wood.Name);
        Assert.Equal("Sitka spruce", board.Inner.Wood.Name);
        Checks.Near(0.030 * Inch, board.Outer.Thickness.Value, 1e-12, "outer");
        Checks.Near(0.024 * Inch, board.Inner.Thickness.Value, 1e-12, "inner");
        Checks.Near(LogSpread(0.030 * Inch, 0.05e-3 / Math.Sqrt(3)), board.Outer.Thickness.Spread, 1e-12, "outer spread");
        Checks.Near(1.8e-3, board.Core.Height.Value, 1e-12, "core");
        Assert.Equal(0, board.Core.RibbonAngle);
        Assert.Equal(0, board.Outer.GrainAngle);
        Checks.Near(0.15e-3 / (Inch * Inch), board.Adhesive.Mixed.Value, 1e-12, "mixed");
        Checks.Near(0.5, board.Adhesive.KeptShare.Value, 1e-12, "kept");
        Checks.Near(0.005, file.Bead!.Value.MassPerLength, 1e-12, "bead");
        Checks.Near(0.4, file.Bead.Value.LineLength, 1e-12, "bead line");
        Assert.Equal("western redcedar", board.Solid.Wood.Name);
        Checks.Near(2.6e-3, board.Solid.Thickness!.Value.Value, 1e-12, "solid");
        Assert.Equal(StiffnessCriterion.Along, file.Criterion);
        Assert.Empty(file.Warnings);
    }

    [Fact]
    public void The_foam_board_takes_its_core_from_what_the_skins_leave_with_the_spreads_of_all_three()
    {
        BoardFile file = BoardFiles.Read(BoardCases.Demo("board-foam.toml"), Tables);
        double outer = 0.03e-3 / Math.Sqrt(3), total = 0.1e-3 / Math.Sqrt(3), inner = 0.02e-3;
        Checks.Near(2.1e-3, file.Board.Core.Height.Value, 1e-12, "height");
        Checks.Near(LogSpread(2.1e-3, Math.Sqrt((outer * outer) + (total * total) + (inner * inner))), file.Board.Core.Height.Spread, 1e-9, "height's spread");
        Checks.Near(LogSpread(0.6e-3, inner), file.Board.Inner.Thickness.Spread, 1e-9, "sd");
        Assert.Equal(StiffnessCriterion.MidSpanDeflection, file.Criterion);
        Assert.Null(file.Bead);
        Assert.Null(file.Board.Solid.Thickness);
        Assert.Empty(file.Warnings);
    }

    [Theory]
    [InlineData("0.76 mm", 0.76e-3)]
    [InlineData("0,76 mm", 0.76e-3)]
    [InlineData("30 thou", 30e-3 * Inch)]
    [InlineData("0.030 in", 0.030 * Inch)]
    [InlineData("1/32 in", Inch / 32)]
    [InlineData("1 / 32 in", Inch / 32)]
    [InlineData(".76 mm", 0.76e-3)]
    [InlineData("0.076 cm", 0.76e-3)]
    [InlineData("  0.76  mm  ", 0.76e-3)]
    [InlineData("0.030″", 0.030 * Inch)]
    public void A_thickness_is_read_as_makers_write_it(string typed, double metres)
    {
        Board board = Good(("thickness = \"0.76 mm\"", $"thickness = {BoardText.Quoted(typed)}")).Board;
        Checks.Near(metres, board.Outer.Thickness.Value, 1e-12, typed);
    }

    [Theory]
    [InlineData("18 29/32 in", (18 + (29.0 / 32)) * Inch)]
    [InlineData("18½ in", 18.5 * Inch)]
    [InlineData("480 mm", 0.48)]
    public void A_length_is_read_as_makers_write_it(string typed, double metres) =>
        Checks.Near(metres, Good(("length = \"48 cm\"", $"length = \"{typed}\"")).Board.Size.Length!.Value, 1e-12, typed);

    [Theory]
    [InlineData("along", 0)]
    [InlineData("across", Math.PI / 2)]
    [InlineData("Across", Math.PI / 2)]
    [InlineData("45°", Math.PI / 4)]
    [InlineData("-30 deg", -Math.PI / 6)]
    public void The_ribbon_lies_along_across_or_at_an_angle(string typed, double angle) =>
        Checks.Close(angle, Good(("ribbon = \"across\"", $"ribbon = \"{typed}\"")).Board.Core.RibbonAngle, 1e-12, typed);

    [Fact]
    public void Every_criterion_can_be_chosen_by_its_words()
    {
        foreach (string words in ((ChoiceKind)BoardFields.Criterion.Kind).Words)
        {
            Assert.Equal(BoardFields.CriterionOf(words), Good(("criterion = \"geometric mean\"", $"criterion = \"{words}\"")).Criterion);
            Assert.Equal(words, BoardFields.NameOf(BoardFields.CriterionOf(words)));
        }

        Assert.Equal(Enum.GetValues<StiffnessCriterion>().Order(), ((ChoiceKind)BoardFields.Criterion.Kind).Words.Select(BoardFields.CriterionOf).Order());
    }

    [Fact]
    public void What_is_not_typed_is_taken_and_said()
    {
        BoardFile file = BoardFiles.Parse("shop/cedar 7.toml", """
            [size]
            area = "1550 cm²"
            [outer]
            wood = "cedar"
            thickness = "0.76 mm ± 0.03 mm"
            [core]
            material = "1/8-3.0"
            height = "1.8 mm"
            [inner]
            wood = "spruce"
            thickness = "0.61 mm"
            """, Tables);
        Assert.Equal("cedar 7", file.Board.Name);
        Assert.Equal("western redcedar", file.Board.Outer.Wood.Name);
        Assert.Equal("western redcedar", file.Board.Solid.Wood.Name);
        Assert.Equal("Sitka spruce", file.Board.Inner.Wood.Name);
        Assert.Equal(BoardFields.Product.Default, file.Board.Adhesive.Name);
        Assert.Equal(StiffnessCriterion.Along, file.Criterion);
        string said = string.Join('\n', file.ReadBack);
        Assert.All(
            ["'cedar' is read as western redcedar", "'spruce' is read as Sitka spruce", "'1/8-3.0' is read as aramid honeycomb 3.2-48",
                "outer.thickness: ± 0.03 mm read as limits", "core.height, inner.thickness: no spread typed; ± 0.05 mm",
                "common practice, no source", "standard deviation 0.029 mm", "name cedar 7", "outer.grain 0°", "inner.grain 0°", "core.ribbon along",
                "adhesive.product thixotropic two-part epoxy", "solid.wood western redcedar", "solid.criterion stiffness along"],
            words => Assert.Contains(words, said, StringComparison.Ordinal));
        Assert.DoesNotContain("outer.thickness, ", said, StringComparison.Ordinal);
    }

    [Fact]
    public void Coverage_typed_without_a_spread_keeps_the_spread_of_the_adhesive()
    {
        Board board = Good().Board;
        var row = MaterialTables.Find(Tables.Adhesives, "laminating epoxy 100:30")!.Item;
        Checks.Near(0.230, board.Adhesive.Mixed.Value, 1e-12, "mixed");
        Assert.Equal(row.Mixed.Spread, board.Adhesive.Mixed.Spread);
        Board typed = Good(("mixed = \"230 g/m²\"", "mixed = \"230 g/m² ± 10 g/m² sd\"")).Board;
        Checks.Near(LogSpread(230, 10), typed.Adhesive.Mixed.Spread, 1e-9, "typed spread");
    }

    [Fact]
    public void The_board_s_thickness_may_differ_from_the_sum_by_a_twentieth_of_a_millimetre()
    {
        // 0.76 + 1.8 + 0.61 = 3.17 mm
        Assert.Empty(Good(("width = \"37 cm\"", "width = \"37 cm\"\nthickness = \"3.22 mm\"")).Warnings);
        Assert.Throws<InputException>(() => Good(("width = \"37 cm\"", "width = \"37 cm\"\nthickness = \"3.23 mm\"")));
    }

    [Fact]
    public void The_ends_of_a_range_are_possible_in_any_unit()
    {
        Assert.NotEmpty(Good(("thickness = \"0.76 mm\"", "thickness = \"10 mm\"")).Warnings);
        Assert.NotEmpty(Good(("thickness = \"0.76 mm\"", "thickness = \"1.0 cm\"")).Warnings);
        Assert.Empty(Good(("thickness = \"0.76 mm\"", "thickness = \"0.03 cm\"")).Warnings);
        Assert.Throws<InputException>(() => Good(("thickness = \"0.76 mm\"", "thickness = \"10.001 mm\"")));
    }

    [Fact]
    public void Text_and_layout_do_not_matter_to_the_board()
    {
        Board plain = Good().Board;
        string shuffled = "\uFEFF# a comment\r\n" + string.Join("\r\n\r\n", BoardCases.GoodBoard.TrimEnd().Split("\n\n").Skip(1).Reverse()
            .Prepend(BoardCases.GoodBoard.Split("\n\n")[0])).Replace("[core]", "  [ core ]   # the core", StringComparison.Ordinal)
            .Replace("\"0.61 mm\"", "'0.61 mm'", StringComparison.Ordinal).Replace("height = \"1.8 mm\"", "\"height\"=\"\"\"1.8 mm\"\"\"", StringComparison.Ordinal);
        Assert.Equal(plain, BoardFiles.Parse("board.toml", shuffled, Tables).Board);
    }

    [Fact]
    public void The_text_is_kept_as_it_was()
    {
        string path = BoardCases.Demo("board.toml");
        Assert.Equal(File.ReadAllText(path), BoardFiles.Read(path, Tables).Text);
    }

    private static BoardFile Good(params (string Old, string New)[] edits)
    {
        string text = BoardCases.GoodBoard;
        foreach (var (old, replacement) in edits)
        {
            Assert.Contains(old, text, StringComparison.Ordinal);
            text = text.Replace(old, replacement, StringComparison.Ordinal);
        }

        return BoardFiles.Parse("board.toml", text, Tables);
    }
}
