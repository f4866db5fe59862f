using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Workshop.Boards;

namespace SandwichMech.Tests.Boards;

/// <summary>Regions of board files: their mass by area, thickness and density worked out by hand, and what they make of the layup.</summary>
[Trait("Check", "exact")]
public sealed class RegionFilesTests : RoundBoard
{
    [Fact]
    public void Let_in_wood_of_any_corners_weighs_area_times_height_times_density()
    {
        Board board = Read("""
            [[let_in]]
            points = ["30 mm, 60 mm", "30 mm, 20 mm", "75 mm, 10 mm", "90 mm, 45 mm", "55 mm, 40 mm"]
            mirrored = "yes"
            wood = "sugar maple"
            grain = "across"
            """).Board;
        // Shoelace formula in mm², one side.
        (double X, double Y)[] p = [(30, 60), (30, 20), (75, 10), (90, 45), (55, 40)];
        double twice = Enumerable.Range(0, 5).Sum(i => p[i].X * p[(i + 1) % 5].Y - p[(i + 1) % 5].X * p[i].Y);
        (double area, double mass) = Of(board, "let-in wood");
        Checks.Near(Math.Abs(twice) * 1e-6, area, 1e-9, "area of both");
        Checks.Near(area * (Skins(board) + Core * Density("sugar maple") + 2 * board.Adhesive.Kept), mass, 1e-9, "mass");
        Checks.Near(Math.PI / 2, PliesIn(board, "let-in wood", new(0.07, -0.03))[2].Angle, 1e-12, "grain");
        Checks.Near(Math.PI * (Radius * Radius - HoleRadius * HoleRadius), board.Size.Area, 1e-6, "the board");
    }

    [Fact]
    public void A_curve_of_the_drawing_and_its_corners_make_the_same_region()
    {
        Board drawn = Read("[[let_in]]\npart = \"patch\"\nwood = \"balsa\"").Board;
        Board typed = Read("[[let_in]]\npoints = \"60 mm, 50 mm; 60 mm, -50 mm; 20 mm, 0 mm\"\nwood = \"balsa\"").Board;
        Checks.Near(0.1 * 0.04 / 2, Of(drawn, "let-in wood").Area, 1e-9, "area");
        Checks.Near(Of(typed, "let-in wood").Mass, Of(drawn, "let-in wood").Mass, 1e-9, "mass");
    }

    [Fact]
    public void A_let_in_rectangle_is_the_bridge_patch_by_another_name()
    {
        // Two ways through the reader to one plate.
        const string Place = "along = \"30 mm\"\nacross = \"120 mm\"\nat = \"80 mm\"\nwood = \"Sitka spruce\"\n";
        Board patch = Read($"[bridge_patch]\n{Place}").Board, letIn = Read($"[[let_in]]\n{Place}").Board;
        double Mode(Board b) => BoardPlate.Solve(b, 1, 0.02).Plate.Modes[0].Frequency;
        Checks.Near(Mode(patch), Mode(letIn), 1e-9, "first mode");
        Checks.Near(patch.Mass(patch.Laminate()), letIn.Mass(letIn.Laminate()), 1e-12, "mass");
    }

    [Fact]
    public void Later_let_in_wood_holds_over_earlier_and_what_is_hidden_is_said()
    {
        BoardFile file = Read("""
            [[let_in]]
            name = "below"
            diameter = "30 mm"
            at = "80 mm"
            wood = "balsa"
            [[let_in]]
            name = "above"
            along = "40 mm"
            across = "60 mm"
            at = "80 mm"
            wood = "sugar maple"
            """);
        Assert.Contains(file.Warnings, w => w.Field == "let_in.at" && w.Message.StartsWith("nothing of the below is left", StringComparison.Ordinal));
        Checks.Near(Density("sugar maple"), PliesIn(file.Board, "below", new(0.08, 0))[2].Density, 1e-12);
        Assert.Contains(file.ReadBack, line => line.Contains("above 24.0 cm²", StringComparison.Ordinal));
    }

    [Fact]
    public void A_joint_weighs_its_length_without_the_hole()
    {
        Board plain = Read("").Board, jointed = Read("[[joint]]\nof = \"outer\"\nglue = \"3 g/m\"\n[[joint]]\nof = \"core\"\naside = \"90 mm\"\nglue = \"5 g/m\"\n").Board;
        double glue = 3e-3 * (2 * Radius - 2 * HoleRadius) + 5e-3 * 2 * Math.Sqrt(Radius * Radius - 0.09 * 0.09);
        Checks.Close(glue, jointed.Mass(jointed.Laminate()) - plain.Mass(plain.Laminate()), 2e-8, "kg more");
    }

    [Fact]
    public void An_added_mass_is_all_of_it_wherever_it_lies()
    {
        Board plain = Read("").Board;
        double More(string mass)
        {
            Board board = Read($"[[added_mass]]\ndiameter = \"40 mm\"\nat = \"60 mm\"\n{mass}\n").Board;
            return board.Mass(board.Laminate()) - plain.Mass(plain.Laminate());
        }

        Checks.Close(5e-3, More("mass = \"5 g\""), 2e-8, "kg");
        Checks.Close(5e-3, More("mass = \"5 g\"\naside = \"-95 mm\""), 2e-8, "kg, partly on the edge band");
        Checks.Close(0.1 * Math.PI * 0.02 * 0.02, More("per_area = \"100 g/m²\""), 2e-8, "kg");
    }

