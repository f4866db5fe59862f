using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Identification;

/// <summary>What is known of a piece before the fit.</summary>
/// <param name="Start">At the medians.</param>
/// <param name="Inputs">All that is uncertain about it.</param>
/// <param name="Properties">What is wanted.</param>
/// <param name="Sizes">Relative standard deviations of length and width, together.</param>
public sealed record PieceBefore(Sample Start, IReadOnlyList<InputShift<Sample>> Inputs, IReadOnlyList<SampleProperty> Properties, double Sizes);

/// <summary>A property before and after the readings.</summary>
/// <param name="Property">Which.</param>
/// <param name="Table">What the table says.</param>
/// <param name="Found">What the readings say.</param>
public sealed record PropertyFound(SampleProperty Property, Estimate Table, Estimate Found);

/// <summary>A reading after the fit.</summary>
/// <param name="Observation">The reading.</param>
/// <param name="Expected">What the piece as found would give, SI; nothing for a tone that is none of its modes.</param>
/// <param name="Misfit">Difference in standard deviations.</param>
/// <param name="Lines">Nodal lines of a tone's mode.</param>
/// <param name="Narrows">The property that it tells most about.</param>
/// <param name="WithoutIt">Spread of that property had it not been read.</param>
/// <param name="Mode">Number of a tone's mode, from 0.</param>
public sealed record ReadingUsed(
    Observation Observation, double? Expected, double Misfit, (int Along, int Across)? Lines, PropertyFound? Narrows, double WithoutIt, int? Mode = null);

/// <summary>Another way of taking the tones for modes that fits nearly as well.</summary>
/// <param name="Lines">Nodal lines of each tone's mode; nothing where it is none.</param>
/// <param name="Likelihood">Against the one that was taken.</param>
public sealed record OtherWay(IReadOnlyList<(int Along, int Across)?> Lines, double Likelihood);

/// <summary>A reading that could be taken next.</summary>
/// <param name="What">In the maker's words.</param>
/// <param name="Expected">What it should be about, SI.</param>
/// <param name="Quantity">mass, deflection, frequency.</param>
/// <param name="Narrows">The property that it would narrow most.</param>
/// <param name="From">Its spread now.</param>
/// <param name="To">Its spread then.</param>
public sealed record NextReading(string What, double Expected, string Quantity, SampleProperty Narrows, double From, double To);

/// <summary>A mode of the piece as found.</summary>
/// <param name="Mode">The mode.</param>
/// <param name="Spread">Standard deviation of the logarithm of its frequency.</param>
/// <param name="Untapped">The frequency of the likest mode by all that was known without the tones.</param>
public sealed record ModeFound(TapMode Mode, double Spread, Estimate Untapped);

/// <summary>What the readings say of a piece.</summary>
/// <param name="Best">The piece at its likeliest values.</param>
/// <param name="Properties">What is wanted of it.</param>
/// <param name="Readings">Each reading against it.</param>
/// <param name="OtherWays">Other ways of taking the tones.</param>
/// <param name="Chance">How often readings of a piece as modelled would fit no better.</param>
/// <param name="Next">What to read next, most telling first.</param>
/// <param name="Modes">Modes of the piece as found, in air, and what they were thought to be; none where no tones were read.</param>
/// <param name="Losses">Loss factors of a wood whose tones came with theirs.</param>
public sealed record Identified(
    Sample Best, IReadOnlyList<PropertyFound> Properties, IReadOnlyList<ReadingUsed> Readings, IReadOnlyList<OtherWay> OtherWays, double Chance,
    IReadOnlyList<NextReading> Next, IReadOnlyList<ModeFound> Modes, IReadOnlyList<LossFound> Losses)
{
    /// <summary>The wood of a plate of wood as found, for boards: moduli as a tap finds them, at the tables' moisture content.</summary>
    /// <returns>The wood with what is left of its spreads; nothing of a sandwich.</returns>
    public Wood? Wood() => Best is WoodSample { Wood: var wood } ? WithSpreads(wood, symbol => Properties.First(p => p.Property.Symbol == symbol).Found.Spread) : null;

    /// <summary>A wood at its medians with what is left of its spreads.</summary>
    /// <param name="wood">At the medians.</param>
    /// <param name="spread">Of "rho", "E_L", "E_R" and "G_LR".</param>
    internal static Wood WithSpreads(Wood wood, Func<string, double> spread)
    {
        double along = spread("E_L");
        return wood with
        {
            Density = wood.Density with { Spread = spread("rho") },
            EL = wood.EL with { Spread = along },
            ErOverEl = Ratio(wood.ErOverEl, "E_R"),
            GlrOverEl = Ratio(wood.GlrOverEl, "G_LR"),
        };

        // A board's inputs take a modulus across as E_L times a ratio: the ratio keeps what the spread across has beyond that along.
        Estimate Ratio(Estimate ratio, string symbol) => ratio with { Spread = Math.Sqrt(Math.Max(0, Math.Pow(spread(symbol), 2) - along * along)) };
    }
}

