using SandwichMech.Core.Building;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Layups;
using SandwichMech.Tests.EndToEnd;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Tests.Published;

/// <summary>A planned test strip against the closed forms of ASTM D7250/D7250M and C393/C393M (from memory, algebra checked), and within its own limits.</summary>
public class TestStripTests
{
    private static readonly TestReadings Readings = new(1e-3 / Math.Sqrt(3), 0.1e-3 / Math.Sqrt(3), 0.02e-3 / Math.Sqrt(3), 0.02e-3 / Math.Sqrt(3), 50);

    private static Board Demo { get; } = BoardFiles.Read(Commanded.Demo, MaterialTables.BuiltIn()).Board;

    // One test under one line (1) and one under two lines at the quarter points (2), D7250 section 10.1:
    // D = P1 S1³ (1 - 11 S2²/(8 S1²)) / (48 Δ1 (1 - 2 P1 S1 Δ2/(P2 S2 Δ1))), U = P1 S1 (8 S1²/(11 S2²) - 1) / (4 Δ1 (16 P1 S1³ Δ2/(11 P2 S2³ Δ1) - 1)).
    [Theory]
    [Trait("Check", "published")]
    [InlineData(0, 3, false)]
    [InlineData(2, 1, false)]
    [InlineData(2, 3, false)]
    [InlineData(0, 3, true)]
    public void The_expected_deflections_give_stiffness_and_shear_rigidity_back(int oneLine, int twoLines, bool across)
    {
        StripPlan plan = TestStrip.Plan(Demo, new(across, 0.2, 0.026, 0.01e-3, 5), Readings);
        (double p1, double s1, double d1) = Of(plan.Tests[oneLine]);
        (double p2, double s2, double d2) = Of(plan.Tests[twoLines]);
        double stiffness = p1 * Math.Pow(s1, 3) * (1 - 11 * s2 * s2 / (8 * s1 * s1)) / (48 * d1 * (1 - 2 * p1 * s1 * d2 / (p2 * s2 * d1)));
        double rigidity = p1 * s1 * (8 * s1 * s1 / (11 * s2 * s2) - 1) / (4 * d1 * (16 * p1 * Math.Pow(s1, 3) * d2 / (11 * p2 * Math.Pow(s2, 3) * d1) - 1));
        // What `estimate` says of the board.
        Laminate layup = Demo.Laminate();
        Sym3 compliance = layup.Bending.Inverse();
        Checks.Near(0.026 / (across ? compliance.M22 : compliance.M11), stiffness, 1e-6);
        Checks.Near(0.026 * (across ? layup.Shear.Sy : layup.Shear.Sx), rigidity, 1e-6);

        static (double, double, double) Of(StripTest t) => (t.Reading.Load.Value * 9.80665 + t.Reading.Plunger, t.Reading.Span.Value, t.Reading.Deflection.Value);
    }

    // C393: σ = PS/(2t(d + c)b), under two lines P(S - L)/(2t(d + c)b), τ = P/((d + c)b).
    [Fact]
    [Trait("Check", "published")]
    public void Stresses_are_those_of_the_standard()
    {
        StripPlan plan = TestStrip.Plan(Demo, new(false, 0.2, 0.026, 0.01e-3, 5), Readings);
        foreach (StripTest t in plan.Tests)
        {
            double force = t.Reading.Load.Value * 9.80665 + t.Reading.Plunger, both = (plan.Thickness + 1.8e-3) * 0.026;
            Checks.Near(force / both, t.CoreStress, 1e-9);
            Checks.Near(force * (t.Reading.Span.Value - t.Reading.LoadSpan) / (2 * 0.024 * 0.0254 * both), t.SkinStress, 1e-9);
        }
    }

    [Theory]
    [Trait("Check", "exact")]
    [InlineData(false, 0.2, 0.01e-3, 5)]
    [InlineData(false, 0.45, 0.01e-3, 2)]
    [InlineData(true, 0.2, 0.01e-3, 10)]
    [InlineData(true, 0.12, 0.001e-3, 5)]
    public void A_plan_keeps_its_limits_and_more_readings_never_tell_less(bool across, double length, double step, double heaviest)
    {
        StripPlan plan = TestStrip.Plan(Demo, new(across, length, 0.026, step, heaviest), Readings with { Deflection = 2 * step / Math.Sqrt(3) });
        foreach (StripTest t in plan.Tests)
        {
            Assert.InRange(t.Reading.Load.Value, 0.05, heaviest);
            Assert.InRange(t.SkinStress, 0, across ? TestStrip.SkinAcross : TestStrip.SkinAlong);
            Assert.InRange(t.CoreStress, 0, TestStrip.CoreShear);
            Assert.InRange(t.Reading.Deflection.Value, 0, t.Reading.Span.Value / 40);
            Assert.InRange(t.Reading.Span.Value, 10 * plan.Thickness, length - 0.02 + 1e-9);
            Assert.InRange(t.ShearShare, 0, 1);
            // The spring holds up as much as it is pressed in by.
            Checks.Near(-50 * t.Reading.Deflection.Value, t.Reading.Plunger, 1e-12);
        }

        Assert.True(plan.Tests[0].ShearShare > plan.Tests[2].ShearShare);
        StripScheme[] s = [.. plan.Schemes];
        foreach ((StripScheme less, StripScheme more) in new[] { (s[0], s[2]), (s[1], s[2]), (s[1], s[3]) })
        {
            Assert.True(more.CoreShear.Found.Spread <= less.CoreShear.Found.Spread * (1 + 1e-6), $"{less.Name} and {more.Name}");
            Assert.True(more.SkinStiffness.Found.Spread <= less.SkinStiffness.Found.Spread * (1 + 1e-6), $"{less.Name} and {more.Name}");
        }

        Assert.True(s[1].CoreShear.Found.Spread < 0.9 * s[1].CoreShear.Table.Spread);
    }

