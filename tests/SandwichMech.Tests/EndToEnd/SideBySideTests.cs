using SandwichMech.Core.Layups;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>Boards side by side.</summary>
[Trait("Check", "exact")]
public class SideBySideTests
{
    private static readonly Board Demo = BoardFiles.Read(Commanded.Demo, MaterialTables.BuiltIn()).Board;

    // Of one wood and core only thicknesses and what the bonds keep are each board's own.
    [Fact]
    public void What_both_are_made_of_moves_them_together()
    {
        Board thicker = Demo with { Name = "thicker", Outer = Demo.Outer with { Thickness = Demo.Outer.Thickness.MovedTo(1e-3) } };
        Prediction ratio = BoardRatio.Of(thicker, Demo, f => f.Laminate.Bending.M11);
        Checks.Near(thicker.Laminate().Bending.M11 / Demo.Laminate().Bending.M11, ratio.Value, 1e-12);
        Board other = thicker with { Outer = thicker.Outer with { Wood = thicker.Outer.Wood with { Name = "another" } }, Inner = thicker.Inner with { Wood = thicker.Inner.Wood with { Name = "another too" } } };
        Prediction apart = BoardRatio.Of(other, Demo, f => f.Laminate.Bending.M11);
        Assert.True(Width(ratio) < 0.5 * Width(apart), $"{Width(ratio)} beside {Width(apart)}");
        // A board over itself: the variances of its own thicknesses and bonds twice, nothing else.
        Prediction same = BoardRatio.Of(Demo, Demo, f => f.Mass);
        Checks.Near(1, same.Value, 1e-12);
        Assert.DoesNotContain(same.MostlyFrom, s => s.Input.Contains("density", StringComparison.Ordinal) && s.Share > 1e-9);
        static double Width(Prediction p) => Math.Log(p.High90 / p.Low90);
    }

    [Fact]
    public void Four_boards_are_one_too_many()
    {
        Commanded run = Commanded.Run("compare", Commanded.Demo, Commanded.Demo, Commanded.Demo, Commanded.Demo);
        Assert.Equal(2, run.Code);
        Assert.Contains("at most 3", run.Err, StringComparison.Ordinal);
        Commanded two = Commanded.Run("compare", Commanded.Demo, Repository.File("shared", "demo", "board-foam.toml"));
        Assert.Equal(0, two.Code);
        Assert.Contains("B over A", two.Out, StringComparison.Ordinal);
    }
}
