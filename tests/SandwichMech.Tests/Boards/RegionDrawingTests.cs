using SandwichMech.Core.Layups;
using SandwichMech.Workshop;

namespace SandwichMech.Tests.Boards;

/// <summary>Regions whose border is a closed line of a drawing of their own, in the coordinates of the outline's drawing.</summary>
[Trait("Check", "exact")]
public sealed class RegionDrawingTests : RoundBoard
{
    // The board's drawing has the same triangle: 100 mm wide, its base 60 mm and its tip 20 mm from the lower end.
    private const string Page = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"300mm\" height=\"300mm\" viewBox=\"0 0 300 300\">",
        Triangle = "<path id=\"tri\" d=\"M 100 240 L 200 240 L 150 280 Z\"/>", Typed = "points = \"60 mm, 50 mm; 60 mm, -50 mm; 20 mm, 0 mm\"\n";

    [Theory]
    [InlineData("[[let_in]]\nwood = \"balsa\"\n", "let-in wood")]
    [InlineData("[[skin_part]]\nface = \"outer\"\nthickness = \"0.5 mm\"\n", "skin part")]
    [InlineData("[[core_sheet]]\nribbon = \"across\"\n", "core sheet")]
    [InlineData("[[added_mass]]\nper_area = \"300 g/m²\"\n", "added mass")]
    public void A_line_of_its_own_drawing_and_typed_corners_make_the_same_region(string region, string name)
    {
        Write("own.svg", $"{Page}{Triangle}</svg>");
        Board drawn = Read(region + "file = \"own.svg\"\n").Board, typed = Read(region + Typed).Board;
        Checks.Near(0.1 * 0.04 / 2, Of(drawn, name).Area, 1e-9, "area, by hand");
        Checks.Near(Of(typed, name).Mass, Of(drawn, name).Mass, 1e-9, "mass");
        Checks.Near(typed.Mass(typed.Laminate()), drawn.Mass(drawn.Laminate()), 1e-9, "the board's mass");
    }

    [Fact]
    public void A_hole_of_its_own_drawing_is_cut_out_on_both_sides()
    {
        Write("port.svg", $"{Page}<circle cx=\"70\" cy=\"150\" r=\"15\"/></svg>");
        Board board = Read("[[extra_hole]]\nfile = \"port.svg\"\nmirrored = \"yes\"\n").Board;
        Assert.Equal(3, board.Shape!.Holes.Count);
        Checks.Near(Math.PI * (Radius * Radius - HoleRadius * HoleRadius - 2 * 0.015 * 0.015), board.Size.Area, 1e-6, "area");
        // The grain runs up the drawing, so its left is the board's left: y = +80 mm, and 150 mm from the lower end.
        Assert.Contains(board.Shape.Holes, h => (h.Bounds().Middle - new Core.Outlines.Point(0.15, 0.08)).Norm < 1e-9);
    }

    // An outline of points and regions beside it in the same coordinates; the second says its unit, the third takes the one it is told, the last the outline's.
    [Theory]
    [InlineData("tri.csv", "x_mm,y_mm\n100,60\n200,60\n150,20\n", "")]
    [InlineData("tri.dxf", "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n5\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n8\nwedge\n90\n3\n70\n1\n10\n10\n20\n6\n10\n20\n20\n6\n10\n15\n20\n2\n0\nENDSEC\n0\nEOF\n", "")]
    [InlineData("tri.csv", "10,6\n20,6\n15,2\n", "unit = \"cm\"\n")]
    [InlineData("tri.csv", "100,60\n200,60\n150,20\n", "")]
    public void Each_kind_of_drawing_lies_over_an_outline_of_points(string file, string text, string unit)
    {
        Write("round.csv", string.Join('\n', Enumerable.Range(0, 180).Select(i => FormattableString.Invariant(
            $"{150 + 150 * Math.Sin(Math.PI * i / 90):F9},{150 - 150 * Math.Cos(Math.PI * i / 90):F9}"))));
        Write(file, text);
        (string, string)[] edits = [("file = \"round.svg\"\npart = \"edge\"\n", "file = \"round.csv\"\nunit = \"mm\"\n"), ("part = \"hole\"", "diameter = \"80 mm\"\nat = \"200 mm\"")];
        Board drawn = Read($"[[let_in]]\nwood = \"balsa\"\nfile = \"{file}\"\n{unit}", edits).Board, typed = Read("[[let_in]]\nwood = \"balsa\"\n" + Typed, edits).Board;
        Checks.Near(0.1 * 0.04 / 2, Of(drawn, "let-in wood").Area, 1e-9, "area");
        Checks.Near(Of(typed, "let-in wood").Mass, Of(drawn, "let-in wood").Mass, 1e-9, "mass");
    }

