using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Boards;

/// <summary>Skins of board files that differ from place to place, and channels in them: their mass worked out by hand, and a stepped strip's modes.</summary>
[Trait("Check", "exact")]
public sealed class SkinFilesTests : RoundBoard
{
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

    // A free strip of solid wood, with a thicker outer skin over one part of its length: Euler's beam in two pieces, solved exactly. Shear
    // and rotary inertia, which a beam 170 times as long as thick hardly has, lower the plate's frequencies by 0.04 % and 0.14 %.
    [Fact]
    public void A_strip_with_a_thicker_part_sounds_as_the_stepped_beam()
    {
        const double Whole = 0.6, Step = 0.25;
        Write("strip.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"30mm\" height=\"600mm\" viewBox=\"0 0 30 600\"><rect width=\"30\" height=\"600\"/></svg>");
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
        Checks.Within(beam[0] * (1 - 1e-3), beam[0], plate.Modes[0].Frequency, "first mode, Hz");
        Checks.Within(beam[1] * (1 - 2.5e-3), beam[1], plate.Modes[1].Frequency, "second mode, Hz");
        Assert.True(beam[0] / even[0] > 1.05, "The thicker part does nothing to this mode.");
    }

    // The same of one piece against the free beam's own root, (4.73004)² = 22.3733 (Blevins 1979, table 8-1).
    [Fact]
    public void A_stepped_beam_without_a_step_is_the_beam() =>
        Checks.Near(22.3733 / (2 * Math.PI), SteppedBeam.Free(1, new(0.4, 1, 1), new BeamPiece(0.6, 1, 1))[0], 5e-6);
}
