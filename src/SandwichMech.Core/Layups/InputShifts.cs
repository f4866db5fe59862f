using SandwichMech.Core.Materials;

namespace SandwichMech.Core.Layups;

/// <summary>Something uncertain, as a shift of its logarithm that can follow on others.</summary>
/// <typeparam name="T">What it is an input of.</typeparam>
/// <param name="Name">In the maker's words.</param>
/// <param name="Spread">Standard deviation of the logarithm.</param>
/// <param name="Shift">The subject with it shifted.</param>
public sealed record InputShift<T>(string Name, double Spread, Func<T, double, T> Shift)
{
    /// <summary>The same of something that holds this one.</summary>
    /// <typeparam name="TWhole">What holds it.</typeparam>
    /// <param name="get">Takes it out.</param>
    /// <param name="put">Puts it back.</param>
    /// <param name="of">Words before its name.</param>
    /// <returns>The shift.</returns>
    public InputShift<TWhole> Of<TWhole>(Func<TWhole, T> get, Func<TWhole, T, TWhole> put, string of = "") => new(of + Name, Spread, (whole, t) => put(whole, Shift(get(whole), t)));
}

/// <summary>The independent uncertain inputs of a wood, a skin, an adhesive and a core sheet.</summary>
public static class InputShifts
{
    /// <summary>
    /// Correlation of ln E_L with ln density between pieces of one species. Sign and order are common knowledge (denser
    /// wood is stiffer); the figure is from memory, between 0.4 and 0.7, and replaced as soon as a piece is weighed.
    /// </summary>
    public const double ModulusWithDensity = 0.5;

    /// <summary>Of a wood: ln E_L is what density brings and its own.</summary>
    /// <param name="wood">The wood.</param>
    /// <returns>The inputs; those without spread are included and harmless.</returns>
    public static IReadOnlyList<InputShift<Wood>> Of(Wood wood)
    {
        double follows = wood.Density.Spread > 0 ? ModulusWithDensity * wood.EL.Spread / wood.Density.Spread : 0;
        double own = wood.EL.Spread * (wood.Density.Spread > 0 ? Math.Sqrt(1 - ModulusWithDensity * ModulusWithDensity) : 1);
        return
        [
            new("density", wood.Density.Spread, (w, t) => w with { Density = w.Density.Shifted(t), EL = w.EL.Shifted(t * follows) }),
            new("E_L", own, (w, t) => w with { EL = w.EL.Shifted(t) }),
            new("E_R/E_L", wood.ErOverEl.Spread, (w, t) => w with { ErOverEl = w.ErOverEl.Shifted(t) }),
            new("G_LR/E_L", wood.GlrOverEl.Spread, (w, t) => w with { GlrOverEl = w.GlrOverEl.Shifted(t) }),
            new("G_LT/E_L", wood.GltOverEl.Spread, (w, t) => w with { GltOverEl = w.GltOverEl.Shifted(t) }),
            new("G_RT/E_L", wood.GrtOverEl.Spread, (w, t) => w with { GrtOverEl = w.GrtOverEl.Shifted(t) }),
        ];
    }

    /// <summary>Of both skins, the core and the adhesive of a board.</summary>
    /// <param name="board">The board.</param>
    /// <returns>The inputs.</returns>
    public static IReadOnlyList<InputShift<Board>> OfLayup(Board board) =>
    [
        .. Of(board.Outer).Select(i => i.Of<Board>(b => b.Outer, (b, s) => b with { Outer = s }, "outer skin ")),
        .. Of(board.Inner).Select(i => i.Of<Board>(b => b.Inner, (b, s) => b with { Inner = s }, "inner skin ")),
        new("core height", board.Core.Height.Spread, (b, t) => b with { Core = b.Core with { Height = b.Core.Height.Shifted(t) } }),
        .. Of(board.Core.Material).Select(i => i.Of<Board>(b => b.Core.Material, (b, m) => b with { Core = b.Core with { Material = m } })),
        .. Of(board.Adhesive).Select(i => i.Of<Board>(b => b.Adhesive, (b, a) => b with { Adhesive = a })),
    ];

