using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Limits;

/// <summary>All limits of a sandwich board in the press and under its strings.</summary>
/// <remarks>
/// Skins: stress at their middle for buckling, at both faces for strength; films that stiffen them against buckling left out. Line loads stay as
/// given while the board's inputs vary. Defer to testing and practice.
/// </remarks>
public static class BoardLimits
{
    // How well each formula holds for real skins: standard deviation of the logarithm. Judgement.
    private const double BucklingSpread = 0.15, PrintSpread = PrintThrough.ShowsSpread;
    private const int Inner = 0, CorePly = 2, Outer = 4, Steps = 36;
    private const string Handbook = "Wood Handbook FPL-GTR-282";

    /// <summary>The limits.</summary>
    /// <param name="board">The board at the medians.</param>
    /// <param name="loads">What it has to bear.</param>
    /// <returns>All limits; those that need loads under the strings show a resistance alone where none are given.</returns>
    public static LimitReport Of(Board board, BoardLoads loads)
    {
        loads = loads with { Places = ExtremePlaces.Of(board, loads.Places, Directions) };
        LimitPlace[] all = [.. Buckling(board, loads, Wrinkling)];
        Limit along = Rule(0), across = Rule(Steps / 2);
        // A direction between them only where it is worse than both.
        Limit worst = WrinklingRule(board, loads, "skin wrinkling, worst direction").At(board, all);
        bool between = worst.Margin is { } m && m.Value < Math.Min(along.Margin?.Value ?? double.MaxValue, across.Margin?.Value ?? double.MaxValue) * (1 - 1e-9);
        return new(
        [
            .. Printing(board, loads),
            .. Crushing(board, "core crushing under vacuum", loads.Vacuum),
            .. Crushing(board, "core crushing under clamps or bridge", loads.Clamps),
            along,
            across,
            .. between ? (Limit[])[worst] : [],
            .. Dimples(board, loads),
            Crimps(board, loads),
            CoreShear(board, loads),
            .. Strengths(board, loads),
        ]);

        Limit Rule(int step) => WrinklingRule(board, loads, step == 0 ? "skin wrinkling along" : "skin wrinkling across").At(board, [.. all.Where((_, i) => i % Steps == step)]);
    }

    private static IEnumerable<Limit> Printing(Board board, BoardLoads loads)
    {
        if (board.Core.Material.CellSize is not { } cell || loads.Vacuum <= 0) { yield break; }
        var rule = new LimitRule("cells printing through under vacuum", LimitKind.Depth, 1, "clamped orthotropic circle over one cell, Lekhnitskii 1968, and shear; from what depth a cell shows is judgement")
        {
            Strength = "from what depth a cell shows",
            StrengthSpread = PrintSpread,
            Notes =
            [
                FormattableString.Invariant($"a cell is taken to show from {PrintThrough.Shows * 1e6:0} µm on: judgement, no source"),
                FormattableString.Invariant($"the skins sink by {Share(Outer) * 100:0.###} % (outer) and {Share(Inner) * 100:0.###} % (inner) of their thickness"),
                "skins dry, adhesive without stiffness, no air in the cells; wet or warm wood is softer",
            ],
        };
        yield return rule.At(board, [.. new[] { Outer, Inner }.Select(skin => new LimitPlace(
            Name(skin), Sinks(board, skin), b => Sinks(b, skin), _ => PrintThrough.Shows))]);

        double Sinks(Board b, int skin) => PrintThrough.Deflection(b.Plies()[skin], cell, loads.Vacuum);

        double Share(int skin) => Sinks(board, skin) / board.Plies()[skin].Thickness;
    }

    private static IEnumerable<Limit> Crushing(Board board, string name, double pressure)
    {
        if (pressure <= 0) { yield break; }
        CoreMaterial core = board.Core.Material;
        bool cells = core.Kind == "honeycomb";
        Estimate? strength = cells ? core.BareStrength : core.CompressionStrength is { } c ? new(c, core.CompressionModulus?.Spread ?? 0.2) : null;
        var rule = new LimitRule(name, LimitKind.Stress, 1, "pressure over the core's strength through its height, from its data sheet")
        {
            StrengthSpread = strength?.Spread ?? 0,
            Notes = strength is null
                ? [cells ? "no source gives this core's strength as a bare sheet; stabilised between stiff skins it is higher, and is not to be put in its place" : "no source gives this core's strength"]
                : cells && core.BareStrengthMinimum is { } least ? [FormattableString.Invariant($"bare sheet, typical; the sheet promises at least {least / 1e6:0.###} MPa")] : [],
        };
        yield return rule.At(board, [new("all over", pressure, _ => pressure, strength is { } s ? _ => s.Value : null)]);
    }

