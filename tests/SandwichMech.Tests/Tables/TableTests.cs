using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Tables;

/// <summary>The tables that come with the tool, and a maker's own with its mistakes.</summary>
[Trait("Check", "exact")]
public class TableTests
{
    private static readonly MaterialTables BuiltIn = MaterialTables.BuiltIn();

    [Fact]
    public void There_are_at_least_twelve_woods_several_cores_and_adhesives()
    {
        Assert.True(BuiltIn.Woods.Count >= 12);
        Assert.True(BuiltIn.Cores.Count(c => c.Item.Kind == "honeycomb") >= 3);
        Assert.Contains(BuiltIn.Cores, c => c.Item.Kind == "balsa");
        Assert.Contains(BuiltIn.Cores, c => c.Item.Kind == "foam");
        Assert.NotEmpty(BuiltIn.Adhesives);
    }

    [Fact]
    public void Every_row_has_a_source_and_what_is_from_memory_is_wide()
    {
        Assert.All(BuiltIn.Woods, w => Assert.NotEqual("", w.Source));
        Assert.All(BuiltIn.Cores, c => Assert.NotEqual("", c.Source));
        Assert.All(BuiltIn.Adhesives, a => Assert.NotEqual("", a.Source));
        Assert.All(BuiltIn.Woods.Where(w => w.Source.Contains("borrowed", StringComparison.Ordinal)), w => Assert.True(w.Item.ErOverEl.Spread >= 0.3, w.Name));
        Assert.All(BuiltIn.Adhesives, a => Assert.True(a.Item.KeptShare.Spread >= 0.15 && a.Item.FilmShare.Spread >= 0.25, a.Name));
    }

    [Fact]
    public void Names_are_unique_over_all_tables()
    {
        string[] names = [.. BuiltIn.Woods.Select(w => w.Name), .. BuiltIn.Cores.Select(c => c.Name), .. BuiltIn.Adhesives.Select(a => a.Name)];
        // Balsa is a wood and, end-grain, a core; their names differ.
        Assert.Equal(names.Length, names.Distinct(StringComparer.OrdinalIgnoreCase).Count());
    }

    [Fact]
    public void Every_wood_and_core_makes_a_plate()
    {
        Assert.All(BuiltIn.Woods, w => Assert.True(Board.SolidPlate(w.Item, 2.6e-3).Bending.M11 > 0, w.Name));
        Assert.All(BuiltIn.Cores.Select(c => c.Item), c => Assert.True(c.ShearRibbon.Value >= c.ShearAcross.Value && c.Heights.Count > 0, c.Name));
    }

    [Fact]
    public void Part_ratios_by_volume_follow_from_mass_and_density()
    {
        foreach (Adhesive a in BuiltIn.Adhesives.Select(a => a.Item).Where(a => a is { ResinParts: not null, ResinDensity: not null }))
        {
            double volume = a.HardenerParts!.Value / a.HardenerDensity!.Value / (a.ResinParts!.Value / a.ResinDensity!.Value);
            Assert.InRange(volume, 0.2, 1.1);
        }
    }

    [Theory]
    [InlineData("sitka SPRUCE", "Sitka spruce")]
    [InlineData("  Sitka   spruce ", "Sitka spruce")]
    [InlineData("Picea sitchensis", "Sitka spruce")]
    public void A_wood_is_found_by_any_of_its_names(string typed, string name) =>
        Assert.Equal(name, MaterialTables.Find(BuiltIn.Woods, typed)!.Name);

    [Theory]
    [InlineData("Sitka spruce,spruce,both,,0.1", 2, "density_kg_m3", "empty")]
    [InlineData("Sitka spruce,spruce,both,dense,0.1", 2, "density_kg_m3", "dense")]
    [InlineData("Sitka spruce,spruce,both,NaN,0.1", 2, "density_kg_m3", "NaN")]
    [InlineData("Sitka spruce,spruce,both,4480,0.1", 2, "density_kg_m3", "possible")]
    [InlineData(",spruce,both,448,0.1", 2, "name", "needs a name")]
    public void A_wrong_row_is_named_with_line_and_column(string row, int line, string column, string says)
    {
        using var folder = new EndToEnd.TemporaryFolder();
        string[] own = MaterialTables.Text("woods").Split('\n');
        string header = own.Single(l => l.StartsWith("name,", StringComparison.Ordinal));
        string sitka = own.Single(l => l.StartsWith("Sitka spruce,", StringComparison.Ordinal));
        string rest = string.Join(',', sitka.Split(',').Skip(5));
        File.WriteAllLines(folder.File("woods.csv"), [header, $"{row},{rest}"]);
        Problem problem = Assert.Single(Assert.Throws<InputException>(() => BuiltIn.With(folder.Path)).Problems);
        Assert.Equal((line, column), (problem.Line, problem.Field));
        Assert.Contains(says, problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Rows_that_are_too_short_repeated_or_of_missing_columns_are_all_named_in_one_go()
    {
        using var folder = new EndToEnd.TemporaryFolder();
        File.WriteAllText(folder.File("cores.csv"), "name,kind,density_kg_m3\nfoam a,foam,60\nfoam a,foam\n");
        IReadOnlyList<Problem> problems = Assert.Throws<InputException>(() => BuiltIn.With(folder.Path)).Problems;
        Assert.Contains(problems, p => p.Line == 3 && p.Message.Contains("cells", StringComparison.Ordinal));
        Assert.Contains(problems, p => p.Field == "shear_ribbon_mpa" && p.Message.Contains("missing", StringComparison.Ordinal));
    }

    [Fact]
    public void An_empty_folder_says_what_to_put_there()
    {
        using var folder = new EndToEnd.TemporaryFolder();
        Assert.Contains("woods.csv", Assert.Throws<InputException>(() => BuiltIn.With(folder.Path)).Message, StringComparison.Ordinal);
    }
}
