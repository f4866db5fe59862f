using MathNet.Numerics.Distributions;

namespace SandwichMech.Core.Uncertainty;

/// <summary>One independent uncertain input of a model: its name, its spread, and the model's subject with that input shifted.</summary>
/// <typeparam name="T">What the model is evaluated on.</typeparam>
/// <param name="Name">The input in the maker's words ("outer skin thickness").</param>
/// <param name="Spread">Standard deviation of the input's natural logarithm, positive.</param>
/// <param name="At">The subject with this input's logarithm shifted by the argument.</param>
public sealed record UncertainInput<T>(string Name, double Spread, Func<double, T> At);

/// <summary>How much of a prediction's variance one input brings.</summary>
/// <param name="Input">The input's name.</param>
/// <param name="Share">Share of the variance, 0 to 1.</param>
public sealed record VarianceShare(string Input, double Share);

/// <summary>A predicted figure with its intervals and what they mostly come from.</summary>
/// <param name="Value">The figure at the medians of all inputs, SI.</param>
/// <param name="Low50">Lower end of the central 50 % interval.</param>
/// <param name="High50">Upper end of the central 50 % interval.</param>
/// <param name="Low90">Lower end of the central 90 % interval.</param>
/// <param name="High90">Upper end of the central 90 % interval.</param>
/// <param name="MostlyFrom">Inputs by falling share of the variance.</param>
public sealed record Prediction(
    double Value, double Low50, double High50, double Low90, double High90, IReadOnlyList<VarianceShare> MostlyFrom)
{
    /// <summary>A log-normal figure whose sources are left out.</summary>
    /// <param name="value">Median, SI, positive.</param>
    /// <param name="logSpread">Standard deviation of its logarithm.</param>
    /// <returns>Value and intervals.</returns>
    public static Prediction LogNormal(double value, double logSpread)
    {
        return new(value, At(-Propagation.Z50), At(Propagation.Z50), At(-Propagation.Z90), At(Propagation.Z90), []);

        double At(double z) => value * Math.Exp(z * logSpread);
    }

    /// <summary>A normal figure whose sources are left out.</summary>
    /// <param name="value">Mean, SI.</param>
    /// <param name="spread">Standard deviation, SI.</param>
    /// <returns>Value and intervals.</returns>
    public static Prediction Normal(double value, double spread) => new(
        value, value - Propagation.Z50 * spread, value + Propagation.Z50 * spread, value - Propagation.Z90 * spread, value + Propagation.Z90 * spread, []);

    /// <summary>Standard deviation of the logarithm, of a figure that is log-normal.</summary>
    internal double LogSpread => Math.Log(High90 / Low90) / (2 * Propagation.Z90);

    /// <summary>Standard deviation, SI, of a figure that is normal.</summary>
    internal double Spread => (High90 - Low90) / (2 * Propagation.Z90);

    /// <summary>The same figure counted the other way.</summary>
    /// <returns>With its intervals turned about.</returns>
    public Prediction Negated() => new(-Value, -High50, -Low50, -High90, -Low90, MostlyFrom);
}

/// <summary>Evaluates a model at the medians of its inputs and at two shifts of every input.</summary>
public static class Propagation
{
    private const double LargestStep = 0.2;

    /// <summary>Standard normal quantile at the upper end of the central 50 % interval.</summary>
    public static readonly double Z50 = Normal.InvCDF(0, 1, 0.75);

    /// <summary>Standard normal quantile at the upper end of the central 90 % interval.</summary>
    public static readonly double Z90 = Normal.InvCDF(0, 1, 0.95);

    /// <summary>Prediction of a figure that rises with one uncertain input: its quantiles are the input's, exactly.</summary>
    /// <param name="input">The input's name.</param>
    /// <param name="spread">Standard deviation of the input's logarithm.</param>
    /// <param name="figure">The figure at a shift of the input, rising.</param>
    /// <returns>Value, intervals and the one source.</returns>
    public static Prediction Rising(string input, double spread, Func<double, double> figure) => new(
        figure(0), figure(-Z50 * spread), figure(Z50 * spread), figure(-Z90 * spread), figure(Z90 * spread),
        spread > 0 ? [new(input, 1)] : []);

