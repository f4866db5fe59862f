using System.Text.Json;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>`choose` from the command line.</summary>
[Trait("Check", "exact")]
public class ChooseTests
{
    private static readonly string[] Few = ["--free", "outer.thickness 0.5 mm to 1 mm by 0.1 mm", "--free", "inner.thickness 0.4 mm to 0.8 mm by 0.1 mm"];

    [Fact]
    public void The_choice_goes_into_the_board_file_and_nothing_else_in_it_changes()
    {
        using var folder = new TemporaryFolder();
        string file = folder.File("board.toml"), text = File.ReadAllText(Commanded.Demo);
        File.WriteAllText(file, text);
        Commanded run = Commanded.Run(["choose", file, "--target", "along at least 0.8 solid", "--sure", "80 %", "--sand", "± 0.04 mm", "--adopt", "--json", .. Few]);
        Assert.Equal(0, run.Code);
        using var result = JsonDocument.Parse(run.Out);
        string[] adopted = File.ReadAllLines(file), before = text.Split('\n');
        foreach (JsonElement field in result.RootElement.GetProperty("best").GetProperty("fields").EnumerateArray())
        {
            Assert.Contains(adopted, l => l.Contains($"\"{field.GetProperty("value").GetString()} ± 0.04 mm\"", StringComparison.Ordinal));
        }

        Assert.Equal(2, adopted.Zip(before).Count(l => l.First != l.Second));
        Assert.All(before.Where(l => l.Contains('#', StringComparison.Ordinal)), l => Assert.Contains(adopted, a => a.EndsWith(l[l.IndexOf('#', StringComparison.Ordinal)..], StringComparison.Ordinal)));
        // What was adopted has the stiffness that was promised.
        using var estimate = JsonDocument.Parse(Commanded.Run("estimate", file, "--json").Out);
        Assert.Equal(result.RootElement.GetProperty("chosen_bending_stiffness_n_m").GetDouble(), estimate.RootElement.GetProperty("bending_stiffness_along_n_m").GetProperty("value").GetDouble(), 1e-9);
    }

    [Fact]
    public void Pieces_in_stock_are_no_thicker_made_than_they_are_and_core_sheets_as_high_as_they_are()
    {
        using var folder = new TemporaryFolder();
        string log = folder.File("log.sqlite");
        Assert.Equal(0, Commanded.Run("--log", log, "piece", "add", "wood", "--material", "Sitka spruce", "--weight", "40 g", "--length", "520 mm", "--width", "200 mm", "--thickness", "0.9 mm").Code);
        Assert.Equal(0, Commanded.Run("--log", log, "piece", "add", "core", "--material", "aramid honeycomb 3.2-29", "--weight", "8 g", "--length", "520 mm", "--width", "400 mm", "--thickness", "2.2 mm").Code);
        Commanded run = Commanded.Run("--log", log, "choose", Commanded.Demo, "--target", "along at least 1.4 solid", "--sure", "60 %", "--json",
            "--free", "outer.wood in stock", "--free", "core.material in stock", "--free", "outer.thickness 0.5 mm to 1.5 mm by 0.1 mm", "--free", "inner.thickness 0.4 mm to 0.8 mm by 0.1 mm");
        Assert.True(run.Code == 0, run.Err);
        using var result = JsonDocument.Parse(run.Out);
        JsonElement[] cut = [.. result.RootElement.GetProperty("cut_list").EnumerateArray()];
        Assert.StartsWith("piece 1", cut[0].GetProperty("material").GetString(), StringComparison.Ordinal);
        Assert.True(cut[0].GetProperty("thickness_m").GetDouble() <= 0.9e-3 + 1e-9);
        Assert.StartsWith("piece 2", cut[1].GetProperty("material").GetString(), StringComparison.Ordinal);
        Assert.Equal(2.2e-3, cut[1].GetProperty("thickness_m").GetDouble(), 1e-9);
        Assert.Equal(5 * 5, result.RootElement.GetProperty("boards").GetInt32());
    }