    /// <summary>Of woods let in, bars and added masses. Pieces of one wood are taken as cut from one plank: one set of inputs a wood.</summary>
    /// <param name="board">The board.</param>
    /// <returns>The inputs; none without a shape.</returns>
    public static IReadOnlyList<InputShift<Board>> OfRegions(Board board)
    {
        if (board.Shape is not { } shape) { return []; }
        Wood[] woods = [.. shape.Regions.Select(r => r.Change.OwnWood).OfType<Wood>().Distinct(ReferenceEqualityComparer.Instance).Cast<Wood>()];
        int[] bars = Numbers(r => r.Change is GluedBar), masses = Numbers(r => r.Change is AddedMass { ArealMass.Spread: > 0 });
        return
        [
            .. woods.SelectMany(wood => Of(wood).Select(i => i.Of<Board>(
                b => b.Shape!.Regions[Sharing(wood)[0]].Change.OwnWood!, (b, w) => Changed(b, Sharing(wood), c => c.InWood(w)), $"let-in {wood.Name} "))),
            .. bars.Select(r => new InputShift<Board>($"{shape.Regions[r].Name} height", ((GluedBar)shape.Regions[r].Change).Height.Spread,
                (b, t) => Changed(b, [r], c => (GluedBar)c with { Height = ((GluedBar)c).Height.Shifted(t) }))),
            .. masses.Select(r => new InputShift<Board>(shape.Regions[r].Name, ((AddedMass)shape.Regions[r].Change).ArealMass.Spread,
                (b, t) => Changed(b, [r], c => new AddedMass(((AddedMass)c).ArealMass.Shifted(t))))),
        ];

        int[] Numbers(Func<BoardRegion, bool> which) => [.. Enumerable.Range(0, shape.Regions.Count).Where(r => which(shape.Regions[r]))];

        int[] Sharing(Wood wood) => Numbers(r => ReferenceEquals(r.Change.OwnWood, wood));
    }

    private static Board Changed(Board board, int[] regions, Func<RegionChange, RegionChange> change) => board with
    {
        Shape = board.Shape! with { Regions = [.. board.Shape.Regions.Select((r, i) => regions.Contains(i) ? r with { Change = change(r.Change) } : r)] },
    };

    private static IReadOnlyList<InputShift<Skin>> Of(Skin skin) =>
    [
        new("thickness", skin.Thickness.Spread, (s, t) => s with { Thickness = s.Thickness.Shifted(t) }),
        .. Of(skin.Wood).Select(i => i.Of<Skin>(s => s.Wood, (s, w) => s with { Wood = w })),
    ];

    private static IReadOnlyList<InputShift<CoreMaterial>> Of(CoreMaterial core) =>
    [
        new("core density", core.Density.Spread, (m, t) => m with { Density = m.Density.Shifted(t) }),
        // One input for both directions: what makes a thin sheet differ from its data sheet acts on both alike.
        new("core shear moduli", core.ShearRibbon.Spread, (m, t) => m with { ShearRibbon = m.ShearRibbon.Shifted(t), ShearAcross = m.ShearAcross.Shifted(t) }),
    ];

    private static IReadOnlyList<InputShift<Adhesive>> Of(Adhesive adhesive) =>
    [
        new("adhesive mixed", adhesive.Mixed.Spread, (a, t) => a with { Mixed = a.Mixed.Shifted(t) }),
        new("adhesive kept", adhesive.KeptShare.Spread, (a, t) => a with { KeptShare = a.KeptShare.ShiftedShare(t) }),
        new("film share", adhesive.FilmShare.Spread, (a, t) => a with { FilmShare = a.FilmShare.ShiftedShare(t) }),
        new("adhesive density", adhesive.Density.Spread, (a, t) => a with { Density = a.Density.Shifted(t) }),
        new("film modulus", adhesive.FilmModulus.Spread, (a, t) => a with { FilmModulus = a.FilmModulus.Shifted(t) }),
    ];
}