/// <summary>From readings to properties: what the table says, made narrower by what was weighed, bent and tapped.</summary>
/// <remarks>
/// All uncertain inputs are shifts with a normal spread before the readings; readings are compared in the logarithm. The likeliest shifts are found by
/// <see cref="LogFit"/>, tones through the modes of the free plate in air with their exact derivatives. One parameter more stands for what all tones are off by alike. Which mode
/// each tone is, is settled by <see cref="ToneFits"/>: the likeliest way is taken, and intervals are widened by what the others say.
/// </remarks>
public static class Identify
{
    private const int BeyondTones = 5, FewestModes = 8, MostModes = 20, NextShown = 4, OthersShown = 3;
    private const double LeastLikely = 0.02;

    /// <summary>Fits.</summary>
    /// <param name="before">What is known before.</param>
    /// <param name="readings">The readings.</param>
    /// <param name="candidates">Further readings that could be taken, with the spread that they would have.</param>
    /// <param name="known">A plate of the same size from an earlier fit of as many tones: what it has learnt is made use of, and more is learnt.</param>
    /// <returns>What is known then.</returns>
    /// <exception cref="InvalidOperationException">The plate's modes cannot be found: a value is out of all reason.</exception>
    public static Identified Run(PieceBefore before, IReadOnlyList<Observation> readings, IReadOnlyList<Observation>? candidates = null, TappedPlate? known = null)
    {
        Observation[] plain = [.. readings.Where(r => r.Tone is null)], tones = [.. readings.Where(r => r.Tone is not null).OrderBy(r => r.Value)];
        var model = new PieceModel(before, plain);
        FitResult without = LogFit.Fit(new double[model.Count], model.Precision, Logs(plain), Spreads(plain), model.WithoutTones);
        if (tones.Length == 0) { return Result(before, model, null, tones, without, [new([], without, [], 0)], candidates ?? []); }
        TappedPlate plate = known ?? PlateFor(model.At(without.Parameters), tones.Length);
        IReadOnlyList<FittedWay> ways = [.. ToneFits.Of(model, plate, tones, without).Select(w => w with { Modes = plate.Counted(w.Modes) })];
        return Result(before, model, plate, tones, without, ways, candidates ?? []);
    }

    /// <summary>The plate of a piece for a number of tones.</summary>
    /// <param name="sample">The piece, about as it will be found.</param>
    /// <param name="tones">How many tones there are.</param>
    public static TappedPlate PlateFor(Sample sample, int tones) => sample.Plate(Math.Clamp(tones + BeyondTones, FewestModes, MostModes));