    private static LimitRule WrinklingRule(Board board, BoardLoads loads, string name)
    {
        IReadOnlyList<Ply> plies = board.Plies();
        double core = plies[CorePly].Thickness;
        double? depth = board.Core.Material.CompressionModulus is { } e
            ? SkinBuckling.WrinkleDepth(plies[Outer].E1, e.Value, SkinBuckling.TransverseShear(plies[CorePly], plies[Outer].Angle), plies[Outer].Thickness)
            : null;
        return new(name, LimitKind.Stress, SkinBuckling.DesignFactor / SkinBuckling.PerfectFactor, "Zenkert 1995, eq. 6.14: 0.5 (E_f E_c G_c)^⅓")
        {
            LoadSpread = loads.Spread,
            Strength = "wrinkling formula",
            StrengthSpread = BucklingSpread,
            Notes =
            [
                .. depth is null ? ["no source gives this core's modulus through its height"]
                    : depth > core / 2 ? [FormattableString.Invariant($"made for thick cores: a wrinkle would reach {depth * 1000:0.#} mm deep (from memory), half the core is {core * 500:0.##} mm; on a core so thin skins that wrinkle against each other are held better, and those that bow alike are the row of crimping")]
                    : Array.Empty<string>(),
                "how well the formula holds is judgement (15 %)",
            ],
        };
    }

    private static double? Wrinkling(Board board, int skin, double direction)
    {
        IReadOnlyList<Ply> plies = board.Plies();
        return board.Core.Material.CompressionModulus is { } e
            ? SkinBuckling.Wrinkling(SkinBuckling.Modulus(plies[skin], direction), e.Value, SkinBuckling.TransverseShear(plies[CorePly], direction))
            : null;
    }

    private static IEnumerable<Limit> Dimples(Board board, BoardLoads loads)
    {
        if (board.Core.Material.CellSize is not { } cell) { yield break; }
        var rule = new LimitRule("skin dimpling over the cells", LimitKind.Stress, 1, "Zenkert 1995, eq. 6.32: 2 E_f/(1 − ν²) (t_f/s)²")
        {
            LoadSpread = loads.Spread,
            Strength = "dimpling formula",
            StrengthSpread = BucklingSpread,
            Notes = ["an empirical formula of metal skins, E_f of the skin along the load; how well it holds for wood is judgement (15 %)"],
        };
        yield return rule.At(board, [.. Buckling(board, loads, (b, skin, direction) =>
        {
            Ply ply = b.Plies()[skin];
            return SkinBuckling.Dimpling(SkinBuckling.Modulus(ply, direction), ply.Nu12 * ply.Nu12 * ply.E2 / ply.E1, ply.Thickness, cell);
        })]);
    }

    private static Limit Crimps(Board board, BoardLoads loads)
    {
        var rule = new LimitRule("shear crimping of the board", LimitKind.LineForce, 1, "Zenkert 1995, chapter 6: G_c d²/t_c")
        {
            LoadSpread = loads.Spread,
            Strength = "crimping formula",
            StrengthSpread = BucklingSpread,
            Notes = ["the load is the net compression in the board's plane; pure bending has none"],
        };
        return rule.At(board, [.. Places(loads).SelectMany(p => Directions.Select(direction =>
        {
            double load = -p.Force.SeenFrom(direction).X;
            return new LimitPlace(Words(p, DirectionWords(direction)), load, _ => load, b => Crimping(b.Plies(), direction)) { At = p.At };
        }))]);

        static double Crimping(IReadOnlyList<Ply> plies, double direction) =>
            SkinBuckling.Crimping(SkinBuckling.TransverseShear(plies[CorePly], direction), Apart(plies), plies[CorePly].Thickness);
    }

    private static Limit CoreShear(Board board, BoardLoads loads)
    {
        CoreMaterial core = board.Core.Material;
        double ribbon = board.Core.RibbonAngle;
        var rule = new LimitRule("core shear", LimitKind.Stress, 1, "Zenkert 1995: τ = V/(b d); strength from the core's data sheet")
        {
            LoadSpread = loads.Spread,
            StrengthSpread = core.ShearStrengthAcross?.Spread ?? 0,
            Notes = [core.ShearStrengthAcross is null ? "no source gives this core's shear strength" : "strengths belong to a sheet some 13 mm high; where wood is let in, it bears the shear, not the core"],
        };
        return rule.At(board, [.. Places(loads).SelectMany(p => new (double Angle, Estimate? Strength, string Name)[] { (ribbon, core.ShearStrengthRibbon, "along the ribbon"), (ribbon + Math.PI / 2, core.ShearStrengthAcross, "across the ribbon") }
            .Select(axis =>
            {
                double force = Math.Abs(p.ShearAlong * Math.Cos(axis.Angle) + p.ShearAcross * Math.Sin(axis.Angle));
                return new LimitPlace(Words(p, axis.Name), force / Apart(board.Plies()), b => force / Apart(b.Plies()), axis.Strength is { } s ? _ => s.Value : null) { At = p.At };
            }))]);
    }

