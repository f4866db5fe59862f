namespace SandwichMech.Core.Uncertainty;

/// <summary>A positive quantity that is known only so well: log-normal, given by its median and the standard deviation of its logarithm.</summary>
/// <param name="Value">Median, in SI units, positive. A tabulated mean is taken as the median: the difference is below 3 % for the spreads of wood and is far inside the spread itself.</param>
/// <param name="Spread">Standard deviation of the natural logarithm, 0 or more; for small spreads it equals the coefficient of variation.</param>
public readonly record struct Estimate(double Value, double Spread)
{
    /// <summary>Makes an estimate from a value and a coefficient of variation.</summary>
    /// <param name="value">Median, SI, positive.</param>
    /// <param name="coefficientOfVariation">Standard deviation over mean, 0 or more.</param>
    /// <returns>The log-normal estimate; for a log-normal, sd(ln) = √ln(1 + cv²) exactly.</returns>
    public static Estimate FromCv(double value, double coefficientOfVariation) =>
        new(value, Math.Sqrt(Math.Log(1 + coefficientOfVariation * coefficientOfVariation)));

    /// <summary>Makes an estimate from a value and an absolute standard deviation in the same unit.</summary>
    /// <param name="value">Median, SI, positive.</param>
    /// <param name="standardDeviation">SI, 0 or more.</param>
    /// <returns>The log-normal estimate.</returns>
    public static Estimate FromSd(double value, double standardDeviation) => FromCv(value, standardDeviation / value);

    /// <summary>The same quantity with its median moved to <c>Value·exp(logShift)</c>.</summary>
    /// <param name="logShift">Shift of the natural logarithm, dimensionless.</param>
    /// <returns>The shifted estimate, spread unchanged.</returns>
    public Estimate Shifted(double logShift) => this with { Value = Value * Math.Exp(logShift) };

    /// <summary>The same share of a whole with its odds moved, so that it stays below 1; for small shifts the logarithm moves by the shift.</summary>
    /// <param name="logShift">Shift, in the scale of the share's own logarithm.</param>
    /// <returns>The shifted share, spread unchanged; a share of 1 stays.</returns>
    public Estimate ShiftedShare(double logShift)
    {
        // d ln(odds) = d ln(share)/(1 − share).
        double odds = Value / (1 - Value) * Math.Exp(logShift / (1 - Value));
        return Value < 1 ? this with { Value = double.IsPositiveInfinity(odds) ? 1 : odds / (1 + odds) } : this;
    }

    /// <summary>The same quantity at another value, as well known in its own unit as before.</summary>
    /// <param name="value">The new median, SI, positive.</param>
    /// <returns>The moved estimate, its standard deviation in its own unit kept.</returns>
    public Estimate MovedTo(double value) => new(value, Spread * Value / value);

    /// <summary>Scales the quantity, keeping its relative spread.</summary>
    /// <param name="factor">Positive, dimensionless.</param>
    /// <returns>The scaled estimate.</returns>
    public Estimate Times(double factor) => this with { Value = Value * factor };
}
