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
    public Wood? Wood()
    {
        if (Best is not WoodSample { Wood: var wood }) { return null; }
        double along = Spread("E_L");
        return wood with
        {
            Density = wood.Density with { Spread = Spread("rho") },
            EL = wood.EL with { Spread = along },
            ErOverEl = Ratio(wood.ErOverEl, "E_R"),
            GlrOverEl = Ratio(wood.GlrOverEl, "G_LR"),
        };

        double Spread(string symbol) => Properties.First(p => p.Property.Symbol == symbol).Found.Spread;

        // A board's inputs take a modulus across as E_L times a ratio: the ratio keeps what the spread across has beyond that along.
        Estimate Ratio(Estimate ratio, string symbol) => ratio with { Spread = Math.Sqrt(Math.Max(0, Math.Pow(Spread(symbol), 2) - along * along)) };
    }
}


/// <summary>From readings to properties: what the table says, made narrower by what was weighed, bent and tapped.</summary>
/// <remarks>
/// All uncertain inputs are shifts with a normal spread before the readings; readings are compared in the logarithm. The likeliest shifts are found by
/// <see cref="LogFit"/>, tones through the modes of the free plate in air with their exact derivatives. One parameter more stands for what all tones are off by alike. Which mode
/// each tone is, is settled by <see cref="ToneAssignment"/> about the plate as known, and again about the plate as found, until it stays.
/// </remarks>
public static class Identify
{
    private const double Step = 1e-4;
    private const int BeyondTones = 5, FewestModes = 8, MostModes = 20, Rounds = 4, Ways = 4, NextShown = 4;
    private const double LeastLikely = 0.02, Farthest = 5;
    // A hundredth of a standard deviation more or less says nothing.
    private const double ToneTolerance = 1e-2;

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
        int inputs = before.Inputs.Count;
        double[] none = new double[inputs + 1];
        double bias = Observations.Root(Observations.ToneBias, before.Sizes);
        double[] spreads = [.. before.Inputs.Select(i => i.Spread), bias];
        // What has no spread stays where it is.
        Matrix<double> precision = Matrix<double>.Build.DenseDiagonal(inputs + 1, inputs + 1, i => 1 / Math.Pow(Math.Max(spreads[i], 1e-9), 2));
        FitResult fit = LogFit.Fit(none, precision, Logs(plain), Spreads(plain), p => Plain(before, plain, p));
        TappedPlate? plate = null;
        IReadOnlyList<TapMode> modes = [];
        IReadOnlyList<(TapMode Mode, double Spread)> untapped = [];
        IReadOnlyList<Assignment> ways = [new([], 0)];
        if (tones.Length > 0)
        {
            Sample now = At(before, fit.Parameters);
            plate = known ?? PlateFor(now, tones.Length);
            modes = known is null ? plate.First : plate.Counted(now);
            untapped = WithSpreads(modes, Slopes(before, plate, fit.Parameters, now, modes), fit.Covariance);
            for (int round = 1; ; round++)
            {
                IReadOnlyList<Assignment> found = Assign(before, plate, fit, now, modes, tones, plain, precision);
                // The same modes as before, by shape: the fit stands.
                if (round > 1 && found[0].Modes.SequenceEqual(ways[0].Modes)) { ways = found; break; }
                (fit, now, modes, Assignment way) = Fitted(before, plain, tones, plate, modes, found[0], precision, fit);
                ways = [way, .. found.Skip(1)];
                if (round == Rounds) { break; }
            }

            // What still lies far off after the last fit is none of these modes: better no reading than a wrong one.
            for (int again = 0; again < Rounds && Far(fit, plain, tones, ways[0]) is { } left; again++)
            {
                (fit, now, modes, Assignment way) = Fitted(before, plain, tones, plate, modes, left, precision, fit);
                ways = [way, .. ways.Skip(1)];
            }
        }