    private static Identified Result(
        PieceBefore before, PieceModel model, TappedPlate? plate, Observation[] tones, FitResult untapped, IReadOnlyList<FittedWay> ways, IReadOnlyList<Observation> candidates)
    {
        (IReadOnlyList<int> way, FitResult fit, IReadOnlyList<TapMode> modes, _) = ways[0];
        Sample best = model.At(fit.Parameters);
        Func<Sample, double>[] figures = [.. before.Properties.Select(p => p.Of)];
        double[,] slopes = model.Slopes(fit.Parameters, figures), slopesBefore = model.Slopes(new double[model.Count], figures);
        Vector<double>[] gradients = [.. figures.Select((_, i) => Row(slopes, i))];
        Matrix<double> covarianceBefore = model.Precision.Inverse();
        PropertyFound[] alone = [.. before.Properties.Select((p, i) => new PropertyFound(
            p, new(p.Of(before.Start), Spread(p, Row(slopesBefore, i), covarianceBefore)), new(p.Of(best), Spread(p, gradients[i], fit.Covariance))))];
        Observation[] heard = [.. model.Plain, .. tones.Where((_, t) => way[t] >= 0)];
        int[] modeOf = [.. model.Plain.Select(_ => -1), .. way.Where(m => m >= 0)];
        var used = new List<ReadingUsed>();
        for (int i = 0; i < heard.Length; i++)
        {
            Matrix<double> without = Updated(fit.Covariance, Row(fit.Slopes, i), -heard[i].Spread * heard[i].Spread);
            int most = Enumerable.Range(0, alone.Length).MaxBy(p => Spread(alone[p].Property, gradients[p], without) / alone[p].Found.Spread);
            double expected = Math.Exp(fit.Values[i]);
            int? mode = modeOf[i] < 0 ? null : modeOf[i];
            used.Add(new(heard[i], expected, fit.Misfits[i], mode is { } m ? modes[m].Lines : null, alone[most], Spread(alone[most].Property, gradients[most], without), mode));
        }

        used.AddRange(tones.Where((_, t) => way[t] < 0).Select(t => new ReadingUsed(t, null, 0, null, null, 0)));
        double pull = Vector<double>.Build.Dense(fit.Parameters) * (model.Precision * Vector<double>.Build.Dense(fit.Parameters));
        double chance = heard.Length == 0 ? 1 : 1 - ChiSquared.CDF(heard.Length, fit.SumOfSquares + pull);
        IReadOnlyList<LossFound> losses = best is not WoodSample wood ? [] : Damping.Of(
            wood.Wood, [.. tones.Select((t, i) => (t.Tone!.Loss, Mode: way[i])).Where(t => t.Loss is not null && t.Mode >= 0).Select(t => (t.Loss!.Value, modes[t.Mode].Mode))]);
        OtherWay[] others = [.. ways.Skip(1).Select(w => new OtherWay([.. w.Numbers.Select(m => m < 0 ? null : w.Modes[m].Lines)], Math.Exp((ways[0].Cost - w.Cost) / 2)))
            .Where(w => w.Likelihood > LeastLikely).Take(OthersShown)];
        double[,] ofModes = plate is null ? new double[0, 0] : model.Slopes(plate, fit.Parameters, modes);
        return new(
            best, Together(model, alone, ways), used, others, chance, Next(model, fit, best, alone, gradients, modes, ofModes, way, candidates),
            plate is null ? [] : Found(model, plate, fit, modes, ofModes, untapped), losses);
    }

    // Where other ways are nearly as likely, the interval about the likeliest value that holds as much of what all of them say as a normal spread would.
    private static PropertyFound[] Together(PieceModel model, PropertyFound[] alone, IReadOnlyList<FittedWay> ways)
    {
        double[] weights = [.. ways.Select(w => Math.Exp((ways[0].Cost - w.Cost) / 2))];
        if (ways.Count == 1) { return alone; }
        Func<Sample, double>[] figures = [.. alone.Select(a => a.Property.Of)];
        (double[] Logs, double[] Spreads)[] says = [.. ways.Select(w =>
        {
            Sample s = model.At(w.Fit.Parameters);
            double[,] slopes = model.Slopes(w.Fit.Parameters, figures);
            return ((double[])[.. figures.Select(f => Math.Log(f(s)))], (double[])[.. figures.Select((_, i) => Spread(alone[i].Property, Row(slopes, i), w.Fit.Covariance))]);
        })];
        return [.. alone.Select((a, i) =>
        {
            (double Off, double Spread, double Weight)[] parts = [.. says.Select((s, w) => (s.Logs[i] - says[0].Logs[i], s.Spreads[i], weights[w] / weights.Sum()))];
            return a with { Found = a.Found with { Spread = Mixture.SpreadAbout(parts) } };
        })];
    }

