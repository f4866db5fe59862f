using System.Text.Json;
using SandwichMech.Figures;
using SandwichMech.Tests.Pictures;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>`outline`, and boards whose outline is a drawing.</summary>
[Trait("Check", "exact")]
public sealed class OutlineTests : IDisposable
{
    private static string Demo(string file) => Repository.File("shared", "demo", file);

    private static string Board => Demo("from-drawing.toml");

    private static JsonElement Json(params string[] words)
    {
        Commanded run = Commanded.Run([.. words, "--json"]);
        Assert.True(run.Code == 0, run.Err);
        return JsonDocument.Parse(run.Out).RootElement;
    }

    [Fact]
    public void Three_drawings_of_one_outline_give_its_measures()
    {
        // As the demo drawings were drawn: 492 long, bouts 372 and 288, waist 244, hole of radius 43 mm.
        foreach ((string file, string[] more, double close) in ((string, string[], double)[])[("outline.svg", [], 1e-9), ("outline.dxf", ["--part", "edge"], 1e-9), ("half-widths.csv", ["--smooth"], 2e-5)])
        {
            JsonElement r = Json(["outline", Demo(file), .. more]);
            Assert.Equal(0.492, r.GetProperty("length_m").GetDouble(), 1e-9);
            Assert.Equal(0.372, r.GetProperty("lower_bout").GetProperty("width_m").GetDouble(), close);
            Assert.Equal(0.244, r.GetProperty("waist").GetProperty("width_m").GetDouble(), close);
            Assert.Equal(0.288, r.GetProperty("upper_bout").GetProperty("width_m").GetDouble(), close);
            Assert.Equal(DrawnArea, r.GetProperty("area_m2").GetDouble(), close);
            if (file != "half-widths.csv")
            {
                JsonElement hole = r.GetProperty("inside").EnumerateArray().Single(c => c.GetProperty("name").GetString() == "soundhole");
                Assert.Equal(Math.PI * 0.043 * 0.043, hole.GetProperty("area_m2").GetDouble(), 1e-8);
                Assert.Equal(0.332, (hole.GetProperty("from_m").GetDouble() + hole.GetProperty("to_m").GetDouble()) / 2, 1e-9);
            }
        }
    }

    // Twice the sum over the four cubics of one side, by the closed form of the area under a cubic (integrated from x' y in Bernstein form).
    private static double DrawnArea
    {
        get
        {
            double[][] x = [[0, 0, 48, 128], [128, 206, 242, 306], [306, 346, 362, 402], [402, 458, 492, 492]];
            double[][] y = [[0, 118, 186, 186], [186, 186, 122, 122], [122, 122, 144, 144], [144, 144, 92, 0]];
            double sum = 0;
            for (int s = 0; s < 4; s++)
            {
                for (int i = 0; i < 4; i++)
                {
                    for (int j = 0; j < 3; j++)
                    {
                        // ∫ B_i³ B_j² dt = C(3,i) C(2,j) / (6 C(5,i+j)).
                        double[] three = [1, 3, 3, 1], two = [1, 2, 1], five = [1, 5, 10, 10, 5, 1];
                        sum += y[s][i] * 3 * (x[s][j + 1] - x[s][j]) * three[i] * two[j] / (6 * five[i + j]);
                    }
                }
            }

            return 2e-6 * sum;
        }
    }