    [Fact]
    public void Price_and_hours_order_the_other_kinds_and_change_nothing_else()
    {
        using var folder = new TemporaryFolder();
        string stock = folder.File("stock.csv");
        File.WriteAllText(stock, "material,height,price,hours\nwestern redcedar,,30,2\nSitka spruce,,50,1\nEngelmann spruce,,20,3\naramid honeycomb 3.2-29,,12,0.5\n");
        string[] asked = ["choose", Commanded.Demo, "--target", "along at least 0.8 solid", "--sure", "70 %", "--json", "--stock", stock, "--free", "outer.wood western redcedar, Sitka spruce, Engelmann spruce", .. Few];
        using JsonDocument mass = JsonDocument.Parse(Commanded.Run(asked).Out), price = JsonDocument.Parse(Commanded.Run([.. asked, "--rank", "price"]).Out);
        double[] Prices(JsonDocument d) => [.. d.RootElement.GetProperty("others").EnumerateArray().Select(o => o.GetProperty("price").GetDouble())];
        Assert.Equal(Prices(mass).Order(), Prices(price));
        Assert.Equal(mass.RootElement.GetProperty("best").ToString(), price.RootElement.GetProperty("best").ToString());
        Assert.Contains(Prices(price), p => p is 82 or 112 or 92);
    }

    [Theory]
    [InlineData("contradict", "--target", "along at least 2 solid", "--target", "along at most 1 solid")]
    [InlineData("none of these boards has more than", "--target", "along at least 30 solid")]
    [InlineData("none of these boards has less than", "--target", "mass at most 20 g")]
    [InlineData("did you mean 'along'", "--target", "alnog at least solid")]
    [InlineData("lacks its unit", "--target", "along at least 12")]
    [InlineData("needs the board's outline", "--target", "mode 1 free at least 50 Hz")]
    [InlineData("wider than the thinnest skin of 0.4 mm", "--sand", "± 0.5 mm")]
    [InlineData("does not begin with ±", "--sand", "0.5 mm")]
    [InlineData("nothing of this kind is in stock", "--free", "outer.wood in stock")]
    [InlineData("did you mean 'outer.thickness'", "--free", "outer.thicknes 0.5 mm to 1 mm by 0.1 mm")]
    [InlineData("'mass'", "--rank", "colour")]
    [InlineData("names no step", "--free", "outer.thickness 0.5 mm to 1 mm")]
    [InlineData("the second value has to be larger", "--target", "ratio 12 to 8")]
    [InlineData("is named twice", "--free", "core.height 1.5 mm, 2 mm", "--free", "core.height 3 mm")]
    public void What_cannot_be_chosen_is_said_in_one_line_before_the_search(string said, params string[] words)
    {
        using var folder = new TemporaryFolder();
        Commanded run = Commanded.Run(["--log", folder.File("log.sqlite"), "choose", Commanded.Demo, .. words]);
        Assert.Equal(2, run.Code);
        Assert.Empty(run.Out);
        Assert.Contains(said, run.Err, StringComparison.Ordinal);
        Assert.Single(run.Err.TrimEnd().Split('\n'));
    }

    [Fact]
    public void Where_nothing_fits_it_says_what_would_have_to_give_way_and_writes_nothing()
    {
        using var folder = new TemporaryFolder();
        string file = folder.File("board.toml");
        File.Copy(Commanded.Demo, file);
        string before = File.ReadAllText(file);
        string[] asked = ["choose", file, "--target", "along at least 1.2 solid", "--target", "mass at most 100 g", .. Few];
        Commanded run = Commanded.Run(asked);
        Assert.Equal(0, run.Code);
        Assert.Contains("No board meets all of this", run.Out, StringComparison.Ordinal);
        Assert.Contains("One of these would have to give way", run.Out, StringComparison.Ordinal);
        Commanded adopting = Commanded.Run([.. asked, "--adopt"]);
        Assert.Equal(2, adopting.Code);
        Assert.Equal(before, File.ReadAllText(file));
    }
}
