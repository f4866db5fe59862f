using System.Text.Json;
using Json.Schema;
using SandwichMech.Tests.Log;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>Each command's JSON fits the schema in shared/schemas, and the schema is the one made from the result record.</summary>
public class SchemaTests
{
    public static TheoryData<string, string> Results() => new()
    {
        { "estimate", $"estimate {Commanded.Demo} --json" },
        { "sound", $"sound {Repository.File("shared", "demo", "outline.toml")} --count 3 --depth \"95 mm\" --json" },
        { "modes", $"modes {Repository.File("shared", "demo", "outline.toml")} --count 3 --accuracy \"1 %\" --json" },
        { "deflect", $"deflect {Repository.File("shared", "demo", "outline.toml")} --json" },
        { "margins", $"margins {Repository.File("shared", "demo", "outline.toml")} --json" },
        { "margins", $"margins {Commanded.Demo} --json" },
        { "estimate", $"estimate {Repository.File("shared", "demo", "outline.toml")} --json" },
        { "outline", $"outline {Repository.File("shared", "demo", "outline.svg")} --json" },
        { "outline", $"outline {Repository.File("shared", "demo", "half-widths.csv")} --json" },
        { "listen", $"listen {Repository.File("shared", "demo", "taps.wav")} --json" },
        { "compare", $"compare {Commanded.Demo} --json" },
        { "side-by-side", $"compare {Commanded.Demo} {Repository.File("shared", "demo", "board-foam.toml")} --json" },
        { "sweep", $"sweep {Commanded.Demo} --vary \"core 1.5 mm to 3 mm\" --json" },
        { "bond", $"bond {Commanded.Demo} --json" },
        { "strip", $"strip {Commanded.Demo} --json" },
        { "materials", "materials --json" },
        { "material", "materials show balsa --json" },
        { "piece", "piece show 1 --json" },
        { "piece", "piece show 3 --json" },
        { "pieces", "piece list --json" },
        { "measure", "measure 1 --tap \"30.1 Hz, 41.3 Hz, 77 Hz\" --json" },
        { "measure-board", $"measure {Repository.File("shared", "demo", "outline.toml")} --weight \"124.3 g\" --tap \"36.8 Hz, 53.1 Hz, 73.4 Hz\" --json" },
        { "piece-changed", "piece read 1 --weight \"88.1 g\" --humidity \"45 %\" --json" },
        { "piece-changed", "piece read 1 --thickness-map \"2.02 1.98 2.00; 2.05 2.01 1.99; 2.06 2.03 2.01 mm\" --json" },
        { "piece-changed", "piece add core --material \"aramid honeycomb 3.2-48\" --json" },
        { "piece-changed", "piece correct 1 2 --withdraw --json" },
        { "log", "log where --json" },
        { "log-export", "log export" },
        { "choose", $"choose {Commanded.Demo} --target \"along at least solid\" --sure \"80 %\" --json" },
        { "choose", $"choose {Commanded.Demo} --target \"along at least solid\" --target \"mass at most 95 g\" --json" },
        { "plan", "plan 1 --json" },
        { "boards", "log show 1 --json" },
        { "board-changed", "log add 1 skins \"core 5.7 g\" --json" },
        { "board-changed", "log decide 1 \"solid.thickness 2.6 mm\" --json" },
        { "hindsight", "log hindsight 1 --json" },
        { "log-check", "log check --json" },
        { "log-bonds", "log bonds --json" },
    };

