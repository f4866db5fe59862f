using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Limits;

/// <summary>Moisture content of both skins as they were bonded, percent of the dry mass.</summary>
/// <param name="Outer">Outer skin.</param>
/// <param name="Inner">Inner skin.</param>
public sealed record BondedMoisture(double Outer, double Inner);

/// <summary>Stress that a change of humidity locks into a skin, the larger of its two faces, in the wood's axes.</summary>
/// <param name="Skin">"outer skin" or "inner skin".</param>
/// <param name="Restraint">How the board is kept.</param>
/// <param name="Along">Along the grain, Pa, tension positive.</param>
/// <param name="Across">Across the grain, Pa.</param>
public sealed record LockedStress(string Skin, Restraint Restraint, Prediction Along, Prediction Across);

/// <summary>A board that has come to another humidity.</summary>
/// <param name="Humidity">Relative humidity, percent.</param>
/// <param name="Moisture">Content that the skins come to, percent of the dry mass.</param>
/// <param name="CurvatureAlong">Of the free board, 1/m, positive where it is hollow inside.</param>
/// <param name="CurvatureAcross">The same across.</param>
/// <param name="Twist">Engineering twist, 1/m.</param>
/// <param name="BowAlong">κL²/8 over the board's length, m; nothing where that is not known.</param>
/// <param name="BowAcross">The same over its width.</param>
/// <param name="Stresses">Both skins, free and held.</param>
public sealed record HumidityState(
    double Humidity, double Moisture, Prediction CurvatureAlong, Prediction CurvatureAcross, Prediction Twist, Prediction? BowAlong, Prediction? BowAcross,
    IReadOnlyList<LockedStress> Stresses);

/// <summary>Warp and locked-in stress where the skins take up or lose water after they were bonded.</summary>
/// <remarks>
/// Each skin grows by its shrinkage between its content at bonding and the one the air brings (Wood Handbook, FPL-GTR-282, chapter 4), radially
/// across the grain; core and adhesive do not grow (of aramid paper's own growth nothing is known here), but the films stiffen. Elastic, at the
/// moduli of the tables: wood under lasting stress gives way, so after weeks stress and warp are less.
/// </remarks>
public static class HumidityWarp
{
    /// <summary>Standard deviation of a skin's moisture content as it is bonded, percent of the dry mass. Judgement.</summary>
    public const double ContentSpread = 0.5;

    private const int Inner = 0, Outer = 4;

    /// <summary>Skins whose shrinkage no source gives: of these boards nothing can be said.</summary>
    /// <param name="board">The board.</param>
    /// <returns>Names of their woods.</returns>
    public static IReadOnlyList<string> Unknown(Board board) =>
        [.. new[] { board.Outer.Wood, board.Inner.Wood }.Where(w => w.ShrinkageRadial is null).Select(w => w.Name).Distinct()];

    /// <summary>The board at a humidity.</summary>
    /// <param name="board">The board; both skins' shrinkage is known.</param>
    /// <param name="bonded">Moisture content of its skins as they were bonded.</param>
    /// <param name="humidity">Relative humidity that it has come to, percent.</param>
    /// <param name="temperature">°C.</param>
    /// <returns>Its warp and stresses.</returns>
    /// <exception cref="ArgumentException">The shrinkage of a skin is not known.</exception>
    public static HumidityState At(Board board, BondedMoisture bonded, double humidity, double temperature = 20)
    {
        if (Unknown(board) is [var first, ..]) { throw new ArgumentException($"No shrinkage is known for {first}.", nameof(board)); }
        double percent = Moisture.Equilibrium(humidity, temperature);
        var middle = new WarpCase(board, bonded, Moisture.ShrinkageAlong.Value, Moisture.ShrinkageAlong.Value);
        Propagation<WarpStates> all = Propagation.Through(middle, Inputs(middle), c => States(c, percent));
        Prediction? Bow(Func<InPlane, double> axis, double? length) => length is { } l ? all.OfEitherSign(s => axis(s.Free.Curvature) * l * l / 8) : null;
        return new(
            humidity,
            percent,
            all.OfEitherSign(s => s.Free.Curvature.X),
            all.OfEitherSign(s => s.Free.Curvature.Y),
            all.OfEitherSign(s => s.Free.Curvature.Xy),
            Bow(k => k.X, board.Size.Length),
            Bow(k => k.Y, board.Size.Width),
            [
                Locked("outer skin", Restraint.Free, Outer), Locked("inner skin", Restraint.Free, Inner),
                Locked("outer skin", Restraint.Held, Outer), Locked("inner skin", Restraint.Held, Inner),
            ]);

        LockedStress Locked(string name, Restraint restraint, int ply) => new(name, restraint, Worst(all, restraint, ply, s => s.X), Worst(all, restraint, ply, s => s.Y));
    }