    [Fact]
    public void The_picture_shows_the_measures_and_its_words_keep_apart()
    {
        foreach (UnitSystem units in (UnitSystem[])[UnitSystem.Metric, UnitSystem.Inch])
        {
            foreach (string file in (string[])["outline.svg", "half-widths.csv"])
            {
                Picture picture = BoardPictures.Outline(ReadOutline.Run(Demo(file), new()), units);
                IReadOnlyList<SvgWord> words = SvgWords.Of(picture);
                Assert.Contains(words, w => w.Text == (units == UnitSystem.Metric ? "length 492.0 mm" : "length 19.37 in"));
                Assert.Contains(words, w => w.Text.StartsWith("waist", StringComparison.Ordinal));
                Assert.All(words, w => Assert.All(w.Corners(), c => Assert.True(c.X >= 5 && c.X <= picture.Width - 5 && c.Y >= 5 && c.Y <= picture.Height - 5, w.Text)));
                Assert.Empty(words.SelectMany((a, i) => words.Skip(i + 1).Where(a.Overlaps).Select(b => $"'{a.Text}' and '{b.Text}'")));
            }
        }

        using var folder = new TemporaryFolder();
        Commanded run = Commanded.Run("outline", Demo("outline.dxf"), "--part", "edge", "--plot", folder.File("o.png"));
        Assert.True(run.Code == 0 && new FileInfo(folder.File("o.png")).Length > 20_000, run.Err);
        Assert.Contains("part = \"edge\"", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_board_has_the_area_and_the_modes_of_its_drawing_whatever_the_format()
    {
        double hole = Math.PI * 0.043 * 0.043;
        JsonElement svg = Json("estimate", Board), dxf = Json("estimate", Other("outline.svg", "outline.dxf"));
        Assert.Equal(DrawnArea - hole, svg.GetProperty("area_m2").GetDouble(), 1e-8);
        Assert.Equal(svg.GetProperty("area_m2").GetDouble(), dxf.GetProperty("area_m2").GetDouble(), 1e-10);
        double First(string board) => Json("modes", board, "--count", "2", "--accuracy", "0.5 %").GetProperty("modes")[0].GetProperty("frequency_hz").GetProperty("value").GetDouble();
        double drawn = First(Board);
        Assert.Equal(drawn, First(Other("outline.svg", "outline.dxf")), 1e-3 * drawn);

        // By half-widths, with the hole by its measures in place of the drawn one: 2 mm of the hole's edge at most differ.
        string halves = Other("file = \"outline.svg\"", "file = \"half-widths.csv\"\nsmooth = \"yes\"", ("part = \"edge\"", ""), ("part = \"soundhole\"", "diameter = \"86 mm\"\nat = \"332 mm\""));
        Assert.Equal(svg.GetProperty("area_m2").GetDouble(), Json("estimate", halves).GetProperty("area_m2").GetDouble(), 1e-5);
        Assert.Equal(drawn, First(halves), 3e-3 * drawn);
    }

    [Fact]
    public void A_ring_round_a_drawn_hole_is_the_ring_round_a_circle()
    {
        JsonElement drawn = Json("modes", Board, "--count", "2", "--accuracy", "1 %");
        JsonElement ring = drawn.GetProperty("regions").EnumerateArray().Single(r => r.GetProperty("region").GetString() == "hole ring");
        Assert.Equal(Math.PI * (58 * 58 - 43 * 43) * 1e-6, ring.GetProperty("area_m2").GetDouble(), 5e-8);
    }

    [Theory]
    [InlineData("file = \"outline.svg\"", "file = \"outlien.svg\"", "outlien.svg", "no such file")]
    [InlineData("file = \"outline.svg\"", "file = \"from-drawing.toml\"", "from-drawing.toml", "is no drawing")]
    [InlineData("part = \"edge\"", "part = \"egde\"", "outline.svg", "did you mean 'edge'?")]
    [InlineData("part = \"edge\"", "part = \"edge\"\nunit = \"in\"", "outline.svg", "in mm it would be 492.0 mm")]
    [InlineData("part = \"edge\"", "part = \"edge\"\nunit = \"ell\"", "outline.unit", "mm, cm, in")]
    [InlineData("part = \"edge\"", "part = \"edge\"\nalong = \"sideways\"", "outline.along", "'up'")]
    [InlineData("part = \"edge\"", "part = \"edge\"\nlower = \"372 mm\"", "outline.lower", "take one of the two away")]
    [InlineData("file = \"outline.svg\"", "", "outline.part", "none is named")]
    [InlineData("part = \"soundhole\"", "part = \"rosette\"", "outline.svg", "'bridge'")]
    [InlineData("part = \"soundhole\"", "part = \"soundhole\"\ndiameter = \"85 mm\"", "hole.diameter", "comes from the drawing")]
    [InlineData("width = \"15 mm\"", "width = \"99 mm\"", "hole_ring.width", "reaches the outline")]
    [InlineData("width = \"10 mm\"", "width = \"125 mm\"", "edge_band.width", "narrower")]
    public void What_is_wrong_with_a_drawn_board_is_named(string good, string bad, string where, string says)
    {
        string file = Other(good, bad);
        Commanded run = Commanded.Run("estimate", file);
        Assert.Equal(2, run.Code);
        Assert.Contains(where, run.Err, StringComparison.Ordinal);
        Assert.Contains(says, run.Err, StringComparison.Ordinal);
        Assert.Empty(run.Out);
    }

    [Fact]
    public void A_typed_measure_that_differs_from_the_drawing_is_said()
    {
        Commanded run = Commanded.Run("estimate", Other("[outline]", "[size]\nlength = \"480 mm\"\narea = \"1300 cm²\"\n\n[outline]"));
        Assert.Equal(0, run.Code);
        Assert.Contains("480.0 mm typed, 492.0 mm by the drawing", string.Join(' ', run.Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        Assert.Contains("1300 cm² typed", string.Join(' ', run.Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("outline gone.svg", "no such file")]
    [InlineData("outline SVG --unit ell", "--unit: 'ell'")]
    [InlineData("outline SVG --along 3", "--along")]
    [InlineData("outline SVG --part hole", "no closed curve 'hole'")]
    [InlineData("outline SVG --plot x.gif", ".png")]
    public void Wrong_input_is_one_clear_line(string line, string says)
    {
        Commanded run = Commanded.Run(Commanded.Words(line.Replace("SVG", Demo("outline.svg"), StringComparison.Ordinal)));
        Assert.Equal(2, run.Code);
        Assert.Single(run.Err.TrimEnd('\n').Split('\n'));
        Assert.Contains(says, run.Err, StringComparison.Ordinal);
    }

    private readonly TemporaryFolder _folder = WithDemos();

    public void Dispose() => _folder.Dispose();

    private static TemporaryFolder WithDemos()
    {
        var folder = new TemporaryFolder();
        foreach (string file in (string[])["outline.svg", "outline.dxf", "half-widths.csv", "from-drawing.toml"]) { File.Copy(Demo(file), folder.File(file)); }
        return folder;
    }

    /// <summary>The demo board with something else in it, beside copies of the drawings.</summary>
    private string Other(string good, string bad, params (string Good, string Bad)[] more)
    {
        string text = File.ReadAllText(Board).Replace(good, bad, StringComparison.Ordinal);
        foreach ((string a, string b) in more) { text = text.Replace(a, b, StringComparison.Ordinal); }
        string file = _folder.File($"{Guid.NewGuid():N}.toml");
        File.WriteAllText(file, text);
        return file;
    }
}
