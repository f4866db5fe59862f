using SandwichMech.Core.Identification;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Building;

/// <summary>A strip to be cut from a blank's margin, and the tools at hand.</summary>
/// <param name="Across">Whether it runs across the grain.</param>
/// <param name="Length">m.</param>
/// <param name="Width">m.</param>
/// <param name="GaugeStep">What one step of the dial gauge is, m.</param>
/// <param name="Heaviest">The heaviest weight that can be laid on, kg.</param>
public sealed record StripWishes(bool Across, double Length, double Width, double GaugeStep, double Heaviest);

/// <summary>How well the readings of a bending test are taken, standard deviations.</summary>
/// <param name="Span">m.</param>
/// <param name="Load">kg.</param>
/// <param name="Deflection">m.</param>
/// <param name="Thickness">Of the callipers, m.</param>
/// <param name="GaugeSpring">Stiffness of the dial gauge's spring, N/m: it holds up what sinks.</param>
public sealed record TestReadings(double Span, double Load, double Deflection, double Thickness, double GaugeSpring);

/// <summary>One bending test of the plan.</summary>
/// <param name="Reading">The test, with the deflection to expect.</param>
/// <param name="Deflection">To expect, m, by what is known of the materials.</param>
/// <param name="ShearShare">Share of it that is shear.</param>
/// <param name="SkinStress">In the thinner skin, Pa.</param>
/// <param name="CoreStress">Shear stress in the core, Pa.</param>
/// <param name="Steps">Of the gauge.</param>
public sealed record StripTest(BendingReading Reading, Estimate Deflection, double ShearShare, double SkinStress, double CoreStress, double Steps)
{
    /// <summary>Whether the load lies on two lines, a quarter of the span from the supports.</summary>
    public bool IsOnTwoLines => Reading.LoadSpan > 0;
}

/// <summary>Some of the tests together, and what is known then.</summary>
/// <param name="Name">In the maker's words.</param>
/// <param name="Tests">Numbers of the tests, from 0.</param>
/// <param name="CoreShear">Core shear modulus along the strip.</param>
/// <param name="SkinStiffness">Young's modulus of the skins along the strip, their mean by thickness, as a tap finds it.</param>
public sealed record StripScheme(string Name, IReadOnlyList<int> Tests, PropertyFound CoreShear, PropertyFound SkinStiffness);

/// <summary>The plan.</summary>
/// <param name="Strip">The strip.</param>
/// <param name="Thickness">m.</param>
/// <param name="Mass">kg.</param>
/// <param name="Tests">Short span and long, each with one line of load and two.</param>
/// <param name="Schemes">Ways to go about it, the simplest first.</param>
public sealed record StripPlan(SandwichSample Strip, double Thickness, double Mass, IReadOnlyList<StripTest> Tests, IReadOnlyList<StripScheme> Schemes);

/// <summary>Plans the bending of a sandwich strip, so that it tells the core's shear modulus from the skins' stiffness.</summary>
/// <remarks>
/// Deflection is bending, which goes with the cube of the span, and shear, which goes with the span (ASTM D7250/D7250M): a short span and a long one tell them apart, and
/// so, less well, do one line of load and two at a quarter of the span. Stresses: σ = PS/(2t(d + c)b) under one line and P(S − L)/(2t(d + c)b) under two, τ = P/((d + c)b)
/// (ASTM C393/C393M), d the strip's thickness, c the core's, t the thinner skin's. The short span is, of those that the gauge can read, the one that narrows the core's modulus most, by the fit that
/// `measure` makes of the readings too (<see cref="Identify"/>), at the readings that are expected.
/// </remarks>
public static class TestStrip
{
    /// <summary>Fewest steps of the gauge that a deflection should have.</summary>
    public const double FewestSteps = 50;
    /// <summary>Span over thickness below which supports press into the skins and the skins bend on their own. Judgement, no source.</summary>
    public const double ShortInThickness = 15;
    /// <summary>Stress to stay below in a skin along the grain, Pa: a seventh of what spruce breaks at in bending. Judgement, no source.</summary>
    public const double SkinAlong = 10e6;
    /// <summary>Across the grain, Pa. Judgement, no source.</summary>
    public const double SkinAcross = 1e6;
    /// <summary>Shear stress to stay below in a core, Pa: about half of what the lightest honeycombs bear across the ribbon (from memory). Judgement, no source.</summary>
    public const double CoreShear = 0.15e6;

