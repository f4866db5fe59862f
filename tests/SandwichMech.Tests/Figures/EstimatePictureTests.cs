using SandwichMech.Figures;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Tests.Pictures;

/// <summary>What the estimate's picture plots is what the result says.</summary>
[Trait("Check", "exact")]
public class EstimatePictureTests
{
    private const int Section = 0, Mass = 1, Along = 2, Across = 3;

    public static TheoryData<string, UnitSystem> Cases => PictureCases.AllBoards();

    [Theory]
    [MemberData(nameof(Cases))]
    public void Bars_are_the_shares_with_the_outer_face_on_top(string board, UnitSystem units)
    {
        EstimateResult r = PictureCases.Estimate(board);
        Picture picture = BoardPictures.Estimate(r, units);
        Assert.Equal(r.Layers.Select(l => 100 * l.ShareOfMass), picture.Bars(Mass).Select(b => b.X2));
        Assert.Equal(r.Layers.Select(l => 100 * l.ShareAlong), picture.Bars(Along).Select(b => b.X2));
        Assert.Equal(r.Layers.Select(l => 100 * l.ShareAcross), picture.Bars(Across).Select(b => b.X2));
        foreach (int panel in new[] { Mass, Along, Across })
        {
            double[] heights = [.. picture.Bars(panel).Select(b => b.Y1)];
            Assert.Equal(heights.OrderDescending(), heights);
            Assert.All(picture.Bars(panel), b => Assert.Equal(0, b.X1));
            Checks.Near(100, picture.Bars(panel).Sum(b => b.X2), 1e-9);
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void The_section_is_to_scale_and_closed(string board, UnitSystem units)
    {
        EstimateResult r = PictureCases.Estimate(board);
        var layers = BoardPictures.Estimate(r, units).Bars(Section);
        Assert.Equal(r.Layers.Count, layers.Length);
        foreach ((var drawn, LayerRow layer) in layers.Zip(r.Layers))
        {
            Checks.Near(layer.Thickness, drawn.Y2 - drawn.Y1, 1e-9, layer.Layer);
        }

        foreach ((var above, var below) in layers.Zip(layers.Skip(1)))
        {
            Checks.Close(below.Y2, above.Y1, 1e-12);
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Every_layer_has_its_percent_its_amount_and_its_thickness_in_words(string board, UnitSystem units)
    {
        EstimateResult r = PictureCases.Estimate(board);
        string[] words = SvgWords.Of(BoardPictures.Estimate(r, units)).Select(w => w.Text).ToArray();
        foreach (LayerRow layer in r.Layers)
        {
            Assert.Contains($"{layer.Layer}, {Display.Text(layer.Thickness, Shown.Thickness, units)}", words);
            Assert.Contains(Display.Text(layer.ArealDensity, Shown.ArealDensity, units), words);
            Assert.Contains(Display.Text(layer.ShareAlong * r.StiffnessAlong.Value, Shown.BendingStiffness, units), words);
            Assert.Contains(Display.Text(layer.ShareAcross * r.StiffnessAcross.Value, Shown.BendingStiffness, units), words);
            Assert.True(words.Count(w => w.EndsWith('%')) >= 3 * r.Layers.Count);
        }

        Assert.Contains($"in all {Display.Text(r.ArealDensity.Value, Shown.ArealDensity, units)}", words);
        Assert.Contains($"in all {Display.Text(r.StiffnessAlong.Value, Shown.BendingStiffness, units)}", words);
        Assert.Contains($"in all {Display.Text(r.StiffnessAcross.Value, Shown.BendingStiffness, units)}", words);
        Assert.Contains(words, w => w.Contains($"mass {Display.Text(r.Mass.Value, Shown.Mass, units)}", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(0, "0 %")]
    [InlineData(0.0051, "0.5 %")]
    [InlineData(0.0949, "9.5 %")]
    [InlineData(0.0951, "10 %")]
    [InlineData(0.526, "53 %")]
    [InlineData(1, "100 %")]
    public void A_share_is_written_in_whole_percent_or_in_tenths_where_small(double share, string text) =>
        Assert.Equal(text, Say.Percent(share));
}
