using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Boards;

/// <summary>Regions of board files: their mass by area, thickness and density worked out by hand, and what they make of the layup.</summary>
[Trait("Check", "exact")]
public sealed class RegionFilesTests : IDisposable
{
    // A round board of 150 mm radius with a hole of 40 mm, drawn; its lower end at x = 0 and its middle on the centre line.
    private const double Radius = 0.15, HoleRadius = 0.04, HoleAt = 0.2;
    private const string Board = """
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

    private const double Outer = 0.8e-3, Inner = 0.6e-3, Core = 2e-3;
    private static readonly MaterialTables Tables = MaterialTables.BuiltIn();
    private readonly string _folder = Directory.CreateTempSubdirectory().FullName;

    public RegionFilesTests() => File.WriteAllText(Path.Combine(_folder, "round.svg"), """
        <svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="300mm" viewBox="0 0 300 300">
        <circle id="edge" cx="150" cy="150" r="150"/><circle id="hole" cx="150" cy="100" r="40"/>
        <path id="patch" d="M 100 240 L 200 240 L 150 280 Z"/></svg>
        """);

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static double Density(string wood) => MaterialTables.Find(Tables.Woods, wood)!.Item.Density.Value;

    private BoardFile Read(string regions, params (string Old, string New)[] edits) => BoardFiles.Parse(
        Path.Combine(_folder, "board.toml"), edits.Aggregate(Board, (text, e) => text.Replace(e.Old, e.New, StringComparison.Ordinal)) + regions, Tables);

    /// <summary>Area and mass of a region by name.</summary>
    private static (double Area, double Mass) Of(Board board, string name)
    {
        int region = Enumerable.Range(0, board.Shape!.Regions.Count).Single(i => board.Shape.Regions[i].Name == name);
        BoardPart[] parts = [.. board.Shape.Parts.Where(p => p.Regions.Contains(region))];
        return (parts.Sum(p => p.Area), parts.Sum(board.MassOf));
    }

    private static Ply[] PliesIn(Board board, string name, Point at)
    {
        int[] regions = BoardShape.Covering(board.Shape!.Regions, at);
        Assert.Contains(regions, i => board.Shape!.Regions[i].Name == name);
        return [.. LocalLayup.Of(board, regions, at).Plies];
    }

    private static double Skins(Board board) => board.Outer.Wood.Density.Value * Outer + board.Inner.Wood.Density.Value * Inner;

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
    public void A_skin_part_has_its_own_wood_thickness_and_grain_and_the_rest_keeps_its()
    {
        Board board = Read("""
            [[skin_part]]
            face = "inner"
            along = "60 mm"
            across = "100 mm"
            at = "80 mm"
            wood = "Douglas-fir"
            thickness = "0.9 mm"
            grain = "-20°"
            """).Board;
        (double area, double mass) = Of(board, "skin part");
        Checks.Near(0.06 * 0.1, area, 1e-9, "area");
        double core = board.Core.Material.Density.Value * Core + 2 * board.Adhesive.Kept;
        Checks.Near(area * (board.Outer.Wood.Density.Value * Outer + core + Density("Douglas-fir") * 0.9e-3), mass, 1e-9, "mass");
        Checks.Near(-Math.PI / 9, PliesIn(board, "skin part", new(0.08, 0))[0].Angle, 1e-12, "grain");
    }

    [Fact]
    public void Book_matched_skins_mirror_their_grain_and_a_skin_part_keeps_its_own()
    {
        Board board = Read("[[skin_part]]\nface = \"outer\"\ndiameter = \"20 mm\"\nat = \"60 mm\"\naside = \"-50 mm\"\ngrain = \"4°\"\n",
            ("thickness = \"0.8 mm\"", "thickness = \"0.8 mm\"\ngrain = \"2°\"\nbook_matched = \"yes\"")).Board;
        double Angle(double x, double y) => LocalLayup.Of(board, BoardShape.Covering(board.Shape!.Regions, new(x, y)), default).Plies[^1].Angle * 180 / Math.PI;
        Checks.Near(2, Angle(0.08, 0.03), 1e-12, "left");
        Checks.Near(-2, Angle(0.08, -0.03), 1e-12, "right");
        Checks.Near(4, Angle(0.06, -0.05), 1e-12, "in the part");
        Checks.Near(Math.PI * Radius * Radius / 2, Of(board, "right half of the outer skin").Area + Math.PI * HoleRadius * HoleRadius / 2, 1e-6, "half the board");
    }

    [Fact]
    public void A_mirrored_board_s_modes_are_those_of_the_board()
    {
        // The left half turned by 20°, the right one mirrored; and all of it seen in a mirror.
        double Mode(string grain) => BoardPlate.Solve(Read("", ("thickness = \"0.8 mm\"", $"thickness = \"0.8 mm\"\ngrain = \"{grain}\"\nbook_matched = \"yes\"")).Board, 1, 0.01).Plate.Modes[0].Frequency;
        double one = Mode("20°");
        Checks.Near(one, BoardPlate.Solve(Read("""
            [[skin_part]]
            face = "outer"
            points = ["-1 m, 0 mm", "1 m, 0 mm", "1 m, 1 m", "-1 m, 1 m"]
            grain = "20°"
            [[skin_part]]
            face = "outer"
            points = ["-1 m, 0 mm", "1 m, 0 mm", "1 m, -1 m", "-1 m, -1 m"]
            grain = "-20°"
            """).Board, 1, 0.01).Plate.Modes[0].Frequency, 1e-4, "two halves typed");
        Assert.True(Math.Abs(Mode("0.001°") / one - 1) > 0.01, "The grain does nothing to this mode.");
    }

    [Theory]
    // Thickness falls over the width f from the edge: with 2π(R − d) round at the distance d, the mean of what is lost is (πRf − πf²/3)/πR².
    [InlineData("edge = \"0.5 mm\"\nfall = \"40 mm\"", 0.8e-3 - 0.3e-3 * (Radius * 0.04 - 0.04 * 0.04 / 3) / (Radius * Radius))]
    // A plane over a circle has its value at the middle for a mean.
    [InlineData("lower = \"0.9 mm\"\nupper = \"0.6 mm\"", 0.75e-3)]
    [InlineData("left = \"0.9 mm\"\nright = \"0.5 mm\"", 0.7e-3)]
    // So has a + bx + cy + dxy, whose value there is the mean of the corners.
    [InlineData("readings = [\"-1 cm, -20 cm: 0.7 mm\", \"-1 cm, 20 cm: 0.9 mm\", \"31 cm, -20 cm: 0.5 mm\", \"31 cm, 20 cm: 1.1 mm\"]", 0.8e-3)]
    public void A_graduated_skin_weighs_its_mean_thickness(string graduation, double mean)
    {
        (string, string)[] whole = [("[hole]\npart = \"hole\"\n", ""), ("[edge_band]\nwidth = \"10 mm\"\nwood = \"Sitka spruce\"\n", "")];
        Board even = Read("", whole).Board, graded = Read($"[outer_graduation]\n{graduation}\n", whole).Board;
        double difference = graded.Mass(graded.Laminate()) - even.Mass(even.Laminate());
        Checks.Close((mean - Outer) * Density("western redcedar") * Math.PI * Radius * Radius, difference, 2e-7, "kg more");
        PlateSolution plate = BoardPlate.Solve(graded, 1, 0.01).Plate;
        Checks.Near(graded.Mass(graded.Laminate()), plate.Mass, 1e-5, "the plate's mass");
    }

    [Fact]
    public void Readings_hold_where_they_were_taken_and_in_proportion_between()
    {
        Board board = Read("[outer_graduation]\nreadings = [\"5 cm, -5 cm: 0.7 mm\", \"5 cm, 5 cm: 0.9 mm\", \"25 cm, -5 cm: 0.5 mm\", \"25 cm, 5 cm: 0.6 mm\"]\n").Board;
        double At(double x, double y) => 1e3 * PliesIn(board, "graduated outer skin", new(x, y))[^1].Thickness;
        Checks.Near(0.9, At(0.05, 0.05), 1e-9);
        Checks.Near(0.7, At(0.02, -0.09), 1e-9, "beyond the grid");
        Checks.Near(0.8, At(0.05, 0), 1e-9, "half-way across");
        Checks.Near((0.7 + 0.9 + 0.5 + 0.6) / 4, At(0.15, 0), 1e-9, "in the middle");
    }

    [Fact]
    public void A_binding_in_the_skin_replaces_as_much_of_it()
    {
        Board board = Read("[binding]\nwidth = \"4 mm\"\ndepth = \"0.5 mm\"\nwood = \"sugar maple\"\n").Board;
        (double area, double mass) = Of(board, "binding");
        Checks.Near(Math.PI * (Radius * Radius - 0.146 * 0.146), area, 1e-5, "area");
        double band = Skins(board) + Density("Sitka spruce") * Core + 2 * board.Adhesive.Kept;
        Checks.Near(area * (band + 0.5e-3 * (Density("sugar maple") - Density("western redcedar"))), mass, 1e-9, "mass");
        // At the right end of the board the edge, and the binding's grain, runs along; at the foot across.
        Ply[] side = PliesIn(board, "binding", new(0.15, -0.148)), foot = PliesIn(board, "binding", new(0.002, 0));
        Checks.Near(1, Math.Abs(Math.Cos(side[^1].Angle)), 1e-6, "along");
        Checks.Near(1, Math.Abs(Math.Sin(foot[^1].Angle)), 1e-6, "across");
        Checks.Near(0.3e-3, side[^2].Thickness, 1e-9, "skin left");
    }

    [Fact]
    public void A_deep_binding_goes_through_skin_and_glue_into_the_wood_below()
    {
        Board board = Read("[binding]\nwidth = \"4 mm\"\ndepth = \"1.5 mm\"\nwood = \"sugar maple\"\n").Board;
        Ply[] plies = PliesIn(board, "binding", new(0.002, 0));
        Assert.Equal(["inner skin", "bond line", "let-in wood", "filled channel"], plies.Select(p => p.Name));
        double film = board.Adhesive.Kept / board.Adhesive.Density.Value;
        Checks.Near(Core - (1.5e-3 - Outer - film), plies[2].Thickness, 1e-9, "wood left");
        Checks.Near(Inner + film + Core + film + Outer, plies.Sum(p => p.Thickness), 1e-12, "the board is as thick as before");
    }

    [Fact]
    public void A_rosette_of_a_density_weighs_and_carries_nothing()
    {
        Board board = Read("[rosette]\naway = \"5 mm\"\nwidth = \"10 mm\"\ndepth = \"0.8 mm\"\ndensity = \"1200 kg/m³\"\n").Board;
        (double area, double mass) = Of(board, "rosette");
        Checks.Near(Math.PI * (0.055 * 0.055 - 0.045 * 0.045), area, 1e-5, "area");
        double core = board.Core.Material.Density.Value * Core + 2 * board.Adhesive.Kept;
        Checks.Near(area * (1200 * 0.8e-3 + core + Inner * Density("Sitka spruce")), mass, 1e-9, "mass");
        Assert.DoesNotContain(PliesIn(board, "rosette", new(HoleAt, 0.05)), p => p.Name == "outer skin");
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

    // A free strip of solid wood, with a thicker outer skin over one part of its length: Euler's beam in two pieces, solved exactly. Shear
    // and rotary inertia, which a beam 170 times as long as thick hardly has, lower the plate's frequencies by some 0.1 % and 0.3 %.
    [Fact]
    public void A_strip_with_a_thicker_part_sounds_as_the_stepped_beam()
    {
        const double Whole = 0.6, Step = 0.25;
        File.WriteAllText(Path.Combine(_folder, "strip.svg"), "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"30mm\" height=\"600mm\" viewBox=\"0 0 30 600\"><rect width=\"30\" height=\"600\"/></svg>");
        Board board = Read("""
            [[let_in]]
            points = ["-1 m, -1 m", "1 m, -1 m", "1 m, 1 m", "-1 m, 1 m"]
            wood = "Sitka spruce"
            [[skin_part]]
            face = "outer"
            points = ["25 cm, -1 m", "1 m, -1 m", "1 m, 1 m", "25 cm, 1 m"]
            thickness = "1.6 mm"
            """, ("round.svg", "strip.svg"), ("part = \"edge\"\n", ""), ("[hole]\npart = \"hole\"\n", ""), ("[edge_band]\nwidth = \"10 mm\"\nwood = \"Sitka spruce\"\n", "")).Board;
        BeamPiece Piece(double x, double length)
        {
            Laminate laminate = Laminate.From(LocalLayup.Of(board, BoardShape.Covering(board.Shape!.Regions, new(x, 0)), default).Plies);
            return new(length, 1 / laminate.Bending.Inverse().M11, laminate.ArealMass);
        }

        double[] beam = SteppedBeam.Free(2, Piece(0.1, Step), Piece(0.4, Whole - Step)), even = SteppedBeam.Free(1, Piece(0.1, Whole));
        PlateSolution plate = BoardPlate.Solve(board, 2, 1e-3).Plate;
        Checks.Within(beam[0] * (1 - 3e-3), beam[0], plate.Modes[0].Frequency, "first mode, Hz");
        Checks.Within(beam[1] * (1 - 6e-3), beam[1], plate.Modes[1].Frequency, "second mode, Hz");
        Assert.True(beam[0] / even[0] > 1.05, "The thicker part does nothing to this mode.");
    }

    // The same of one piece against the free beam's own root, (4.73004)² = 22.3733 (Blevins 1979, table 8-1).
    [Fact]
    public void A_stepped_beam_without_a_step_is_the_beam() =>
        Checks.Near(22.3733 / (2 * Math.PI), SteppedBeam.Free(1, new(0.4, 1, 1), new BeamPiece(0.6, 1, 1))[0], 5e-6);

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
