using System.Globalization;
using System.Text.Json;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>Intervals of 50 and 90 % on the screens, in JSON and in CSV.</summary>
[Trait("Check", "exact")]
public class IntervalsTests
{
    private static string Shape { get; } = Repository.File("shared", "demo", "outline.toml");

    [Theory]
    [InlineData("estimate BOARD")]
    [InlineData("estimate BOARD --units inch")]
    [InlineData("compare BOARD")]
    [InlineData("compare BOARD --units inch")]
    [InlineData("compare SHAPE")]
    [InlineData("modes SHAPE --accuracy \"1 %\"")]
    public void Both_intervals_are_shown_and_no_line_is_longer_than_a_hundred_columns(string line)
    {
        Commanded run = Commanded.Run(Commanded.Words(line.Replace("BOARD", Quoted(Commanded.Demo), StringComparison.Ordinal).Replace("SHAPE", Quoted(Shape), StringComparison.Ordinal)));
        Assert.Equal(0, run.Code);
        Assert.Contains("90 % of boards", run.Out, StringComparison.Ordinal);
        Assert.Contains(" 50 %", run.Out, StringComparison.Ordinal);
        Assert.All(run.Out.Split('\n'), l => Assert.True(l.Length <= 100, $"{l.Length} columns: {l}"));

        static string Quoted(string file) => $"\"{file}\"";
    }

    // A board of the sweep that is the file's own: estimate's intervals, figure by figure.
    [Fact]
    public void A_sweep_s_rows_carry_the_intervals_of_estimate()
    {
        using var folder = new TemporaryFolder();
        string csv = folder.File("sweep.csv");
        using JsonDocument sweep = JsonDocument.Parse(Commanded.Run("sweep", Commanded.Demo, "--vary", "core 1.6 mm to 2.0 mm in 3 steps", "--json", "--csv", csv).Out);
        using JsonDocument estimate = JsonDocument.Parse(Commanded.Run("estimate", Commanded.Demo, "--json").Out);
        JsonElement row = sweep.RootElement.GetProperty("rows")[1], own = estimate.RootElement, solid = own.GetProperty("solid");
        string[] lines = File.ReadAllLines(csv), heads = lines[0].Split(','), cells = lines[2].Split(',');
        foreach ((string figure, string unit, JsonElement wanted) in ((string, string, JsonElement)[])
        [
            ("bending_stiffness_along", "n_m", own.GetProperty("bending_stiffness_along_n_m")), ("bending_stiffness_across", "n_m", own.GetProperty("bending_stiffness_across_n_m")),
            ("mass", "kg", own.GetProperty("mass_kg")), ("equal_solid_thickness", "m", solid.GetProperty("thickness_m")), ("saved", "kg", solid.GetProperty("saved_kg")),
        ])
        {
            foreach (string end in (string[])["low50", "high50", "low90", "high90"])
            {
                string name = $"{figure}_{end}_{unit}";
                Checks.Near(wanted.GetProperty(end).GetDouble(), row.GetProperty(name).GetDouble(), 1e-9, name);
                Checks.Near(wanted.GetProperty(end).GetDouble(), double.Parse(cells[Array.IndexOf(heads, name)], CultureInfo.InvariantCulture), 1e-7, name);
            }
        }

        JsonElement mode = own.GetProperty("rectangle").GetProperty("modes")[1].GetProperty("frequency_hz");
        Checks.Near(mode.GetProperty("low50").GetDouble(), row.GetProperty("modes_low50_hz")[1].GetDouble(), 1e-9);
        Checks.Near(mode.GetProperty("high50").GetDouble(), double.Parse(cells[Array.IndexOf(heads, "mode_2_high50_hz")], CultureInfo.InvariantCulture), 1e-7);
    }
}
