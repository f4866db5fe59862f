using SandwichMech.Core.Identification;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Numerics;
using SandwichMech.Core.Plates.Reduced;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Identification;

/// <summary>Truth put in, read with errors, and found again.</summary>
[Trait("Check", "independent")]
public class IdentifyTests
{
    private const double Length = 0.52, Width = 0.2, Thickness = 2.8e-3;
    private static readonly Wood Spruce = MaterialTables.Find(MaterialTables.BuiltIn().Woods, "Sitka spruce")!.Item;

    // What is true of this piece is well off the table: E_L +18 %, E_R −20 %, G −15 %.
    private static readonly WoodSample Truth = new(Length, Width, Spruce with
    {
        Density = Spruce.Density.Times(0.93),
        EL = Spruce.EL.Times(1.18),
        ErOverEl = Spruce.ErOverEl.Times(0.8 / 1.18),
        GlrOverEl = Spruce.GlrOverEl.Times(0.85 / 1.18),
    }, Thickness, Spruce.MoisturePercent);

    [Fact]
    public void Tones_whose_modes_nobody_named_tell_three_moduli()
    {
        IReadOnlyList<TapMode> modes = new TapPlate(Truth, 6).First;
        Identified found = Run([Weighed(), .. modes.Take(5).Select((m, i) => Tone(m.Frequency * (1 + 0.003 * Math.Sin(i + 1))))]);
        double[] truth = [Truth.Wood.Density.Value, Truth.Wood.EL.Value, Truth.Wood.ER, Truth.Wood.Glr];
        for (int i = 0; i < truth.Length; i++)
        {
            PropertyFound p = found.Properties[i];
            Checks.Within(-2.5 * p.Found.Spread, 2.5 * p.Found.Spread, Math.Log(p.Found.Value / truth[i]), p.Property.Name);
            Assert.True(p.Found.Spread < 0.5 * p.Table.Spread, $"{p.Property.Name}: {p.Table.Spread:F3} to {p.Found.Spread:F3}");
        }

        // Each tone is given to the mode that it was made from.
        Assert.Equal(modes.Take(5).Select(m => m.Lines), found.Readings.Where(r => r.Observation.Tone is not null).Select(r => r.Lines));
        Assert.InRange(found.Chance, 0.05, 1);
        Assert.NotEmpty(found.Next);
        Assert.All(found.Next, n => Assert.True(n.To <= n.From));
    }

    [Fact]
    public void A_tone_that_no_mode_makes_is_named_and_left_out()
    {
        IReadOnlyList<TapMode> modes = new TapPlate(Truth, 6).First;
        double stray = Math.Sqrt(modes[1].Frequency * modes[2].Frequency);
        Identified found = Run([Weighed(), .. modes.Take(4).Select(m => Tone(m.Frequency)), Tone(stray)]);
        ReadingUsed left = Assert.Single(found.Readings, r => r.Expected is null);
        Checks.Near(stray, left.Observation.Value, 1e-12);
        PropertyFound along = found.Properties[1];
        Checks.Within(-2.5 * along.Found.Spread, 2.5 * along.Found.Spread, Math.Log(along.Found.Value / Truth.Wood.EL.Value), "E_L");
    }

    // Losses put in by energy shares (η = Σ share · η of its kind) come out again, each within what it is said to be off by; two in three of them better than the table.
    [Fact]
    public void Losses_of_tones_tell_those_along_across_and_in_twist()
    {
        const double along = 0.009, across = 0.023, twist = 0.015;
        Tone[] tones = [.. new TapPlate(Truth, 8).First.Take(6).Select(m => new Tone(new(m.Frequency, 2e-3), Loss: new(
            m.Mode.Energy.Along * along + m.Mode.Energy.Across * across + (m.Mode.Energy.Twist + m.Mode.Energy.Shear) * twist, 0.02)))];
        Identified found = Run([Weighed(), .. Observations.Of(new TapReading(tones), 0.002)]);
        Assert.Equal(["eta_L", "eta_R", "eta_G"], found.Losses.Select(l => l.Symbol));
        foreach ((LossFound loss, double truth) in found.Losses.Zip([along, across, twist]))
        {
            Checks.Within(-2 * loss.Found.Spread, 2 * loss.Found.Spread, Math.Log(loss.Found.Value / truth), loss.Name);
            Assert.True(loss.Found.Spread < 0.6 * loss.Table.Spread, loss.Name);
        }

        // Tones typed without their damping say nothing of it.
        Assert.Empty(Run([Weighed(), Tone(tones[0].Frequency.Value)]).Losses);
    }