    // A finite difference of the fit's own kind: two readings of known spread, two unknowns of wide spread, everything else certain. Then the spread of U follows from the two
    // linear equations of D7250 alone: Δ = a/D + b/U each, so ln U varies by the inverse of the 2 × 2 matrix of shares.
    [Fact]
    [Trait("Check", "independent")]
    public void With_all_else_certain_the_core_is_known_as_two_equations_in_two_unknowns_say()
    {
        Board sure = Certain(Demo);
        StripPlan plan = TestStrip.Plan(sure, new(false, 0.2, 0.026, 0.01e-3, 5), Readings with { Thickness = 0 });
        StripTest near = plan.Tests[0], far = plan.Tests[2];
        // Judgement of the model, 1.5 %, and what tapped over bent stiffness leaves open, are the fit's own: the former adds to each reading.
        double Noise(StripTest t) => Math.Sqrt(Square(Readings.Deflection / t.Reading.Deflection.Value) + Square(Readings.Load / t.Reading.Load.Value) + Square(3 * Readings.Span / t.Reading.Span.Value) + Square(0.015));
        double a = 1 - near.ShearShare, b = near.ShearShare, c = 1 - far.ShearShare, d = far.ShearShare, det = a * d - b * c;
        // u and v: shifts of -ln D and -ln U; near = a u + b v, far = c u + d v, so v = (a far - c near)/det.
        double v = Math.Sqrt(Square(a * Noise(far)) + Square(c * Noise(near))) / Math.Abs(det);
        // The prior of G, 2 in the logarithm, adds as a third reading; U goes with G but for what the skins shear (1 to 4 %).
        double expected = 1 / Math.Sqrt(1 / (v * v) + 1 / 4.0);
        Checks.Near(expected, plan.Schemes[1].CoreShear.Found.Spread, 0.06);

        static double Square(double x) => x * x;
    }

    [Theory]
    [Trait("Check", "exact")]
    [InlineData("--margin", "10 mm", "leaves a strip of 6 mm")]
    [InlineData("--margin", "3 mm", "leaves a strip of 0 mm")]
    [InlineData("--margin", "30", "a unit is missing")]
    [InlineData("--margin", "30 kg", "is a mass")]
    [InlineData("--margin", "30 in", "outside what is possible")]
    [InlineData("--length", "60 mm", "too short for two spans")]
    [InlineData("--length", "900 mm", "longer than the blank")]
    [InlineData("--length", "-200 mm", "outside what is possible")]
    [InlineData("--gauge-step", "1 mm", "outside what is possible")]
    [InlineData("--gauge-step", "0 mm", "outside what is possible")]
    [InlineData("--heaviest", "5 g", "outside what is possible")]
    [InlineData("--heaviest", "NaN", "NaN")]
    public void What_cannot_be_meant_is_refused_in_one_line(string option, string text, string says)
    {
        Commanded run = Commanded.Run("strip", Commanded.Demo, $"{option}={text}");
        Assert.Equal(2, run.Code);
        Assert.Equal("", run.Out);
        Assert.Contains(says, Assert.Single(run.Err.TrimEnd().Split('\n')), StringComparison.Ordinal);
    }

    [Fact]
    [Trait("Check", "exact")]
    public void It_says_the_gauge_s_force_what_to_type_and_what_is_too_little()
    {
        StripResult r = PlanStrip.Run(BoardFiles.Read(Commanded.Demo, MaterialTables.BuiltIn()), new(false, null, null, null, 1));
        Assert.Contains(r.Notes, n => n.Contains("plunger presses", StringComparison.Ordinal));
        Assert.Contains(r.Notes, n => n.Contains("Fewer than 50 steps", StringComparison.Ordinal));
        Assert.Equal(0.021, r.Width, 1e-9);
        // What it says to type is read as the test that was planned.
        foreach (StripTestRow t in r.Tests)
        {
            BendingReading typed = (BendingReading)Workshop.Pieces.TypedTests.Bend(t.ToType.Replace("…", "0.5", StringComparison.Ordinal)).Reading.Reading;
            Checks.Near(t.Span, typed.Span.Value, 1e-9);
            Checks.Near(t.Load, typed.Load.Value, 1e-9);
            Assert.Equal(t.LoadSpan, typed.LoadSpan, 1e-9);
        }
    }

