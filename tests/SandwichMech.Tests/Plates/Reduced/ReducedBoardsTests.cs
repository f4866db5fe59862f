using SandwichMech.Core.Layups;
using SandwichMech.Core.Numerics;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Plates.Reduced;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Plates.Reduced;

/// <summary>Reduced models of boards on a rim, hinged, domed, with a bar, and lopsided, against full ones.</summary>
[Trait("Check", "independent")]
public class ReducedBoardsTests
{
    private const double Accuracy = 4e-3;
    private const int Modes = 4;
    private const double Asymmetry = 1e-4;

    [Theory]
    [InlineData("rim", 2)]
    [InlineData("hinged", 2)]
    [InlineData("domed, clamped", 2)]
    [InlineData("with a bar, free", 2)]
    [InlineData("grain turned, free", 1)]
    public void Frequencies_are_those_of_the_full_model(string which, int parts)
    {
        Board board = BoardOf(which);
        BoardRange range = BoardRange.About(board, 1.15);
        var model = ReducedPlate.Build(board, range, new() { Modes = Modes, Accuracy = Accuracy, Designs = 6, Tests = 2 });
        Assert.Equal(parts, model.Content.Parts.Count);
        int outside = 0;
        foreach (double[] position in DesignSample.Inside(range.Inputs.Count, 2, DesignSample.Random(17)))
        {
            Board other = range.At(board, position);
            ReducedModes modes = model.Solve(other);
            PlateSolution full = BoardPlate.Solve(other, Modes, 1e-3).Plate;
            for (int i = 0; i < Modes; i++)
            {
                double error = modes.Frequencies[i] / full.Modes[i].Frequency - 1;
                Checks.Within(-full.Modes[i].Error - Accuracy, full.Modes[i].Error + Accuracy, error, $"{which}, mode {i + 1}");
                outside += Math.Abs(error) > full.Modes[i].Error + modes.Errors[i] ? 1 : 0;
                Checks.Within(0, ReducedPlate.MostStated * Accuracy, modes.Errors[i], $"{which}, stated error of mode {i + 1}");
            }
        }

        // Nine in ten are stated to hold: of these eight, one may not.
        Assert.InRange(outside, 0, 1);
    }

    // What is even and what is odd make up the motion again, and each is what its name says: on mirrored points with the same or the other sign.
    [Fact]
    public void Modes_of_a_board_that_is_alike_on_both_sides_are_even_or_odd_and_of_a_lopsided_one_neither()
    {
        (PlateSystem system, PlateModes.Result modes) = Solved(BoardOf("hinged"));
        double[][] vectors = modes.Vectors[modes.Rigid..];
        (double[]?[] even, double[]?[] odd) = new MirrorSplit(system, Asymmetry).Of(vectors)!.Value;
        for (int i = 0; i < vectors.Length; i++)
        {
            double[] left = [.. vectors[i]];
            foreach ((double[]? part, bool isEven) in new[] { (even[i], true), (odd[i], false) })
            {
                if (part is null) { continue; }
                double[] w = system.Deflection(part);
                (double moment, double size) = (0, 0);
                for (int p = 0; p < w.Length; p++)
                {
                    // A moment that such motions have not.
                    double y = system.Mesh.Points[p].Y;
                    moment += isEven ? y * w[p] : Math.Abs(y) * w[p];
                    size += Math.Abs(y * w[p]);
                }

                Checks.Within(-0.05 * size, 0.05 * size, moment, $"mode {i + 1}, even: {isEven}");
                DenseRows.Add(left, -1, part);
            }

            // What the mesh puts on the other side is left out.
            Checks.Within(0, 0.05 * Norm(vectors[i]), Norm(left), $"mode {i + 1} less its parts");
        }

        (system, modes) = Solved(BoardOf("grain turned, free"));
        Assert.Null(new MirrorSplit(system, Asymmetry).Of(modes.Vectors[modes.Rigid..]));
    }

    private static double Norm(double[] x) => Math.Sqrt(x.Sum(v => v * v));

    private static (PlateSystem, PlateModes.Result) Solved(Board board)
    {
        PlateProblem problem = BoardPlate.Problem(board, 0.05).Problem;
        var system = new PlateSystem(problem, 5);
        return (system, PlateModes.Solve(system, problem, 6));
    }

    private static Board BoardOf(string which)
    {
        (string own, bool isTurned) = which switch
        {
            "rim" => ("[edge]\nheld = \"rim\"", false),
            "hinged" => ("[edge]\nheld = \"hinged\"", false),
            "domed, clamped" => ("[edge]\nheld = \"clamped\"\n[dome]\nalong = \"9 m\"\nacross = \"6 m\"", false),
            "with a bar, free" => ("[edge]\nheld = \"free\"\n[lower_bar]\nat = \"280 mm\"\nacross = \"180 mm\"\nwidth = \"9 mm\"\nhigh = \"7 mm\"\nwood = \"Sitka spruce\"", false),
            _ => ("[edge]\nheld = \"free\"", true),
        };
        Board board = BoardFiles.Parse("board.toml", Common + own, MaterialTables.BuiltIn()).Board;
        return isTurned ? board with { Outer = board.Outer with { GrainAngle = 0.15 } } : board;
    }

    private const string Common = """
        name = "a board"
        [size]
        length = "490 mm"
        [outline]
        lower = "365 mm"
        waist = "240 mm"
        upper = "280 mm"
        [outer]
        wood = "western redcedar"
        thickness = "0.8 mm"
        [core]
        material = "aramid honeycomb 3.2-29"
        height = "1.8 mm"
        ribbon = "along"
        [inner]
        wood = "Sitka spruce"
        thickness = "0.6 mm"

        """;
}