    [Fact]
    public void A_core_sheet_turns_its_ribbon()
    {
        Board board = Read("[[core_sheet]]\npoints = [\"15 cm, -1 m\", \"1 m, -1 m\", \"1 m, 1 m\", \"15 cm, 1 m\"]\nribbon = \"across\"\n").Board;
        Checks.Near(Math.PI / 2, PliesIn(board, "core sheet", new(0.16, 0.08))[2].Angle, 1e-12);
        Checks.Near(Math.PI * Radius * Radius / 2 - Math.PI * HoleRadius * HoleRadius, Of(board, "core sheet").Area, 1e-6, "its half of the board");
    }

    [Fact]
    public void A_board_of_two_sheets_laid_across_is_one_whose_sheet_lies_across()
    {
        const string Halves = "[[core_sheet]]\npoints = [\"15 cm, -1 m\", \"1 m, -1 m\", \"1 m, 1 m\", \"15 cm, 1 m\"]\nribbon = \"across\"\n[[core_sheet]]\npoints = [\"-1 m, -1 m\", \"15 cm, -1 m\", \"15 cm, 1 m\", \"-1 m, 1 m\"]\nribbon = \"across\"\n";
        double Mode(Board b) => BoardPlate.Solve(b, 1, 3e-3).Plate.Modes[0].Frequency;
        const string Clamped = "[edge]\nheld = \"clamped\"\n";
        double across = Mode(Read(Clamped, ("height = \"2 mm\"", "height = \"2 mm\"\nribbon = \"across\"")).Board);
        Checks.Near(across, Mode(Read(Halves + Clamped).Board), 5e-4, "halves");
        Assert.True(Math.Abs(Mode(Read(Clamped).Board) / across - 1) > 5e-3, "The ribbon does nothing to this mode.");
    }

    [Fact]
    public void Holes_take_their_area_away()
    {
        Board board = Read("[[extra_hole]]\ndiameter = \"20 mm\"\nat = \"220 mm\"\naside = \"80 mm\"\nmirrored = \"yes\"\n").Board;
        Assert.Equal(3, board.Shape!.Holes.Count);
        Checks.Near(Math.PI * (Radius * Radius - HoleRadius * HoleRadius - 2 * 0.01 * 0.01), board.Size.Area, 1e-6, "area");
        Checks.Near(board.Size.Area, board.Shape.Parts.Sum(p => p.Area), 1e-6, "parts");
    }

    [Fact]
    public void A_rounded_brace_weighs_its_section_and_bars_that_cross_are_said()
    {
        const string Bar = "[lower_bar]\nat = \"120 mm\"\nacross = \"150 mm\"\nwidth = \"8 mm\"\nhigh = \"10 mm\"\nwood = \"Sitka spruce\"\n";
        Board plain = Read("").Board;
        double More(string bar)
        {
            Board board = Read(bar).Board;
            return board.Mass(board.Laminate()) - plain.Mass(plain.Laminate());
        }

        double perArea = 0.15 * Density("Sitka spruce");
        Checks.Close(perArea * 8e-3 * 10e-3, More(Bar), 2e-8, "flat");
        // Half a circle of 4 mm on sides of 6 mm; half an ellipse 7 mm high on sides of 3 mm; a gable 4 mm high.
        Checks.Close(perArea * (8e-3 * 6e-3 + Math.PI * 16e-6 / 2), More(Bar + "top = \"rounded\"\n"), 2e-8, "rounded");
        Checks.Close(perArea * (8e-3 * 3e-3 + Math.PI * 4e-3 * 7e-3 / 2), More(Bar + "top = \"rounded\"\nsides = \"3 mm\"\n"), 2e-8, "high crown");
        Checks.Close(perArea * (8e-3 * 6e-3 + 8e-3 * 4e-3 / 2), More(Bar + "top = \"gabled\"\n"), 2e-8, "gabled");
        BoardFile crossed = Read(Bar + "[fan_braces]\nnumber = \"1\"\nfrom = \"40 mm\"\nto = \"145 mm\"\napart_lower = \"30 mm\"\napart_upper = \"30 mm\"\nwidth = \"6 mm\"\nhigh = \"4 mm\"\n");
        Assert.Contains(crossed.Warnings, w => w.Message.Contains("lower bar crosses fan brace 1", StringComparison.Ordinal));
    }

    [Fact]
    public void The_demo_board_has_each_kind_of_region_and_weighs_what_its_plate_weighs()
    {
        BoardFile file = BoardFiles.Read(BoardCases.Demo("regions.toml"), Tables);
        Assert.Empty(file.Warnings);
        Board board = file.Board;
        Assert.Equal(
            ["AddedMass", "FilledChannel", "GluedBar", "GradedSkin", "LetInWood", "MirroredGrain", "SkinPart", "TurnedCore"],
            board.Shape!.Regions.Select(r => r.Change.GetType().Name).Distinct().Order(StringComparer.Ordinal));
        // 4 g of pickup on what lies below it anyway, and the joint's 0.6 g/m in it.
        (double area, double mass) = Of(board, "pickup");
        double below = LocalLayup.Of(board, [], default).ArealMass;
        Checks.Near(4e-3 + area * (below + 0.6e-3 / 0.02 * 20 / 70), mass, 1e-4, "pickup");
        (PlateProblem problem, IReadOnlyList<SectionPlace> _) = BoardPlate.Problem(board, 0.04);
        var x = board.Shape.Parts.Sum(p => p.Samples.Sum(s => s.At.X * s.Area * LocalLayup.Of(board, p.Regions, s.At).ArealMass)) / board.Mass(board.Laminate());
        PlateSolution plate = PlateSolver.Once(problem, 1, 3);
        Checks.Near(board.Mass(board.Laminate()), plate.Mass, 1e-5, "mass");
        Checks.Near(x, plate.CentreOfMass.X, 1e-5, "centre of mass");
    }
}