    // The plan and `measure` are two ways into one theory: what the plan expects, `measure` expects of the same skins, core and adhesive, and finds the table's core again.
    [Fact]
    [Trait("Check", "exact")]
    public void What_the_plan_expects_measure_expects_too()
    {
        using var folder = new TemporaryFolder();
        string log = folder.File("log.sqlite"), board = folder.File("board.toml");
        // The table's own adhesive, since a piece has no other.
        File.WriteAllLines(board, File.ReadAllLines(Commanded.Demo).Where(l => !l.StartsWith("mixed", StringComparison.Ordinal) && !l.StartsWith("kept", StringComparison.Ordinal)));
        StripResult plan = PlanStrip.Run(BoardFiles.Read(board, MaterialTables.BuiltIn()), new(false, 0.03, 0.2, null, null));
        Run("piece", "add", "wood", "--material", "western redcedar", "--thickness", "0.030 in");
        Run("piece", "add", "wood", "--material", "Sitka spruce", "--thickness", "0.024 in");
        Run("piece", "add", "sandwich", "--material", "aramid honeycomb 3.2-29", "--outer-wood", "piece 1", "--inner-wood", "piece 2", "--adhesive", "thixotropic two-part epoxy",
            "--length", "200 mm", "--width", "26 mm", "--thickness", FormattableString.Invariant($"{1e3 * plan.Thickness:F5} mm"));
        string[] bends = [.. plan.Tests.SelectMany(t => new[] { "--bend", t.ToType.Replace("…", FormattableString.Invariant($"{1e3 * t.Deflection.Value:F5}"), StringComparison.Ordinal) })];
        using System.Text.Json.JsonDocument measured = System.Text.Json.JsonDocument.Parse(Run(["measure", "3", .. bends, "--json"]).Out);
        foreach (System.Text.Json.JsonElement reading in measured.RootElement.GetProperty("readings").EnumerateArray())
        {
            Checks.Near(reading.GetProperty("read_si").GetDouble(), reading.GetProperty("expected_si").GetDouble(), 0.002);
        }

        // The fit would take up a stiffness that differs between the two; then it would find another than it began with.
        foreach (string symbol in new[] { "D along", "G ribbon" })
        {
            System.Text.Json.JsonElement property = measured.RootElement.GetProperty("properties").EnumerateArray().Single(p => p.GetProperty("symbol").GetString() == symbol);
            Checks.Near(property.GetProperty("table").GetProperty("value_si").GetDouble(), property.GetProperty("found").GetProperty("value_si").GetDouble(), 0.01, symbol);
        }

        Commanded Run(params string[] words)
        {
            Commanded run = Commanded.Run([.. words, "--log", log]);
            Assert.True(run.Code == 0, run.Err);
            return run;
        }
    }

    private static Board Certain(Board b)
    {
        static Core.Uncertainty.Estimate Sure(Core.Uncertainty.Estimate e) => e with { Spread = 0 };
        static Skin Skin(Skin s) => s with
        {
            Thickness = Sure(s.Thickness),
            Wood = s.Wood with
            {
                Density = Sure(s.Wood.Density),
                // One wide unknown, alike in both skins, would need one wood; each has its own, wide against the readings.
                EL = s.Wood.EL with { Spread = 2 },
                ErOverEl = Sure(s.Wood.ErOverEl),
                EtOverEl = Sure(s.Wood.EtOverEl),
                GlrOverEl = Sure(s.Wood.GlrOverEl),
                GltOverEl = Sure(s.Wood.GltOverEl),
                GrtOverEl = Sure(s.Wood.GrtOverEl),
            },
        };
        Core.Materials.CoreMaterial m = b.Core.Material;
        return b with
        {
            Outer = Skin(b.Outer),
            Inner = Skin(b.Inner),
            Core = b.Core with { Height = Sure(b.Core.Height), Material = m with { Density = Sure(m.Density), ShearRibbon = m.ShearRibbon with { Spread = 2 }, ShearAcross = m.ShearAcross with { Spread = 2 } } },
            Adhesive = b.Adhesive with
            {
                Density = Sure(b.Adhesive.Density),
                Mixed = Sure(b.Adhesive.Mixed),
                KeptShare = Sure(b.Adhesive.KeptShare),
                FilmShare = Sure(b.Adhesive.FilmShare),
                FilmModulus = Sure(b.Adhesive.FilmModulus),
            },
        };
    }
}