    // In air the first modes of so light a plate are lower; who leaves that out finds moduli that are 4 to 12 % too low.
    [Fact]
    public void Without_the_air_moduli_would_come_out_low()
    {
        var plate = new TapPlate(Truth, 5);
        // A modulus goes with f²: what is left out of the mass is missing in it. The first mode moves most air; the shorter waves of the others, less.
        foreach (TapMode mode in plate.First) { Checks.Within(0.88, mode == plate.First[0] ? 0.96 : 0.965, Math.Pow(mode.Frequency / mode.Mode.Frequency, 2), $"{mode.Lines}"); }
    }

    // The same in a fit: tones lowered by the air once more are to the fit, which knows one air, what tones are to one that knows none. No published source: the design expects
    // 4 to 11 % for a free sandwich and less for a solid top; found here 8.5 and 6.4 % on this blank of 1.3 kg/m², 6.3, 3.8 and 3.8 % on the plate of spruce.
    [Theory]
    [InlineData(false, new[] { 1, 2, 3 }, 0.03, 0.075)]
    [InlineData(true, new[] { 1, 2 }, 0.05, 0.12)]
    public void Moduli_fitted_without_the_air_come_out_low(bool isSandwich, int[] moduli, double least, double most)
    {
        PieceBefore before = isSandwich ? CoverageCases.Sandwich : Before();
        var plate = Identify.PlateFor(before.Start, 6);
        Identified with = Fitted(m => m.Frequency), without = Fitted(m => m.Frequency * Math.Sqrt(m.PlateShare));
        foreach (int i in moduli)
        {
            Checks.Near(before.Properties[i].Of(before.Start), with.Properties[i].Found.Value, 1e-3, before.Properties[i].Name);
            Checks.Within(least, most, 1 - without.Properties[i].Found.Value / with.Properties[i].Found.Value, before.Properties[i].Name);
        }

        Identified Fitted(Func<TapMode, double> frequency)
        {
            Observation weight = Observations.Of(new Weighing(new(1, 1e-3)), before.Sizes).Single();
            Tone[] tones = [.. plate.Counted(before.Start).Take(6).Select(m => new Tone(new(frequency(m), 2e-3), m.Lines?.Along, m.Lines?.Across))];
            return Identify.Run(before, [weight with { Value = weight.Of!(before.Start) }, .. Observations.Of(new TapReading(tones), before.Sizes)], null, plate);
        }
    }

    // What a fit goes by between two solutions of the air, against a full solution.
    [Fact]
    public void Slopes_of_tones_are_those_of_differences_in_air()
    {
        var plate = new TapPlate(Truth, 5);
        IReadOnlyList<TapMode> modes = plate.InAir(Truth);
        foreach (InputShift<Sample> input in Before().Inputs.Where(i => i.Spread > 0))
        {
            const double step = 0.01;
            Sample more = input.Shift(Truth, step), less = input.Shift(Truth, -step);
            IReadOnlyList<TapMode> up = plate.InAir(more), down = plate.InAir(less);
            for (int i = 0; i < 3; i++)
            {
                double difference = Math.Log(up[plate.MostLike(modes[i].Shape, up)].Frequency / down[plate.MostLike(modes[i].Shape, down)].Frequency) / (2 * step);
                double slope = plate.Changes(modes, less, more)[i] / (2 * step);
                Checks.Close(difference, slope, 3e-3, $"{input.Name}, {modes[i].Lines}");
            }
        }
    }

    // Weighing and bending alone have closed forms, so that a thousand pieces cost little: truths from the table's spread, errors from the stated ones.
    [Fact]
    public void Nine_in_ten_of_the_intervals_hold()
    {
        const int cases = 1000;
        var random = new Normals(11);
        PieceBefore before = Before();
        int[] within = new int[2];
        for (int c = 0; c < cases; c++)
        {
            Sample truth = before.Start;
            foreach (InputShift<Sample> input in before.Inputs) { truth = input.Shift(truth, input.Spread * random.Next()); }
            Observation[] readings = [.. new[] { Weighed(), Bent(false), Bent(true) }.Select(r => r with { Value = r.Of!(truth) * Math.Exp(r.Spread * random.Next()) })];
            Identified found = Identify.Run(before, readings);
            double[] values = [((WoodSample)truth).Wood.Density.Value, ((WoodSample)truth).Wood.EL.Value];
            for (int i = 0; i < within.Length; i++)
            {
                within[i] += Math.Abs(Math.Log(found.Properties[i].Found.Value / values[i])) <= Propagation.Z90 * found.Properties[i].Found.Spread ? 1 : 0;
            }
        }

        Assert.All(within, w => Checks.Within(0.87 * cases, 0.93 * cases, w, "intervals that hold"));
    }