    /// <summary>Evaluates the model.</summary>
    /// <typeparam name="TSubject">What the model is evaluated on.</typeparam>
    /// <typeparam name="TResult">What one evaluation returns.</typeparam>
    /// <param name="subject">The subject at the medians.</param>
    /// <param name="inputs">Independent inputs; one with no spread is passed over.</param>
    /// <param name="model">Pure function from subject to result.</param>
    /// <returns>The evaluations, from which any figure's prediction is drawn.</returns>
    public static Propagation<TResult> Through<TSubject, TResult>(
        TSubject subject, IEnumerable<UncertainInput<TSubject>> inputs, Func<TSubject, TResult> model) =>
        new(model(subject), [.. inputs.Where(i => i.Spread > 0).Select(i =>
        {
            double step = Math.Min(i.Spread, LargestStep);
            return new Shifted<TResult>(i.Name, i.Spread / step, model(i.At(step)), model(i.At(-step)));
        })]);

    /// <summary>Prediction from what one standard deviation of each input does.</summary>
    /// <param name="value">The figure at the medians.</param>
    /// <param name="inputs">Names; inputs that share one are told as one source.</param>
    /// <param name="effects">Changes of the figure, or of its logarithm, in the same order.</param>
    /// <param name="at">The figure at so many (first) standard deviations of so much (second).</param>
    /// <returns>Value, intervals and sources.</returns>
    public static Prediction Predict(double value, IReadOnlyList<string> inputs, IReadOnlyList<double> effects, Func<double, double, double> at)
    {
        var variances = new Dictionary<string, double[]>();
        double total = 0;
        for (int i = 0; i < effects.Count; i++)
        {
            if (!variances.TryGetValue(inputs[i], out double[]? sum))
            {
                variances.Add(inputs[i], sum = [0]);
            }

            sum[0] += effects[i] * effects[i];
            total += effects[i] * effects[i];
        }

        double sd = Math.Sqrt(total);
        var shares = new List<VarianceShare>(variances.Count);
        foreach ((string name, double[] variance) in variances)
        {
            if (variance[0] > 0)
            {
                shares.Add(new(name, variance[0] / total));
            }
        }

        shares.Sort((a, b) => b.Share.CompareTo(a.Share));
        return new(value, at(-Z50, sd), at(Z50, sd), at(-Z90, sd), at(Z90, sd), shares);
    }
}

/// <summary>The model at both shifts of one input. A class, not a tuple: see the remarks of <see cref="Propagation{TResult}"/>.</summary>
internal sealed record Shifted<TResult>(string Name, double StepsPerSpread, TResult Up, TResult Down);

/// <summary>First-order propagation of independent log-normal inputs (GUM, JCGM 100:2008, eq. 10, in the logarithms).</summary>
/// <remarks>
/// Derivatives are central differences over one standard deviation of the input (at most 0.2 in the logarithm), so
/// a mild curvature is averaged rather than ignored. Positive figures are propagated in their logarithm, signed ones
/// (grams saved) as they are.
/// </remarks>
/// <typeparam name="TResult">What one evaluation of the model returns.</typeparam>
public sealed class Propagation<TResult> : IPredicting<TResult>
{
    private readonly IReadOnlyList<Shifted<TResult>> _shifted;

    internal Propagation(TResult nominal, IReadOnlyList<Shifted<TResult>> shifted)
    {
        Nominal = nominal;
        _shifted = shifted;
    }

    /// <inheritdoc/>
    public TResult Nominal { get; }

    /// <inheritdoc/>
    public Prediction Positive(Func<TResult, double> figure)
    {
        double value = figure(Nominal);
        return Predict(r => Math.Log(figure(r)), (z, sd) => value * Math.Exp(z * sd), value);
    }

    /// <inheritdoc/>
    public Prediction OfEitherSign(Func<TResult, double> figure)
    {
        double value = figure(Nominal);
        return Predict(figure, (z, sd) => value + z * sd, value);
    }

    /// <summary>The uncertain inputs in their order; several may share a name.</summary>
    public IReadOnlyList<string> Inputs => [.. _shifted.Select(s => s.Name)];

    /// <summary>What one standard deviation of each input does to a figure.</summary>
    /// <param name="figure">Picks the figure from a result, or its logarithm.</param>
    /// <returns>Changes of what was picked, in the order of <see cref="Inputs"/>.</returns>
    public double[] Effects(Func<TResult, double> figure)
    {
        double[] effects = new double[_shifted.Count];
        for (int i = 0; i < effects.Length; i++)
        {
            Shifted<TResult> s = _shifted[i];
            effects[i] = (figure(s.Up) - figure(s.Down)) / 2 * s.StepsPerSpread;
        }

        return effects;
    }

    private Prediction Predict(Func<TResult, double> figure, Func<double, double, double> at, double value) =>
        Propagation.Predict(value, Inputs, Effects(figure), at);
}