    /// <summary>How far the skins of a board that is held, as on a stiff rim, are from splitting along the grain in dry air.</summary>
    /// <remarks>The margin's logarithm spreads by the stress's relative spread and the strength's, first order.</remarks>
    /// <param name="board">The board.</param>
    /// <param name="dry">It in dry air.</param>
    /// <returns>The limit, of the skin that is nearer; its resistance is not known where no source gives the tension strength across the grain.</returns>
    public static Limit Splitting(Board board, HumidityState dry)
    {
        (LockedStress stress, Estimate? strength) = dry.Stresses.Where(s => s.Restraint == Restraint.Held)
            .Select(s => (Stress: s, Strength: (s.Skin == "outer skin" ? board.Outer : board.Inner).Wood.TensionAcross))
            .MaxBy(s => s.Stress.Across.Value / (s.Strength?.Value ?? 1));
        Prediction load = stress.Across;
        bool pulls = load.Value > 0;
        Prediction? resistance = strength is { } e ? Propagation.Rising("strength", e.Spread, t => e.Value * Math.Exp(t)) : null, margin = null;
        if (pulls && strength is { } s)
        {
            double spread = Math.Sqrt(Math.Pow((load.High90 - load.Value) / (Propagation.Z90 * load.Value), 2) + s.Spread * s.Spread);
            margin = Propagation.Rising("stress and strength", spread, t => s.Value / load.Value * Math.Exp(t));
        }

        return new(
            FormattableString.Invariant($"skin splitting in air of {dry.Humidity:0} %"), LimitKind.Stress, $"{stress.Skin}, across the grain, all over", null,
            pulls ? load : null, resistance, margin, margin is null ? null : LimitRule.Chance(margin), 1,
            "classical lamination, shrinkage by Wood Handbook FPL-GTR-282, chapter 4, and tension across the grain by its chapter 5",
            [
                .. strength is null ? ["no source here gives the tension strength across the grain of a skin's wood"] : Array.Empty<string>(),
                "the board held flat and from stretching, elastic: the worst case; a rim that shrinks along and time ease it, by how much is not known",
            ]);
    }

    // The face on which it is larger at the medians.
    private static Prediction Worst(Propagation<WarpStates> all, Restraint restraint, int ply, Func<InPlane, double> component)
    {
        double At(WarpStates s, double outward) => component((restraint == Restraint.Free ? s.Free : s.Held).Stress(ply, outward));
        double face = Math.Abs(At(all.Nominal, 1)) > Math.Abs(At(all.Nominal, 0)) ? 1 : 0;
        return all.OfEitherSign(s => At(s, face));
    }

    private static WarpStates States(WarpCase at, double percent)
    {
        Laminate laminate = at.Board.Laminate();
        var growth = new InPlane[laminate.Plies.Count];
        growth[Outer] = Growth(at.Board.Outer, at.OuterAlong, at.Bonded.Outer, percent);
        growth[Inner] = Growth(at.Board.Inner, at.InnerAlong, at.Bonded.Inner, percent);
        return new(LaminateState.Grown(laminate, growth, Restraint.Free), LaminateState.Grown(laminate, growth, Restraint.Held));
    }

    private static InPlane Growth(Skin skin, double along, double from, double to) =>
        InPlane.Strain(Moisture.Growth(along, from, to), Moisture.Growth(skin.Wood.ShrinkageRadial!.Value.Value, from, to), skin.GrainAngle);

    private static IEnumerable<UncertainInput<WarpCase>> Inputs(WarpCase c)
    {
        Board board = c.Board;
        Estimate outer = board.Outer.Wood.ShrinkageRadial!.Value, inner = board.Inner.Wood.ShrinkageRadial!.Value;
        double along = Moisture.ShrinkageAlong.Spread;
        return
        [
            .. InputShifts.OfLayup(board).Select(i => new UncertainInput<WarpCase>(i.Name, i.Spread, t => c with { Board = i.Shift(board, t) })),
            new("outer skin shrinkage", outer.Spread, t => c with { Board = board with { Outer = board.Outer with { Wood = board.Outer.Wood with { ShrinkageRadial = outer.Shifted(t) } } } }),
            new("inner skin shrinkage", inner.Spread, t => c with { Board = board with { Inner = board.Inner with { Wood = board.Inner.Wood with { ShrinkageRadial = inner.Shifted(t) } } } }),
            new("outer skin shrinkage along", along, t => c with { OuterAlong = c.OuterAlong * Math.Exp(t) }),
            new("inner skin shrinkage along", along, t => c with { InnerAlong = c.InnerAlong * Math.Exp(t) }),
            // Not logarithms: a spread of 1 is one standard deviation of the content.
            new("outer skin moisture at bonding", 1, t => c with { Bonded = c.Bonded with { Outer = c.Bonded.Outer + ContentSpread * t } }),
            new("inner skin moisture at bonding", 1, t => c with { Bonded = c.Bonded with { Inner = c.Bonded.Inner + ContentSpread * t } }),
        ];
    }
}

/// <summary>A board at one set of values with what its skins shrink along the grain.</summary>
internal sealed record WarpCase(Board Board, BondedMoisture Bonded, double OuterAlong, double InnerAlong);

/// <summary>The board free, and kept flat and from stretching.</summary>
internal sealed record WarpStates(LaminateState Free, LaminateState Held);
