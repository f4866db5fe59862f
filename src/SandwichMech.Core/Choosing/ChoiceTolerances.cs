using SandwichMech.Core.Layups;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Choosing;

/// <summary>What one thickness does to the targets.</summary>
/// <param name="Name">"outer skin thickness", "inner skin thickness" or "core height".</param>
/// <param name="Tolerance">Half width of its limits, m: '± a' is σ = a/√3.</param>
/// <param name="Changes">For 0.05 mm more, one a target: relative change, or dB of a level.</param>
/// <param name="Shares">Its share of each target's variance.</param>
public sealed record ThicknessEffect(string Name, double Tolerance, IReadOnlyList<double> Changes, IReadOnlyList<double> Shares);

/// <summary>Which thickness matters how much, and how freely both skins may be sanded.</summary>
/// <param name="Thicknesses">Outer skin, core, inner skin.</param>
/// <param name="Allowed">Widest limits of both skins, m, with which the bounds still hold as surely as asked; 0 where not even exact skins do; nothing where none up to <see cref="Looked"/> matters.</param>
/// <param name="ChanceIfExact">Chance with both skins exact.</param>
/// <param name="Looked">Limits were looked at up to here, m.</param>
public sealed record Tolerances(IReadOnlyList<ThicknessEffect> Thicknesses, double? Allowed, double ChanceIfExact, double Looked)
{
    // Of the thinner skin: wider limits are no sanding, and first order tells them no longer.
    private const double WidestShare = 0.3;

    /// <summary>Effects are told for so much more of a thickness, m.</summary>
    public const double Step = 0.05e-3;

    private const string Outer = "outer skin thickness", Inner = "inner skin thickness", Core = "core height";

    /// <summary>Of a chosen board.</summary>
    internal static Tolerances Of(ChoiceSearch search, Board board, IReadOnlyList<ChoiceValue> values)
    {
        string[] inputs = [.. BoardInputs.Of(board).Where(i => i.Spread > 0).Select(i => i.Name)];
        ThicknessEffect Effect(string name, Estimate of)
        {
            int at = Array.IndexOf(inputs, name);
            double Of(ChoiceValue v) => at >= 0 && at < v.Effects.Length ? v.Effects[at] : 0;
            return new(name, Math.Sqrt(3) * of.Spread * of.Value,
                [.. values.Select((v, t) => at < 0 || of.Spread == 0 ? 0 : Relative(search.Wish.Targets[t], Of(v) * Math.Log(1 + Step / of.Value) / of.Spread))],
                [.. values.Select(v => v.Spread > 0 ? Math.Pow(Of(v) / v.Spread, 2) : 0)]);
        }

        double With(double limits) => search.Chance([.. values.Select(v => v with
        {
            Effects = [.. v.Effects.Select((e, i) => i >= inputs.Length ? e
                : inputs[i] == Outer ? e * limits / Math.Sqrt(3) / (board.Outer.Thickness.Spread * board.Outer.Thickness.Value)
                : inputs[i] == Inner ? e * limits / Math.Sqrt(3) / (board.Inner.Thickness.Spread * board.Inner.Thickness.Value)
                : e)],
        })]);

        double exact = With(0), widest = WidestShare * Math.Min(board.Outer.Thickness.Value, board.Inner.Thickness.Value);
        return new([Effect(Outer, board.Outer.Thickness), Effect(Core, board.Core.Height), Effect(Inner, board.Inner.Thickness)], WidestOf(search.Wish.Sure, exact, widest, With), exact, widest);
    }

    // The chance falls as the limits widen.
    private static double? WidestOf(double sure, double exact, double widest, Func<double, double> with)
    {
        if (exact < sure) { return 0; }
        if (with(widest) >= sure) { return null; }
        double low = 0, high = widest;
        for (int i = 0; i < 30; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = with(middle) >= sure ? (middle, high) : (low, middle);
        }

        return low;
    }

    private static double Relative(ChoiceTarget target, double scaled) => target.Figure == ChoiceFigure.Level ? scaled : Math.Exp(scaled) - 1;
}