    // The same with tones whose modes nobody named, of a small thick plate (few triangles). Four standard deviations of a thousand trials at nine in ten are 3.8 %; the
    // design asks for 87 to 93 %.
    [Fact]
    public void Nine_in_ten_of_the_intervals_hold_with_tones()
    {
        const int cases = 1000;
        var start = (WoodSample)CoverageCases.Wood.Start;
        CoverageResult found = new CoverageTrial(CoverageCases.Wood, CoverageCases.WeighedAndBent(start)).Run(6, cases, 7);
        Assert.All(found.Properties, p => Checks.Within(0.87 * cases, 0.93 * cases, p.Held, $"{p.Symbol}: intervals that hold"));
        // And they say something: moduli come out in a quarter of the table's spread or less.
        Assert.All(found.Properties.Skip(1), p => Assert.True(p.After < 0.25 * p.Before, $"{p.Symbol}: {p.Before:F3} to {p.After:F3}"));
    }

    // Shear-corrected modulus of a beam loaded at its middle (ASTM D198 centre-point form; from memory, algebra checked): E = P L³/[4 b h³ δ (1 − 3PL/(10 b h G δ))].
    [Fact]
    public void Bending_alone_gives_the_modulus_of_the_standards()
    {
        BendingReading bend = new(false, new(0.4, 0), 0, new(0.5, 0), new(1.6e-3, 1e-4), 0);
        Wood open = Spruce with { EL = Spruce.EL with { Spread = 5 }, Density = Spruce.Density with { Spread = 0 } };
        var start = new WoodSample(Length, Width, open, Thickness, open.MoisturePercent);
        // Nothing else may give way.
        InputShift<Sample>[] inputs = [.. SampleInputs.OfWood(open, 0, 0).Select(i => i.Name == "E_L" ? i : i with { Spread = 0 })];
        Observation reading = Observations.Of(bend, 0).Single();
        Identified found = Identify.Run(new(start, inputs, SampleInputs.WoodProperties, 0), [reading]);
        double p = 0.5 * Observations.Gravity, e = found.Properties[1].Found.Value / start.TappedOverBent, g = e * start.TappedOverBent * open.GltOverEl.Value / start.TappedOverBent;
        double standard = p * Math.Pow(0.4, 3) / (4 * Width * Math.Pow(Thickness, 3) * 1.6e-3 * (1 - 3 * p * 0.4 / (10 * Width * Thickness * g * 1.6e-3)));
        Checks.Near(standard, e, 2e-3, "E_L");
    }

    private static Identified Run(IReadOnlyList<Observation> readings) => Identify.Run(Before(), readings, [Bent(false), Bent(true)]);

    private static PieceBefore Before() => new(
        new WoodSample(Length, Width, Spruce.Tapped(), Thickness, Spruce.MoisturePercent), SampleInputs.OfWood(Spruce, 0.007, 1), SampleInputs.WoodProperties, 0.002);

    private static Observation Weighed() => Observations.Of(new Weighing(new(Truth.Layup(true).ArealMass * Length * Width, 1e-3)), 0.002).Single();

    private static Observation Tone(double frequency) => Observations.Of(new TapReading([new(new(frequency, 2e-3))]), 0.002).Single();

    private static Observation Bent(bool across)
    {
        BendingReading test = new(across, new(across ? 0.16 : 0.4, 2e-3), 0, new(0.5, 1e-3), new(1, 0.02), 0);
        return Observations.Of(test with { Deflection = test.Deflection with { Value = Observations.Deflection(Truth, test) } }, 0.002).Single();
    }

    // Box and Muller's.
    private sealed class Normals(ulong seed)
    {
        private readonly Xorshift _random = DesignSample.Random(seed);

        internal double Next() => Math.Sqrt(-2 * Math.Log(Math.Max(_random.Next(), 1e-300))) * Math.Cos(2 * Math.PI * _random.Next());
    }
}