    // Overhang at each support, m; the shortest span in thicknesses; a long span beyond which shear hardly shows, in thicknesses.
    private const double Overhang = 10e-3, ShortestInThickness = 10, LongInThickness = 60;
    // Spans go by 5 mm; about so many short ones are tried. Steps are aimed for with a reserve; a deflection stays below this part of its span.
    private const double SpanStep = 5e-3, AimedSteps = 60, MostOfSpan = 1.0 / 40;
    private const int SpansTried = 14;
    private static readonly double[] Weights = [0.05, 0.1, 0.2, 0.3, 0.5, 0.7, 1, 1.5, 2, 2.5, 3, 4, 5, 7, 10, 15, 20];

    /// <summary>Length that lets bending rule at its long span, m.</summary>
    /// <param name="thickness">Of the sandwich, m.</param>
    public static double GoodLength(double thickness) => Down(LongInThickness * thickness) + 2 * Overhang;

    /// <summary>Shortest strip that can be planned, m.</summary>
    /// <param name="thickness">Of the sandwich, m.</param>
    public static double LeastLength(double thickness) => 2 * (ShortestInThickness * thickness + SpanStep) + 2 * Overhang;

    /// <summary>Plans.</summary>
    /// <param name="board">The board.</param>
    /// <param name="wishes">The strip.</param>
    /// <param name="readings">How well tests are read.</param>
    /// <returns>The plan.</returns>
    /// <exception cref="ArgumentException">The strip is shorter than <see cref="LeastLength"/>.</exception>
    public static StripPlan Plan(Board board, StripWishes wishes, TestReadings readings)
    {
        double thickness = board.Laminate().Thickness;
        if (wishes.Length < LeastLength(thickness) * (1 - 1e-9)) { throw new ArgumentException("The strip is too short for two spans.", nameof(wishes)); }
        Board tapped = board.Tapped();
        (double along, double across) = wishes.Across ? (wishes.Width, wishes.Length) : (wishes.Length, wishes.Width);
        PieceEvidence Evidence(IEnumerable<BendingReading> tests, double spanDeviation) => PieceEvidence.OfSandwich(tapped,
        [
            new SizeReading(false, new(along, 0)), new SizeReading(true, new(across, 0)), new ThicknessReading([thickness], readings.Thickness),
            .. tests.Select(t => t with { Span = Estimate.FromSd(t.Span.Value, spanDeviation) }),
        ]).Evidence!;
        SandwichSample strip = (SandwichSample)Evidence([], readings.Span).Before.Start;
        double shortest = Up(ShortestInThickness * thickness), longest = Down(wishes.Length - 2 * Overhang), most = Down(longest / 2);
        double step = Math.Max(SpanStep, Up((most - shortest) / SpansTried));
        BendingReading Test(double span, bool lines) => Loaded(strip, wishes, readings, span, lines ? span / 2 : 0);
        BendingReading far = Test(longest, false);
        BendingReading[] tried = [.. Enumerable.Range(0, SpansTried + 1).Select(i => shortest + i * step).Where(s => s <= most + 1e-9).Select(s => Test(s, false))];
        BendingReading[] readable = [.. tried.Where(t => t.Deflection.Value >= FewestSteps * wishes.GaugeStep)];
        BendingReading near = (readable.Length > 0 ? readable : tried).MinBy(t => Known(Evidence([t, far], readings.Span), wishes.Across)[0].Found.Spread)!;
        BendingReading[] tests = [near, Test(near.Span.Value, true), far, Test(longest, true)];
        StripScheme Scheme(string name, int[] which, double spanDeviation)
        {
            IReadOnlyList<PropertyFound> known = Known(Evidence(which.Select(i => tests[i]), spanDeviation), wishes.Across);
            return new(name, which, known[0], known[1]);
        }

        StripScheme[] schemes =
        [
            Scheme("one span, one line of load and then two", [2, 3], readings.Span),
            Scheme("two spans, load at the middle", [0, 2], readings.Span),
            Scheme("all four", [0, 1, 2, 3], readings.Span),
            Scheme(CloseSpans, [0, 2], CloseSpan / Math.Sqrt(3)),
        ];
        return new(strip, thickness, strip.Board.Laminate().ArealMass * along * across, [.. tests.Select(t => Told(strip, Evidence([t], readings.Span), t, wishes))], schemes);
    }

    /// <summary>The way with closely read spans.</summary>
    public const string CloseSpans = "two spans, each read to ± 0.2 mm";

    private const double CloseSpan = 0.2e-3;