    private static NextReading[] Next(
        PieceModel model, FitResult fit, Sample best, PropertyFound[] found, Vector<double>[] gradients,
        IReadOnlyList<TapMode> modes, double[,] slopes, IReadOnlyList<int> way, IReadOnlyList<Observation> candidates)
    {
        var all = new List<(string What, double Expected, string Quantity, Vector<double> Slope, double Spread)>();
        for (int m = 0; m < modes.Count; m++)
        {
            // On a board few shapes have plain lines; on a rectangle one without is a pair that has mixed, and hard to tell.
            if (way.Contains(m) || (modes[m].Lines is null && best is not BoardSample)) { continue; }
            string what = modes[m].Lines is { } lines ? $"the tone with {lines.Along} × {lines.Across} nodal lines" : $"the tone of mode {m + 1}";
            all.Add((what, modes[m].Frequency, "frequency", Row(slopes, m), Observations.ToneScatter));
        }

        double[,] ofCandidates = model.Slopes(fit.Parameters, [.. candidates.Select(c => c.Of!)]);
        all.AddRange(candidates.Select((c, i) => (c.Name, c.Of!(best), c.Quantity, Row(ofCandidates, i), c.Spread)));
        return [.. all.Select(a =>
        {
            Matrix<double> then = Updated(fit.Covariance, a.Slope, a.Spread * a.Spread);
            int most = Enumerable.Range(0, found.Length).MinBy(p => Spread(found[p].Property, gradients[p], then) / found[p].Found.Spread);
            return new NextReading(a.What, a.Expected, a.Quantity, found[most].Property, found[most].Found.Spread, Spread(found[most].Property, gradients[most], then));
        }).OrderBy(n => n.To / n.From).Take(NextShown)];
    }

    // The modes with their spreads, and what they were thought to be without the tones.
    private static ModeFound[] Found(PieceModel model, TappedPlate plate, FitResult fit, IReadOnlyList<TapMode> modes, double[,] slopes, FitResult untapped)
    {
        Sample before = model.At(untapped.Parameters);
        IReadOnlyList<TapMode> old = plate.Solve(before);
        double[,] oldSlopes = model.Slopes(plate, untapped.Parameters, old);
        return [.. modes.Select((mode, m) =>
        {
            int like = plate.MostLike(mode.Shape, old);
            return new ModeFound(mode, Own(slopes, m, fit.Covariance), new(old[like].Frequency, Own(oldSlopes, like, untapped.Covariance)));
        })];

        // What all tones are off by alike is none of the modes' own.
        static double Own(double[,] slopes, int mode, Matrix<double> covariance)
        {
            Vector<double> slope = Row(slopes, mode);
            slope[slope.Count - 1] = 0;
            return Spread(slope, covariance);
        }
    }

    // Covariance with one more reading of that variance; with less by a negative one.
    private static Matrix<double> Updated(Matrix<double> covariance, Vector<double> slope, double variance)
    {
        Vector<double> gain = covariance * slope;
        double by = slope * gain + variance;
        // All that is known of a direction comes from that reading: without it nothing would be.
        return Math.Abs(by) < 1e-12 * Math.Abs(variance) ? covariance * 1e6 : covariance - gain.OuterProduct(gain) / by;
    }

    private static double Spread(SampleProperty of, Vector<double> gradient, Matrix<double> covariance) => Observations.Root(of.Beside, Spread(gradient, covariance));

    private static double Spread(Vector<double> gradient, Matrix<double> covariance) => Math.Sqrt(Math.Max(0, gradient * (covariance * gradient)));

    internal static Vector<double> Row(double[,] a, int row) => Vector<double>.Build.Dense(a.GetLength(1), j => a[row, j]);

    internal static double[] Logs(Observation[] readings) => [.. readings.Select(r => Math.Log(r.Value))];

    internal static double[] Spreads(Observation[] readings) => [.. readings.Select(r => r.Spread)];
}
