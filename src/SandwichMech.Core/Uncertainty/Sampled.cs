using System.Runtime.ExceptionServices;
using MathNet.Numerics.Statistics;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Uncertainty;

/// <summary>What to draw.</summary>
/// <param name="Count">Subjects.</param>
/// <param name="Seed">The same seed draws the same.</param>
/// <param name="WithSources">Whether the sources are ranked too, which takes one more evaluation an input for some of the draws.</param>
/// <param name="Progress">Told the share done, 0 to 1, from any thread.</param>
public sealed record Draws(int Count, int Seed, bool WithSources = true, Action<double>? Progress = null);

/// <summary>Draws subjects from the spreads of all their inputs and evaluates a model on each (JCGM 101:2008, chapter 7).</summary>
public static class Sampled
{
    /// <summary>So many draws at most are used to rank the sources: shares are then known to some hundredths.</summary>
    public const int MostForSources = 2000;

    /// <summary>Draws and evaluates.</summary>
    /// <typeparam name="TSubject">What the model is evaluated on.</typeparam>
    /// <typeparam name="TResult">What one evaluation returns.</typeparam>
    /// <param name="subject">The subject at the medians.</param>
    /// <param name="inputs">Independent inputs; those of one name count as one source, one with no spread is passed over.</param>
    /// <param name="model">Pure function from subject to result.</param>
    /// <param name="draws">How many, and from which seed.</param>
    /// <returns>The evaluations.</returns>
    public static Sampled<TResult> Through<TSubject, TResult>(TSubject subject, IEnumerable<InputShift<TSubject>> inputs, Func<TSubject, TResult> model, Draws draws)
        where TResult : class
    {
        InputShift<TSubject>[] all = [.. inputs.Where(i => i.Spread > 0)];
        string[] names = [.. all.Select(i => i.Name).Distinct()];
        int ranked = draws.WithSources ? Math.Min(draws.Count, MostForSources) : 0, done = 0, whole = draws.Count + ranked * (1 + names.Length), part = Math.Max(1, whole / 50);
        var first = new TResult[draws.Count];
        var second = new TResult[ranked];
        TResult[][] exchanged = [.. names.Select(_ => new TResult[ranked])];
        try
        {
            Parallel.For(0, draws.Count, Draw);
        }
        catch (AggregateException e)
        {
            // What the model itself refuses reaches the caller as from one evaluation.
            ExceptionDispatchInfo.Throw(e.InnerExceptions[0]);
        }

        return new(model(subject), first, second, [.. names.Zip(exchanged, (name, e) => new ExchangedDraws<TResult>(name, e))]);

        void Draw(int j)
        {
            var chance = new NormalNumbers(draws.Seed, j);
            double[] a = [.. all.Select(_ => chance.Next())];
            first[j] = Evaluated(i => a[i]);
            if (j >= ranked) { return; }
            double[] b = [.. all.Select(_ => chance.Next())];
            second[j] = Evaluated(i => b[i]);
            for (int k = 0; k < names.Length; k++) { exchanged[k][j] = Evaluated(i => all[i].Name == names[k] ? b[i] : a[i]); }
        }

        TResult Evaluated(Func<int, double> normal)
        {
            TSubject drawn = subject;
            for (int i = 0; i < all.Length; i++) { drawn = all[i].Shift(drawn, all[i].Spread * normal(i)); }
            int now = Interlocked.Increment(ref done);
            if (now % part == 0) { draws.Progress?.Invoke((double)now / whole); }
            return model(drawn);
        }
    }
}

/// <summary>The first draws with one input taken from the second.</summary>
internal sealed record ExchangedDraws<TResult>(string Input, TResult[] Results);

/// <summary>A model evaluated on draws. Intervals are quantiles of the draws; sources are ranked by their first-order Sobol' indices, of the logarithm where a figure is positive by its nature.</summary>
/// <typeparam name="TResult">What one evaluation of the model returns.</typeparam>
public sealed class Sampled<TResult> : IPredicting<TResult> where TResult : class
{
    // A share that may as well be chance is none.
    private const double Certain = 2;

    private readonly TResult[] _first, _second;
    private readonly IReadOnlyList<ExchangedDraws<TResult>> _exchanged;

    internal Sampled(TResult nominal, TResult[] first, TResult[] second, IReadOnlyList<ExchangedDraws<TResult>> exchanged) =>
        (Nominal, _first, _second, _exchanged) = (nominal, first, second, exchanged);

    /// <inheritdoc/>
    public TResult Nominal { get; }

    /// <summary>Draws.</summary>
    public int Count => _first.Length;

    /// <inheritdoc/>
    public Prediction Positive(Func<TResult, double> figure) => Predict(figure, r => Math.Log(figure(r)));

    /// <inheritdoc/>
    public Prediction OfEitherSign(Func<TResult, double> figure) => Predict(figure, figure);

    /// <summary>Sobol' indices of all inputs, largest first order first; none where sources were not asked for.</summary>
    /// <param name="figure">Picks the figure.</param>
    /// <returns>First-order and total indices with their standard errors.</returns>
    public IReadOnlyList<SobolIndex> Indices(Func<TResult, double> figure)
    {
        double[] a = [.. _first.Take(_second.Length).Select(figure)], b = [.. _second.Select(figure)];
        return [.. _exchanged.Select(e => SobolIndices.Of(e.Input, a, b, [.. e.Results.Select(figure)])).OrderByDescending(i => i.First)];
    }

    /// <summary>Mean over the draws.</summary>
    internal double Mean(Func<TResult, double> of) => _first.Average(of);

    private Prediction Predict(Func<TResult, double> figure, Func<TResult, double> ranked)
    {
        double[] sorted = [.. _first.Select(figure).Order()];
        return new(figure(Nominal), Quantile(0.25), Quantile(0.75), Quantile(0.05), Quantile(0.95),
            [.. Indices(ranked).Where(i => i.First > Certain * i.FirstError).Select(i => new VarianceShare(i.Input, Math.Min(1, i.First)))]);

        double Quantile(double share) => SortedArrayStatistics.Quantile(sorted, share);
    }
}