        return Result(before, plain, tones, fit, precision, plate, modes, untapped, ways, candidates ?? []);
    }

    /// <summary>The plate of a piece for a number of tones.</summary>
    /// <param name="sample">The piece, about as it will be found.</param>
    /// <param name="tones">How many tones there are.</param>
    public static TappedPlate PlateFor(Sample sample, int tones) => sample.Plate(Math.Clamp(tones + BeyondTones, FewestModes, MostModes));

    private static (FitResult Fit, Sample Now, IReadOnlyList<TapMode> Modes, Assignment Way) Fitted(
        PieceBefore before, Observation[] plain, Observation[] tones, TappedPlate plate, IReadOnlyList<TapMode> modes, Assignment way, Matrix<double> precision, FitResult start)
    {
        Observation[] heard = [.. plain, .. tones.Where((_, t) => way.Modes[t] >= 0)];
        double[][] shapes = [.. way.Modes.Where(m => m >= 0).Select(m => modes[m].Shape)];
        FitResult fit = start;
        Sample now;
        int again = 0;
        do
        {
            fit = LogFit.Fit(
                new double[start.Parameters.Length], precision, Logs(heard), Spreads(heard), p => WithTones(before, plain, plate, shapes, p), fit.Parameters, ToneTolerance);
            now = At(before, fit.Parameters);
        }
        while (!plate.Prove(now) && ++again < Rounds);
        IReadOnlyList<TapMode> then = plate.Counted(now);
        return (fit, now, then, Renumbered(plate, way, modes, then));
    }

    // The assignment without the tones that lie far from their modes; nothing where there are none.
    private static Assignment? Far(FitResult fit, Observation[] plain, Observation[] tones, Assignment way)
    {
        int at = plain.Length;
        int[] modes = [.. way.Modes.Select(m => m >= 0 && Math.Abs(fit.Misfits[at++]) > Farthest ? -1 : m)];
        return modes.SequenceEqual(way.Modes) || tones.Length == 0 ? null : way with { Modes = modes };
    }

    // Mode numbers follow the shapes.
    private static Assignment Renumbered(TappedPlate plate, Assignment way, IReadOnlyList<TapMode> old, IReadOnlyList<TapMode> modes)
    {
        var taken = new List<int>();
        foreach (int m in way.Modes) { taken.Add(m < 0 ? -1 : plate.MostLike(old[m].Shape, modes, taken)); }
        return way with { Modes = taken };
    }

    private static IReadOnlyList<Assignment> Assign(
        PieceBefore before, TappedPlate plate, FitResult fit, Sample now, IReadOnlyList<TapMode> modes, Observation[] tones, Observation[] plain, Matrix<double> precision)
    {
        // What is known without the tones, about the parameters that the modes were found with.
        ModelValues values = Plain(before, plain, fit.Parameters);
        Vector<double> at = Vector<double>.Build.Dense(fit.Parameters), pull = precision * -at;
        Matrix<double> normal = precision.Clone();
        for (int i = 0; i < plain.Length; i++)
        {
            double weight = 1 / (plain[i].Spread * plain[i].Spread);
            Vector<double> g = Row(values.Slopes, i);
            normal += weight * g.OuterProduct(g);
            pull += g * (weight * (Math.Log(plain[i].Value) - values.Values[i]));
        }

        Matrix<double> covariance = normal.Inverse();
        double[,] slopes = Slopes(before, plate, fit.Parameters, now, modes);
        double offset = fit.Parameters[^1];
        return ToneAssignment.Likeliest(
            Logs(tones), Spreads(tones), (t, m) => tones[t].Tone is not { Along: { } along, Across: { } across } || modes[m].Lines == (along, across),
            [.. modes.Select(m => Math.Log(m.Frequency) + offset)], slopes, covariance * pull, covariance, Ways);
    }

    private static Identified Result(
        PieceBefore before, Observation[] plain, Observation[] tones, FitResult fit, Matrix<double> precision,
        TappedPlate? plate, IReadOnlyList<TapMode> modes, IReadOnlyList<(TapMode Mode, double Spread)> untapped, IReadOnlyList<Assignment> ways, IReadOnlyList<Observation> candidates)
    {
        Sample best = At(before, fit.Parameters);
        Vector<double>[] gradients = [.. before.Properties.Select(p => Gradient(before, fit.Parameters, s => Math.Log(p.Of(s))))];
        Vector<double>[] gradientsBefore = [.. before.Properties.Select(p => Gradient(before, new double[fit.Parameters.Length], s => Math.Log(p.Of(s))))];
        Matrix<double> covarianceBefore = precision.Inverse();
        PropertyFound[] found = [.. before.Properties.Select((p, i) => new PropertyFound(
            p, new(p.Of(before.Start), Spread(gradientsBefore[i], covarianceBefore)), new(p.Of(best), Spread(gradients[i], fit.Covariance))))];
        Observation[] heard = [.. plain, .. tones.Where((_, t) => ways[0].Modes[t] >= 0)];
        int[] modeOf = [.. plain.Select(_ => -1), .. ways[0].Modes.Where(m => m >= 0)];
        var used = new List<ReadingUsed>();
        for (int i = 0; i < heard.Length; i++)
        {
            Matrix<double> without = Updated(fit.Covariance, Row(fit.Slopes, i), -heard[i].Spread * heard[i].Spread);
            int most = Enumerable.Range(0, found.Length).MaxBy(p => Spread(gradients[p], without) / found[p].Found.Spread);
            double expected = Math.Exp(fit.Values[i]);
            int? mode = modeOf[i] < 0 ? null : modeOf[i];
            used.Add(new(heard[i], expected, fit.Misfits[i], mode is { } m ? modes[m].Lines : null, found[most], Spread(gradients[most], without), mode));
        }

        used.AddRange(tones.Where((_, t) => ways[0].Modes[t] < 0).Select(t => new ReadingUsed(t, null, 0, null, null, 0)));
        double pull = Vector<double>.Build.Dense(fit.Parameters) * (precision * Vector<double>.Build.Dense(fit.Parameters));
        double chance = heard.Length == 0 ? 1 : 1 - ChiSquared.CDF(heard.Length, fit.SumOfSquares + pull);
        IReadOnlyList<LossFound> losses = best is not WoodSample wood ? [] : Damping.Of(
            wood.Wood, [.. tones.Select((t, i) => (t.Tone!.Loss, Mode: ways[0].Modes[i])).Where(t => t.Loss is not null && t.Mode >= 0).Select(t => (t.Loss!.Value, modes[t.Mode].Mode))]);
        OtherWay[] others = [.. ways.Skip(1).Select(w => new OtherWay([.. w.Modes.Select(m => m < 0 ? null : modes[Math.Min(m, modes.Count - 1)].Lines)], Math.Exp((ways[0].Cost - w.Cost) / 2)))
            .Where(w => w.Likelihood > LeastLikely)];
        double[,] slopes = plate is null ? new double[0, 0] : Slopes(before, plate, fit.Parameters, best, modes);
        return new(best, found, used, others, chance, Next(before, fit, best, found, gradients, modes, slopes, ways[0], candidates), Found(plate, modes, slopes, fit.Covariance, untapped), losses);
    }

    private static NextReading[] Next(
        PieceBefore before, FitResult fit, Sample best, PropertyFound[] found, Vector<double>[] gradients,
        IReadOnlyList<TapMode> modes, double[,] slopes, Assignment way, IReadOnlyList<Observation> candidates)
    {
        var all = new List<(string What, double Expected, string Quantity, Vector<double> Slope, double Spread)>();
        for (int m = 0; m < modes.Count; m++)
        {
            // On a board few shapes have plain lines; on a rectangle one without is a pair that has mixed, and hard to tell.
            if (way.Modes.Contains(m) || (modes[m].Lines is null && best is not BoardSample)) { continue; }
            string what = modes[m].Lines is { } lines ? $"the tone with {lines.Along} × {lines.Across} nodal lines" : $"the tone of mode {m + 1}";
            all.Add((what, modes[m].Frequency, "frequency", Row(slopes, m), Observations.ToneScatter));
        }

        foreach (Observation c in candidates)
        {
            all.Add((c.Name, c.Of!(best), c.Quantity, Gradient(before, fit.Parameters, s => Math.Log(c.Of!(s))), c.Spread));
        }

        return [.. all.Select(a =>
        {
            Matrix<double> then = Updated(fit.Covariance, a.Slope, a.Spread * a.Spread);
            int most = Enumerable.Range(0, found.Length).MinBy(p => Spread(gradients[p], then) / found[p].Found.Spread);
            return new NextReading(a.What, a.Expected, a.Quantity, found[most].Property, found[most].Found.Spread, Spread(gradients[most], then));
        }).OrderBy(n => n.To / n.From).Take(NextShown)];
    }

    // What all tones are off by alike is none of the modes' own.
    private static (TapMode Mode, double Spread)[] WithSpreads(IReadOnlyList<TapMode> modes, double[,] slopes, Matrix<double> covariance) => [.. modes.Select((mode, m) =>
    {
        Vector<double> slope = Row(slopes, m);
        slope[slope.Count - 1] = 0;
        return (mode, Spread(slope, covariance));
    })];

    private static ModeFound[] Found(
        TappedPlate? plate, IReadOnlyList<TapMode> modes, double[,] slopes, Matrix<double> covariance, IReadOnlyList<(TapMode Mode, double Spread)> untapped)
    {
        if (plate is null) { return []; }
        TapMode[] old = [.. untapped.Select(u => u.Mode)];
        return [.. WithSpreads(modes, slopes, covariance).Select(m =>
        {
            (TapMode like, double spread) = untapped[plate.MostLike(m.Mode.Shape, old)];
            return new ModeFound(m.Mode, m.Spread, new(like.Frequency, spread));
        })];
    }

    // Covariance with one more reading of that variance; with less by a negative one.
    private static Matrix<double> Updated(Matrix<double> covariance, Vector<double> slope, double variance)
    {
        Vector<double> gain = covariance * slope;
        double by = slope * gain + variance;
        // All that is known of a direction comes from that reading: without it nothing would be.
        return Math.Abs(by) < 1e-12 * Math.Abs(variance) ? covariance * 1e6 : covariance - gain.OuterProduct(gain) / by;
    }

    private static double Spread(Vector<double> gradient, Matrix<double> covariance) => Math.Sqrt(Math.Max(0, gradient * (covariance * gradient)));

    private static Vector<double> Row(double[,] a, int row) => Vector<double>.Build.Dense(a.GetLength(1), j => a[row, j]);

    private static Sample At(PieceBefore before, double[] p)
    {
        Sample s = before.Start;
        for (int i = 0; i < before.Inputs.Count; i++) { s = before.Inputs[i].Shift(s, p[i]); }
        return s;
    }

    private static Sample Shifted(PieceBefore before, double[] p, int input, double by) => At(before, [.. p.Select((v, i) => i == input ? v + by : v)]);

    // The last parameter shifts tones alone.
    private static Vector<double> Gradient(PieceBefore before, double[] p, Func<Sample, double> log) => Vector<double>.Build.Dense(
        p.Length, j => j == before.Inputs.Count || before.Inputs[j].Spread == 0 ? 0 : (log(Shifted(before, p, j, Step)) - log(Shifted(before, p, j, -Step))) / (2 * Step));

    private static ModelValues Plain(PieceBefore before, Observation[] plain, double[] p)
    {
        Sample s = At(before, p);
        double[,] slopes = new double[plain.Length, p.Length];
        for (int i = 0; i < plain.Length; i++)
        {
            int reading = i;
            Vector<double> gradient = Gradient(before, p, x => Math.Log(plain[reading].Of!(x)));
            for (int j = 0; j < p.Length; j++) { slopes[i, j] = gradient[j]; }
        }

        return new([.. plain.Select(o => Math.Log(o.Of!(s)))], slopes);
    }

    private static ModelValues WithTones(PieceBefore before, Observation[] plain, TappedPlate plate, double[][] shapes, double[] p)
    {
        ModelValues first = Plain(before, plain, p);
        Sample s = At(before, p);
        IReadOnlyList<TapMode> all = plate.Solve(s);
        var taken = new List<int>();
        foreach (double[] shape in shapes) { taken.Add(plate.MostLike(shape, all, taken)); }
        TapMode[] modes = [.. taken.Select(m => all[m])];
        double[,] ofTones = Slopes(before, plate, p, s, modes), slopes = new double[plain.Length + modes.Length, p.Length];
        Array.Copy(first.Slopes, slopes, first.Slopes.Length);
        Array.Copy(ofTones, 0, slopes, first.Slopes.Length, ofTones.Length);
        return new([.. first.Values, .. modes.Select(m => Math.Log(m.Frequency) + p[^1])], slopes);
    }

    private static double[,] Slopes(PieceBefore before, TappedPlate plate, double[] p, Sample s, IReadOnlyList<TapMode> modes)
    {
        double[,] slopes = new double[modes.Count, p.Length];
        for (int j = 0; j < before.Inputs.Count; j++)
        {
            if (before.Inputs[j].Spread == 0) { continue; }
            double[] more = plate.Changes(modes, s, Shifted(before, p, j, Step)), less = plate.Changes(modes, s, Shifted(before, p, j, -Step));
            for (int m = 0; m < modes.Count; m++) { slopes[m, j] = (more[m] - less[m]) / (2 * Step); }
        }

        for (int m = 0; m < modes.Count; m++) { slopes[m, p.Length - 1] = 1; }
        return slopes;
    }

    private static double[] Logs(Observation[] readings) => [.. readings.Select(r => Math.Log(r.Value))];

    private static double[] Spreads(Observation[] readings) => [.. readings.Select(r => r.Spread)];
}