    private static readonly Dictionary<string, Type> Types = new()
    {
        ["estimate"] = typeof(EstimateResult),
        ["modes"] = typeof(ModesResult),
        ["sound"] = typeof(SoundResult),
        ["deflect"] = typeof(DeflectResult),
        ["margins"] = typeof(MarginsResult),
        ["outline"] = typeof(OutlineResult),
        ["listen"] = typeof(ListenResult),
        ["compare"] = typeof(CompareResult),
        ["side-by-side"] = typeof(SideBySideResult),
        ["sweep"] = typeof(SweepResult),
        ["bond"] = typeof(BondResult),
        ["strip"] = typeof(StripResult),
        ["materials"] = typeof(MaterialsResult),
        ["material"] = typeof(MaterialDetail),
        ["new"] = typeof(NewResult),
        ["piece"] = typeof(PieceResult),
        ["pieces"] = typeof(PiecesResult),
        ["measure"] = typeof(MeasureResult),
        ["measure-board"] = typeof(MeasureBoardResult),
        ["piece-changed"] = typeof(PieceChanged),
        ["log"] = typeof(LogResult),
        ["log-export"] = typeof(LogExport),
        ["choose"] = typeof(ChooseResult),
        ["plan"] = typeof(PlanResult),
        ["boards"] = typeof(BuildsResult),
        ["board-changed"] = typeof(BuildChanged),
        ["hindsight"] = typeof(HindsightResult),
        ["log-check"] = typeof(CheckResult),
        ["log-bonds"] = typeof(ShopBondsResult),
    };

    [Theory]
    [Trait("Check", "exact")]
    [MemberData(nameof(Results))]
    public void A_result_fits_its_schema(string name, string line)
    {
        using var folder = new TemporaryFolder();
        Commanded run = Commanded.Run([.. Commanded.Words(line), "--log", DemoLog.In(folder)]);
        Assert.Equal(0, run.Code);
        using JsonDocument document = JsonDocument.Parse(run.Out);
        EvaluationResults fits = Schema(name).Evaluate(document.RootElement);
        Assert.True(fits.IsValid, $"{name} does not fit its schema.");
        Assert.False(Schema(name).Evaluate(JsonDocument.Parse("{\"other\": 1}").RootElement).IsValid, "The schema accepts anything.");
    }

    [Theory]
    [Trait("Check", "pinned")]
    [InlineData("estimate")]
    [InlineData("modes")]
    [InlineData("sound")]
    [InlineData("deflect")]
    [InlineData("margins")]
    [InlineData("outline")]
    [InlineData("listen")]
    [InlineData("compare")]
    [InlineData("side-by-side")]
    [InlineData("sweep")]
    [InlineData("bond")]
    [InlineData("strip")]
    [InlineData("materials")]
    [InlineData("material")]
    [InlineData("new")]
    [InlineData("piece")]
    [InlineData("pieces")]
    [InlineData("measure")]
    [InlineData("piece-changed")]
    [InlineData("log")]
    [InlineData("log-export")]
    [InlineData("measure-board")]
    [InlineData("choose")]
    [InlineData("plan")]
    [InlineData("boards")]
    [InlineData("board-changed")]
    [InlineData("hindsight")]
    [InlineData("log-check")]
    [InlineData("log-bonds")]
    public void The_schema_in_shared_is_the_one_of_the_record(string name)
    {
        string file = Repository.File("shared", "schemas", $"{name}.schema.json"), made = ResultJson.Schema(Types[name]);
        if (Environment.GetEnvironmentVariable("SANDWICHMECH_APPROVE") == "1")
        {
            File.WriteAllText(file, made);
        }

        Assert.True(File.Exists(file), "SANDWICHMECH_APPROVE=1 dotnet test writes the schemas.");
        Assert.Equal(File.ReadAllText(file), made);
    }

    [Fact]
    [Trait("Check", "exact")]
    public void Every_number_with_a_unit_carries_it_in_its_name()
    {
        using JsonDocument document = JsonDocument.Parse(Commanded.Run("estimate", Commanded.Demo, "--json").Out);
        string[] bare = ["half_waves_along", "half_waves_across", "share", "sampled_boards"];
        string[] units = ["_m", "_m2", "_n_m", "_n", "_n_per_m", "_pa", "_kg", "_kg_m2", "_hz"];
        foreach (JsonProperty p in document.RootElement.EnumerateObject().Where(p => p.Value.ValueKind == JsonValueKind.Number || (p.Value.ValueKind == JsonValueKind.Object && p.Value.TryGetProperty("low90", out _))))
        {
            Assert.True(bare.Any(p.Name.StartsWith) || units.Any(u => p.Name.EndsWith(u, StringComparison.Ordinal)), p.Name);
        }
    }

    private static JsonSchema Schema(string name) => JsonSchema.FromText(ResultJson.Schema(Types[name]));
}
