using SandwichMech.Core.Layups;
using SandwichMech.Core.Numerics;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Tests.Outlines;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates;

/// <summary>Boards that differ in one thickness or two: few are solved, the others follow from checked cubics.</summary>
[Trait("Check", "exact")]
public class OutlineSweepTests
{
    private static readonly double[] Skins = [.. Enumerable.Range(0, 13).Select(i => 0.3e-3 + i * 0.1e-3)];

    private static Board On(EdgeHold edge) => SampleBoard.Unsymmetric with
    {
        Shape = new BoardShape { Outline = SampleOutline.Board, Holes = [SampleOutline.Soundhole], Parts = BoardPlate.Parts(SampleOutline.Board, [SampleOutline.Soundhole], []), Edge = edge },
    };

    // Every board of the line solved by itself, its rim's spring its own.
    [Theory]
    [InlineData(EdgeHold.Free)]
    [InlineData(EdgeHold.Rim)]
    public void What_lies_between_is_what_solving_it_gives(EdgeHold edge)
    {
        Board board = On(edge);
        OutlineFrame frame = OutlineFrame.For(At(0.7e-3), 3, 0.02);
        var solved = new List<int[]>();
        IReadOnlyList<OutlineRow> rows = OutlineSweep.Of(frame, [Skins], t => At(t[0]), (b, modes) => OutlineCriterion.FirstMode(frame, b, modes), solved.Add);
        Assert.True(solved.Count < Skins.Length, $"{solved.Count} of {Skins.Length} were solved.");
        double worstWidth = 0;
        for (int i = 0; i < Skins.Length; i += 3)
        {
            Board one = At(Skins[i]);
            FirstModes own = frame.Of(one);
            for (int m = 0; m < 3; m++)
            {
                Checks.Near(own.Modes[m].Frequency, rows[i].Frequencies[m].Value, 4e-4, $"mode {m + 1} of board {i}");
                var p = frame.Frequencies(one, own)[m];
                Prediction row = rows[i].Frequencies[m];
                Checks.Near(p.Low90 / p.Value, row.Low90 / row.Value, 5e-3);
                Checks.Near(p.High90 / p.Value, row.High90 / row.Value, 5e-3);
                Checks.Near(p.Low50 / p.Value, row.Low50 / row.Value, 3e-3);
                Checks.Near(p.High50 / p.Value, row.High50 / row.Value, 3e-3);
                worstWidth = Math.Max(worstWidth, Math.Abs(Math.Log(row.High90 / row.Low90) / Math.Log(p.High90 / p.Low90) - 1));
            }

            SolidOnOutline solid = EqualOnOutline.Solid(OutlineCriterion.FirstMode(frame, one, own))!;
            SweptSolid swept = rows[i].Solid!;
            Checks.Near(solid.Thickness.Value, swept.Thickness.Value, 5e-4);
            Checks.Near(solid.Thickness.Low90 / solid.Thickness.Value, swept.Thickness.Low90 / swept.Thickness.Value, 5e-3);
            Checks.Near(solid.Saved.High90 - solid.Saved.Low90, swept.Saved(0).High90 - swept.Saved(0).Low90, 2e-2);
            Checks.Near(solid.Saved.High50 - solid.Saved.Low50, swept.Saved(0).High50 - swept.Saved(0).Low50, 2e-2);
        }

        // Over all thirteen 0.5 %: straight lines between widths do, which are of first order themselves.
        Checks.Within(0, 0.01, worstWidth, "width of an interval, relative");

        Board At(double outer) => board with
        {
            Outer = board.Outer with { Thickness = board.Outer.Thickness with { Value = outer } },
            Inner = board.Inner with { Thickness = board.Inner.Thickness with { Value = 0.8 * outer } },
        };
    }

