using MathNet.Numerics.Distributions;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Limits;

/// <summary>A board at one set of values, with the load and the strength shifted beside it.</summary>
internal sealed record LimitCase(Board Board, double Load, double Strength);

/// <summary>What one evaluation gives.</summary>
internal sealed record LimitFigures(double Load, double Resistance);

/// <summary>One place and direction at which a limit may govern.</summary>
/// <param name="Where">In words.</param>
/// <param name="Nominal">Load at the medians; 0 or less where none acts this way.</param>
/// <param name="Load">Load of a board.</param>
/// <param name="Resistance">Resistance of a board; nothing where it is not known.</param>
internal sealed record LimitPlace(string Where, double Nominal, Func<Board, double> Load, Func<Board, double>? Resistance)
{
    /// <summary>Where on the board.</summary>
    internal Point? At { get; init; }
}

/// <summary>What is common to all places of one limit.</summary>
/// <param name="Name">In the maker's words.</param>
/// <param name="Kind">What load and resistance are.</param>
/// <param name="KnockDown">In the resistance.</param>
/// <param name="Source">Of formula and strength.</param>
internal sealed record LimitRule(string Name, LimitKind Kind, double KnockDown, string Source)
{
    // A stress that is nearly nothing may change its sign with the inputs: there its logarithm is cut off.
    private const double Least = 0.01;

    /// <summary>Spread of the load's logarithm that does not come from the board.</summary>
    internal double LoadSpread { get; init; }

    /// <summary>What the resistance's own spread is, in words.</summary>
    internal string Strength { get; init; } = "strength";

    /// <summary>Spread of the resistance's logarithm that does not come from the board.</summary>
    internal double StrengthSpread { get; init; }

    /// <summary>What to know of it.</summary>
    internal IReadOnlyList<string> Notes { get; init; } = [];

    /// <summary>The limit at the place where it governs: the least margin, or the largest load where no resistance is known.</summary>
    internal Limit At(Board board, IReadOnlyList<LimitPlace> places)
    {
        LimitPlace[] loaded = [.. places.Where(p => p.Nominal > 0)];
        LimitPlace place = loaded.Length > 0
            ? loaded.MinBy(p => (p.Resistance?.Invoke(board) ?? 1) / p.Nominal)!
            : places.MinBy(p => p.Resistance?.Invoke(board) ?? 0)!;
        bool known = place.Resistance is not null, acts = place.Nominal > 0;
        double least = Least * place.Nominal;
        Propagation<LimitFigures> figures = Propagation.Through(new LimitCase(board, 0, 0), Inputs(board), c => new LimitFigures(
            acts ? Math.Max(place.Load(c.Board), least) * Math.Exp(c.Load) : 1,
            (place.Resistance?.Invoke(c.Board) ?? 1) * Math.Exp(c.Strength)));
        Prediction? margin = known && acts ? figures.Positive(f => f.Resistance / f.Load) : null;
        return new(
            Name, Kind, place.Where, acts ? place.At : null,
            acts ? figures.Positive(f => f.Load) : null,
            known ? figures.Positive(f => f.Resistance) : null,
            margin,
            margin is null ? null : Chance(margin),
            KnockDown, Source, Notes);
    }

    // Chance that a log-normal margin is below 1.
    internal static double Chance(Prediction margin)
    {
        double spread = Math.Log(margin.High90 / margin.Value) / Propagation.Z90, beta = Math.Log(margin.Value);
        return spread > 0 ? Normal.CDF(0, 1, -beta / spread) : beta < 0 ? 1 : 0;
    }

    private IEnumerable<UncertainInput<LimitCase>> Inputs(Board board) =>
    [
        .. InputShifts.OfLayup(board).Select(i => new UncertainInput<LimitCase>(i.Name, i.Spread, t => new(i.Shift(board, t), 0, 0))),
        .. board.Core.Material.CompressionModulus is { } e
            ? (UncertainInput<LimitCase>[])[new("core compression modulus", e.Spread, t => new(board with { Core = board.Core with { Material = board.Core.Material with { CompressionModulus = e.Shifted(t) } } }, 0, 0))]
            : [],
        new("load", LoadSpread, t => new(board, t, 0)),
        new(Strength, StrengthSpread, t => new(board, 0, t)),
    ];
}
