using System.Globalization;
using System.Text.Json;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>Intervals from sampled boards in `estimate`, `compare` and `sweep`.</summary>
[Trait("Check", "independent")]
public class SamplesTests
{
    // Demo board's stiffness and mass are near log-normal: ends of 90 % within 5 %, of 50 % within 3 %, which 4000 draws allow at four standard errors (some 0.9 % and 0.5 % of an end).
    [Fact]
    public void Estimate_by_sampled_boards_agrees_with_exact_derivatives_and_ranks_its_sources()
    {
        using JsonDocument drawn = Json("estimate", Commanded.Demo, "--samples", "4000", "--seed", "3"), derived = Json("estimate", Commanded.Demo);
        foreach (string figure in (string[])["bending_stiffness_along_n_m", "bending_stiffness_across_n_m", "mass_kg"])
        {
            JsonElement a = drawn.RootElement.GetProperty(figure), b = derived.RootElement.GetProperty(figure);
            Assert.Equal(b.GetProperty("value").GetDouble(), a.GetProperty("value").GetDouble());
            foreach ((string end, double off) in ((string, double)[])[("low90", 0.05), ("high90", 0.05), ("low50", 0.03), ("high50", 0.03)])
            {
                Checks.Near(b.GetProperty(end).GetDouble(), a.GetProperty(end).GetDouble(), off, $"{figure} {end}");
                Assert.NotEqual(b.GetProperty(end).GetDouble(), a.GetProperty(end).GetDouble());
            }

            Assert.Equal(Most(b), Most(a));
        }

        Assert.Equal(4000, drawn.RootElement.GetProperty("sampled_boards").GetInt32());
        Assert.Contains("4000 sampled boards (seed 3)", drawn.RootElement.GetProperty("intervals").GetString(), StringComparison.Ordinal);
        Assert.Equal(0, derived.RootElement.GetProperty("sampled_boards").GetInt32());
        Assert.Empty(derived.RootElement.GetProperty("sources").EnumerateArray());
        JsonElement[] along = [.. drawn.RootElement.GetProperty("sources").EnumerateArray().Where(s => s.GetProperty("figure").GetString() == "bending stiffness along")];
        Assert.Equal("outer skin E_L", along[0].GetProperty("input").GetString());
        // Shares of first order do not add up to more than the whole, those in total not to less.
        double error = Math.Sqrt(along.Sum(s => Math.Pow(s.GetProperty("standard_error").GetDouble(), 2)));
        Checks.Within(0.8, 1 + 4 * error, along.Sum(s => s.GetProperty("first_order").GetDouble()));
        Checks.Within(1 - 4 * error, 1.3, along.Sum(s => s.GetProperty("total").GetDouble()));

        static string? Most(JsonElement p) => p.GetProperty("mostly_from")[0].GetProperty("input").GetString();
    }

    [Fact]
    public void Compare_and_sweep_say_what_was_sampled_and_agree_with_estimate()
    {
        using JsonDocument estimate = Json("estimate", Commanded.Demo, "--samples", "500"), compare = Json("compare", Commanded.Demo, "--samples", "500");
        using JsonDocument sweep = Json("sweep", Commanded.Demo, "--vary", "core 1.6 mm to 2.0 mm in 3 steps", "--samples", "500");
        JsonElement own = estimate.RootElement, row = sweep.RootElement.GetProperty("rows")[1];
        double low = own.GetProperty("mass_kg").GetProperty("low90").GetDouble();
        // The same boards are drawn: to the last digits of a core of 1.8 mm.
        Assert.Equal(low, compare.RootElement.GetProperty("mass_kg").GetProperty("low90").GetDouble());
        Checks.Near(low, row.GetProperty("mass_low90_kg").GetDouble(), 1e-9);
        Checks.Near(own.GetProperty("solid").GetProperty("saved_kg").GetProperty("high50").GetDouble(), row.GetProperty("saved_high50_kg").GetDouble(), 1e-8);
        Assert.All(new[] { compare, sweep }, r => Assert.Equal(500, r.RootElement.GetProperty("sampled_boards").GetInt32()));
        Assert.Contains("Intervals: by 500 sampled boards", Commanded.Run("compare", Commanded.Demo, "--samples", "500").Out, StringComparison.Ordinal);
    }

    // What would need a plate solved for every board keeps its derivatives, and this is said.
    [Fact]
    public void On_an_outline_it_is_said_what_keeps_exact_derivatives()
    {
        string shape = Repository.File("shared", "demo", "outline.toml");
        using JsonDocument drawn = Json("compare", shape, "--samples", "300"), derived = Json("compare", shape);
        Assert.EndsWith("what is held equal on the outline by exact derivatives, to first order", drawn.RootElement.GetProperty("intervals").GetString(), StringComparison.Ordinal);
        Assert.Equal(Low(derived, "first mode"), Low(drawn, "first mode"));
        Assert.NotEqual(Low(derived, "stiffness along"), Low(drawn, "stiffness along"));

        static double Low(JsonDocument json, string criterion) => json.RootElement.GetProperty("solids").EnumerateArray()
            .Single(s => s.GetProperty("criterion").GetString() == criterion).GetProperty("thickness_m").GetProperty("low90").GetDouble();
    }

    [Theory]
    [InlineData("estimate", "5", "'5' is no number of boards")]
    [InlineData("compare", "1000000", "'1000000' is no number of boards")]
    [InlineData("estimate", "1,000", "'1,000' is no number of boards")]
    public void A_number_that_is_none_is_refused_in_one_line(string command, string samples, string why)
    {
        Commanded run = Commanded.Run(command, Commanded.Demo, "--samples", samples);
        Assert.Equal(2, run.Code);
        Assert.Empty(run.Out);
        Assert.Contains($"--samples: {why}", run.Err, StringComparison.Ordinal);
    }

    [Fact]
    public void A_sweep_of_too_many_draws_is_refused()
    {
        Commanded run = Commanded.Run("sweep", Commanded.Demo, "--vary", "core 1.5 mm to 2.5 mm in 21 steps", "--samples", "100000");
        Assert.Equal(2, run.Code);
        Assert.Contains("--samples: 21 boards of the sweep, each drawn 100000 times", run.Err, StringComparison.Ordinal);
    }

    private static JsonDocument Json(params string[] words)
    {
        Commanded run = Commanded.Run([.. words, "--json"]);
        Assert.True(run.Code == 0, string.Create(CultureInfo.InvariantCulture, $"{run.Code}: {run.Err}"));
        return JsonDocument.Parse(run.Out);
    }
}