    // Core shear modulus and skin stiffness along the strip: what the fit leaves open when every reading is as expected.
    private static IReadOnlyList<PropertyFound> Known(PieceEvidence evidence, bool across) => Identify.Run(evidence.Before with
    {
        Properties = [new("core shear modulus", "G", s => CoreShearOf(((SandwichSample)s).Board, across)), new("skin stiffness", "E", s => SkinsOf(((SandwichSample)s).Board, across))],
    }, evidence.Observed).Properties;

    /// <summary>Shear modulus of a core along a strip: G = G_r cos²θ + G_a sin²θ, θ from the strip to the ribbon.</summary>
    /// <param name="board">The board.</param>
    /// <param name="across">Whether the strip runs across.</param>
    /// <returns>Pa.</returns>
    public static double CoreShearOf(Board board, bool across)
    {
        double cos = Math.Cos(board.Core.RibbonAngle - (across ? Math.PI / 2 : 0));
        return board.Core.Material.ShearRibbon.Value * cos * cos + board.Core.Material.ShearAcross.Value * (1 - cos * cos);
    }

    private static double SkinsOf(Board b, bool across)
    {
        double Of(Skin s)
        {
            var alone = Laminate.From([Board.Of(s, "skin")]);
            return across ? alone.MembraneModulusAcross : alone.MembraneModulusAlong;
        }

        (double outer, double inner) = (b.Outer.Thickness.Value, b.Inner.Thickness.Value);
        return (Of(b.Outer) * outer + Of(b.Inner) * inner) / (outer + inner);
    }

    // The lightest round weight that gives the steps that are aimed for, as far as stresses and the theory of small deflections allow; else the heaviest that they allow.
    private static BendingReading Loaded(SandwichSample strip, StripWishes wishes, TestReadings readings, double span, double loadSpan)
    {
        BendingReading One(double load, double deflection) => new(
            wishes.Across, Estimate.FromSd(span, readings.Span), loadSpan, Estimate.FromSd(load, readings.Load), Estimate.FromSd(deflection, readings.Deflection), -readings.GaugeSpring * deflection);
        // Under its own force alone, without the gauge; the spring then holds up its part: δ = cP/(1 + ck).
        double compliance = Observations.Deflection(strip, One(1, 1) with { Plunger = 0 }) / Observations.Gravity, held = 1 + compliance * readings.GaugeSpring;
        double Deflection(double load) => compliance * load * Observations.Gravity / held;
        double[] allowed = [.. Weights.Where(w => w <= wishes.Heaviest && Deflection(w) <= MostOfSpan * span && IsGentle(strip, wishes, w, span, loadSpan)).DefaultIfEmpty(Weights[0])];
        double load = allowed.Where(w => Deflection(w) >= AimedSteps * wishes.GaugeStep).DefaultIfEmpty(allowed[^1]).First();
        return One(load, Deflection(load));
    }

    private static bool IsGentle(SandwichSample strip, StripWishes wishes, double load, double span, double loadSpan)
    {
        (double skin, double core) = Stresses(strip, wishes, load * Observations.Gravity, span, loadSpan);
        return skin <= (wishes.Across ? SkinAcross : SkinAlong) && core <= CoreShear;
    }

    /// <summary>Stress in the thinner skin and shear stress in the core (ASTM C393/C393M).</summary>
    private static (double Skin, double Core) Stresses(SandwichSample strip, StripWishes wishes, double force, double span, double loadSpan)
    {
        Board b = strip.Board;
        double both = (strip.Layup(underWeight: true).Thickness + b.Core.Height.Value) * wishes.Width, thin = Math.Min(b.Outer.Thickness.Value, b.Inner.Thickness.Value);
        return (force * (span - loadSpan) / (2 * thin * both), force / both);
    }

    private static StripTest Told(SandwichSample strip, PieceEvidence evidence, BendingReading test, StripWishes wishes)
    {
        PropertyFound deflection = Identify.Run(evidence.Before with { Properties = [new("deflection", "down", s => Observations.Deflection(s, test))] }, []).Properties[0];
        double force = test.Load.Value * Observations.Gravity + test.Plunger;
        (double skin, double core) = Stresses(strip, wishes, force, test.Span.Value, test.LoadSpan);
        BeamDeflection parts = Observations.Deflected(strip, test);
        return new(test, deflection.Table, parts.Shear / parts.Total, skin, core, deflection.Table.Value / wishes.GaugeStep);
    }

    private static double Down(double length) => Math.Floor(length / SpanStep + 1e-6) * SpanStep;

    private static double Up(double length) => Math.Ceiling(length / SpanStep - 1e-6) * SpanStep;
}