    [Fact]
    public void Over_two_thicknesses_what_lies_between_is_what_solving_it_gives()
    {
        Board board = On(EdgeHold.Free);
        double[] outer = [.. Enumerable.Range(0, 9).Select(i => 0.4e-3 + i * 0.1e-3)], core = [.. Enumerable.Range(0, 9).Select(i => 1.2e-3 + i * 0.2e-3)];
        OutlineFrame frame = OutlineFrame.For(At([0.8e-3, 2e-3]), 3, 0.02);
        var solved = new List<int[]>();
        IReadOnlyList<OutlineRow> rows = OutlineSweep.Of(frame, [outer, core], At, null, solved.Add);
        Assert.Equal(81, rows.Count);
        Assert.True(solved.Count <= 25, $"{solved.Count} of 81 were solved.");
        foreach ((int i, int j) in ((int, int)[])[(0, 5), (1, 1), (3, 6), (5, 3), (7, 7)])
        {
            FirstModes own = frame.Of(At([outer[i], core[j]]));
            for (int m = 0; m < 3; m++) { Checks.Near(own.Modes[m].Frequency, rows[i * 9 + j].Frequencies[m].Value, 4e-4, $"mode {m + 1} of board {i}, {j}"); }
        }

        Board At(double[] t) => board with
        {
            Outer = board.Outer with { Thickness = board.Outer.Thickness with { Value = t[0] } },
            Core = board.Core with { Height = board.Core.Height with { Value = t[1] } },
        };
    }

    [Fact]
    public void A_bicubic_with_straight_mixed_slopes_is_met_everywhere_from_nine_places()
    {
        double[] x = [0, 0.3, 0.4, 1, 1.1, 1.7, 2], y = [-1, 0, 0.2, 0.5, 3];
        int solved = 0;
        IReadOnlyList<(double[] Values, double[] Beside)> grid = HermiteGrid.Fill(x, y, Solve, 1e-12);
        Assert.Equal(9, solved);
        for (int i = 0; i < x.Length; i++)
        {
            for (int j = 0; j < y.Length; j++)
            {
                Checks.Close(Of(x[i], y[j]), grid[i * y.Length + j].Values[0], 1e-12);
                Checks.Close(x[i] - y[j], grid[i * y.Length + j].Beside[0], 1e-12);
            }
        }

        GridPoint Solve(int i, int j)
        {
            solved++;
            (double s, double t) = (x[i], y[j]);
            return new([Of(s, t)], [3 * s * s + t], [s - 3 * t * t], [s - t]);
        }

        static double Of(double s, double t) => s * s * s + s * t - t * t * t;
    }

    [Fact]
    public void A_cubic_is_met_everywhere_from_three_places()
    {
        double[] x = [0, 0.3, 0.4, 1, 1.1, 1.7, 2];
        var solved = new List<int>();
        LinePoint[] line = HermiteLine.Fill(x, Solve, 1e-12);
        Assert.Equal([0, 6, 3], solved);
        Assert.All(x.Zip(line), p => Checks.Close(Cubic(p.First), p.Second.Values[0], 1e-12));

        LinePoint Solve(int i)
        {
            solved.Add(i);
            return new([Cubic(x[i])], [3 * x[i] * x[i] - 4 * x[i] + 1], []);
        }

        static double Cubic(double t) => t * t * t - 2 * t * t + t + 5;
    }

    // Two modes change places at three quarters of the line: there the cubic through both ends meets the middle by chance, but not its slope.
    [Fact]
    public void A_kink_that_leaves_the_middle_as_it_is_is_found()
    {
        double[] x = [.. Enumerable.Range(0, 33).Select(i => i / 32.0)];
        LinePoint[] line = HermiteLine.Fill(x, i => new([Math.Min(x[i], 0.75)], [x[i] < 0.75 ? 1 : 0], [x[i]]), 1e-3);
        Assert.All(x.Zip(line), p => Checks.Close(Math.Min(p.First, 0.75), p.Second.Values[0], 1e-3));
        Assert.All(x.Zip(line), p => Checks.Close(p.First, p.Second.Beside[0], 1e-12));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void A_short_line_is_solved_all_through(int places)
    {
        int solved = 0;
        LinePoint[] line = HermiteLine.Fill([.. Enumerable.Range(0, places).Select(i => (double)i)], i => new([++solved * 100], [0], []), 1e-6);
        Assert.Equal(places, solved);
        Assert.All(line, Assert.NotNull);
    }
}