    [Theory]
    [InlineData("", "", "own.svg: is empty")]
    [InlineData(null, "", "own.svg: there is no such file")]
    [InlineData("<path d=\"M 100 240 L 200 240 L 150 280 L 110 250\"/>", "", "own.svg: has no closed outline: the largest piece is open by")]
    [InlineData(Triangle + "<circle id=\"dot\" cx=\"150\" cy=\"60\" r=\"5\"/>", "", "has several closed lines ('tri' (100.0 × 40.0 mm), 'dot' (10.0 × 10.0 mm)): choose one with part")]
    [InlineData(Triangle, "part = \"tree\"\n", "has no closed line 'tree' (it has 'tri'")]
    [InlineData(Triangle + "<g id=\"wedge\"><path d=\"M 100 240 L 200 240 L 150 290 L 110 250\"/></g>", "part = \"wedge\"\n", "the largest piece on 'wedge' is open by")]
    [InlineData("<g id=\"two\"><circle cx=\"150\" cy=\"60\" r=\"5\"/><circle cx=\"150\" cy=\"30\" r=\"5\"/></g>", "part = \"two\"\n", "name one of")]
    [InlineData("<path d=\"M 100 240 L 200 280 L 200 240 L 100 280 Z\"/>", "", "crosses itself at (150, 260)")]
    [InlineData("<circle cx=\"600\" cy=\"150\" r=\"15\"/>", "", "lies beside the board")]
    [InlineData(Triangle, "unit = \"m\"\n", "which is no part of a board: say the unit")]
    [InlineData(Triangle, "diameter = \"30 mm\"\n", "diameter says already where it lies")]
    [InlineData(Triangle, "at = \"30 mm\"\n", "file says already where it lies")]
    public void What_cannot_be_a_border_is_one_clear_line(string? drawn, string more, string wanted)
    {
        if (drawn is not null) { Write("own.svg", drawn.Length == 0 ? "" : $"{Page}{drawn}</svg>"); }
        var thrown = Assert.Throws<InputException>(() => Read("[[let_in]]\nwood = \"balsa\"\nfile = \"own.svg\"\n" + more));
        Problem problem = Assert.Single(thrown.Problems);
        Assert.Contains(wanted, problem.Message, StringComparison.Ordinal);
        Assert.StartsWith("let_in.", problem.Field, StringComparison.Ordinal);
        Assert.True(problem.Line > 20 && problem.ToString().Length < 500 && !problem.ToString().Contains('\n', StringComparison.Ordinal), problem.ToString());
    }

    [Fact]
    public void A_drawing_of_the_other_kind_and_a_hole_at_the_edge_are_refused()
    {
        Write("own.csv", "x_mm,y_mm\n100,60\n200,60\n150,20\n");
        var thrown = Assert.Throws<InputException>(() => Read("[[let_in]]\nwood = \"balsa\"\nfile = \"own.csv\"\n"));
        Assert.Contains("save both as one kind", Assert.Single(thrown.Problems).Message, StringComparison.Ordinal);
        Write("own.svg", $"{Page}<circle cx=\"150\" cy=\"290\" r=\"15\"/></svg>");
        thrown = Assert.Throws<InputException>(() => Read("[[extra_hole]]\nfile = \"own.svg\"\n"));
        Assert.Contains("reaches the outline", Assert.Single(thrown.Problems).Message, StringComparison.Ordinal);
    }
}
