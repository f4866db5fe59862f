namespace SandwichMech.Core.Uncertainty;

/// <summary>A model's results at the medians of its inputs and around them: what the prediction of any figure is drawn from.</summary>
/// <typeparam name="TResult">What one evaluation of the model returns.</typeparam>
public interface IPredicting<out TResult>
{
    /// <summary>The model's result at the medians.</summary>
    TResult Nominal { get; }

    /// <summary>Prediction of a figure that is positive by its nature.</summary>
    /// <param name="figure">Picks the figure (SI, positive) from a result.</param>
    /// <returns>Value, intervals and sources; the value alone with no sources where nothing is uncertain.</returns>
    Prediction Positive(Func<TResult, double> figure);

    /// <summary>Prediction of a figure that may have either sign.</summary>
    /// <param name="figure">Picks the figure (SI) from a result.</param>
    /// <returns>Value, intervals and sources.</returns>
    Prediction OfEitherSign(Func<TResult, double> figure);
}
