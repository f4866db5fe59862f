using System.Globalization;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Reduced;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A wish for intervals from sampled boards.</summary>
/// <param name="Boards">How many.</param>
/// <param name="Seed">The same seed draws the same boards.</param>
/// <param name="Models">Where reduced models are kept, for modes on an outline.</param>
/// <param name="Progress">Told in words what is done, and its share.</param>
public sealed record SampleWish(int Boards, int Seed, ReducedModels Models, Action<string, double> Progress)
{
    /// <summary>How intervals were found where no boards were sampled.</summary>
    internal const string ByDerivatives = "by exact derivatives, to first order";

    /// <summary>The draws for figures of the layup.</summary>
    /// <param name="withSources">Whether the sources are ranked too.</param>
    internal Draws Draws(bool withSources = true) => new(Boards, Seed, withSources, share => Progress("boards sampled", share));

    /// <summary>How intervals were found, in words.</summary>
    /// <param name="wish">Nothing where no boards were sampled.</param>
    /// <param name="onOutline">What stands on the board's outline and keeps its derivatives; nothing where nothing does.</param>
    /// <param name="withSources">Whether the sources were ranked by the same boards.</param>
    internal static string Words(SampleWish? wish, string? onOutline, bool withSources = true) => wish is null ? ByDerivatives
        : string.Create(CultureInfo.InvariantCulture, $"by {wish.Boards} sampled boards (seed {wish.Seed})")
            + (withSources ? string.Create(CultureInfo.InvariantCulture, $", what they mostly come from by first-order Sobol' indices of {Math.Min(wish.Boards, Sampled.MostForSources)} of them") : "")
            + (onOutline is null ? "" : $"; {onOutline} by exact derivatives, to first order");
}