    private static IEnumerable<Limit> Strengths(Board board, BoardLoads loads)
    {
        yield return Strength("skin tension along the grain", 1, s => s.X, w => w.BendingStrength, $"{Handbook}: bending strength, which is a careful stand-in for tension along (from memory)",
            "no source here gives the bending strength of a skin's wood");
        yield return Strength("skin compression along the grain", -1, s => s.X, w => w.CompressionAlong, $"{Handbook}: crushing strength along the grain, at its maximum", "no source here gives the compression strength along the grain of a skin's wood; it is well below the bending strength");
        yield return Strength("skin tension across the grain", 1, s => s.Y, w => w.TensionAcross, $"{Handbook}: tension across the grain, of small blocks split between two notches (from memory)", "no source here gives the tension strength across the grain of a skin's wood: bend an offcut until it splits");
        yield return Strength("skin compression across the grain", -1, s => s.Y, w => w.CompressionAcross, $"{Handbook}: compression across the grain at its proportional limit",
            "no source here gives the compression across the grain of a skin's wood");

        Limit Strength(string name, int sign, Func<InPlane, double> component, Func<Wood, Estimate?> strength, string source, string unknown)
        {
            Estimate? outer = strength(board.Outer.Wood), inner = strength(board.Inner.Wood);
            var rule = new LimitRule(name, LimitKind.Stress, 1, source)
            {
                LoadSpread = loads.Spread,
                StrengthSpread = Math.Max(outer?.Spread ?? 0, inner?.Spread ?? 0),
                Notes = [.. outer is null || inner is null ? [unknown] : Array.Empty<string>(), "at 12 % moisture, under a load of minutes: one that stays for years is borne worse"],
            };
            return rule.At(board, [.. Places(loads).SelectMany(p =>
            {
                LaminateState state = Under(board, p);
                return new[] { (Outer, outer, 1.0), (Outer, outer, 0.0), (Inner, inner, 1.0), (Inner, inner, 0.0) }.Select(at =>
                {
                    (int skin, Estimate? known, double face) = at;
                    return new LimitPlace(
                        Words(p, $"{Name(skin)}, {(face > 0 ? "outward" : "inward")} face"),
                        sign * component(state.Stress(skin, face)),
                        b => sign * component(Under(b, p).Stress(skin, face)),
                        known is { } s ? _ => s.Value : null) { At = p.At };
                });
            })]);
        }
    }

    // Compression at the middle of each skin in each direction at each place; directions turn fastest.
    private static IEnumerable<LimitPlace> Buckling(Board board, BoardLoads loads, Func<Board, int, double, double?> resistance) => Places(loads).SelectMany(p =>
    {
        LaminateState state = Under(board, p);
        return new[] { Outer, Inner }.SelectMany(skin => Directions.Select(direction =>
        {
            Func<Board, double>? resists = resistance(board, skin, direction) is null ? null : b => resistance(b, skin, direction)!.Value;
            string where = Words(p, $"{Name(skin)}, {DirectionWords(direction)}");
            return new LimitPlace(where, Compression(board, state, skin, direction), b => Compression(b, Under(b, p), skin, direction), resists) { At = p.At };
        }));
    });

    private static double Compression(Board board, LaminateState state, int skin, double direction) =>
        -state.Stress(skin, 0.5).SeenFrom(direction - (skin == Outer ? board.Outer : board.Inner).GrainAngle).X;

    private static readonly double[] Directions = [.. Enumerable.Range(0, Steps).Select(i => i * Math.PI / Steps)];

    // Without loads the resistances still are of use.
    private static IReadOnlyList<LoadedPlace> Places(BoardLoads loads) => loads.Places.Count > 0 ? loads.Places : [new LoadedPlace("")];

    private static LaminateState Under(Board board, LoadedPlace place) => LaminateState.Under(board.Laminate(), place.Force, place.Moment);

    private static double Apart(IReadOnlyList<Ply> plies) =>
        plies[CorePly].Thickness + plies[1].Thickness + plies[3].Thickness + (plies[Inner].Thickness + plies[Outer].Thickness) / 2;

    private static string Name(int skin) => skin == Outer ? "outer skin" : "inner skin";

    private static string Words(LoadedPlace place, string what) => place.Where.Length == 0 ? what : $"{what}, {place.Where}";

    private static string DirectionWords(double direction)
    {
        double degrees = direction * 180 / Math.PI;
        return degrees < 1 ? "along the board" : Math.Abs(degrees - 90) < 1 ? "across the board" : FormattableString.Invariant($"at {degrees:0}° to the board's length");
    }
}
