using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Layups;

/// <summary>The independent uncertain inputs of a board, each as a shift of its logarithm.</summary>
public static class BoardInputs
{
    /// <summary>
    /// Correlation of ln E_L with ln density between pieces of one species. Sign and order are common knowledge (denser
    /// wood is stiffer); the figure is from memory, between 0.4 and 0.7, and replaced as soon as a piece is weighed.
    /// </summary>
    public const double ModulusWithDensity = 0.5;

    /// <summary>All inputs that a prediction about the board depends on.</summary>
    /// <param name="board">The board.</param>
    /// <returns>Independent inputs; those without spread are included and harmless.</returns>
    public static IEnumerable<UncertainInput<Board>> Of(Board board)
    {
        var outer = Skin("outer skin", board.Outer, (b, s) => b with { Outer = s });
        var inner = Skin("inner skin", board.Inner, (b, s) => b with { Inner = s });
        return [.. outer, .. inner, .. Core(board), .. Glue(board), .. InRegions(board), .. Solid(board)];

        IEnumerable<UncertainInput<Board>> Skin(string name, Skin skin, Func<Board, Skin, Board> put) =>
        [
            new($"{name} thickness", skin.Thickness.Spread, t => put(board, skin with { Thickness = skin.Thickness.Shifted(t) })),
            .. Of(name, skin.Wood, wood => put(board, skin with { Wood = wood })),
        ];
    }

    private static IEnumerable<UncertainInput<Board>> Of(string name, Wood wood, Func<Wood, Board> put)
    {
        double follows = wood.Density.Spread > 0 ? ModulusWithDensity * wood.EL.Spread / wood.Density.Spread : 0;
        double ownSpread = wood.EL.Spread * (wood.Density.Spread > 0 ? Math.Sqrt(1 - ModulusWithDensity * ModulusWithDensity) : 1);
        return
        [
            new($"{name} density", wood.Density.Spread, t => put(wood with { Density = wood.Density.Shifted(t), EL = wood.EL.Shifted(t * follows) })),
            new($"{name} E_L", ownSpread, t => put(wood with { EL = wood.EL.Shifted(t) })),
            new($"{name} E_R/E_L", wood.ErOverEl.Spread, t => put(wood with { ErOverEl = wood.ErOverEl.Shifted(t) })),
            new($"{name} G_LR/E_L", wood.GlrOverEl.Spread, t => put(wood with { GlrOverEl = wood.GlrOverEl.Shifted(t) })),
            new($"{name} G_LT/E_L", wood.GltOverEl.Spread, t => put(wood with { GltOverEl = wood.GltOverEl.Shifted(t) })),
            new($"{name} G_RT/E_L", wood.GrtOverEl.Spread, t => put(wood with { GrtOverEl = wood.GrtOverEl.Shifted(t) })),
        ];
    }

    private static IEnumerable<UncertainInput<Board>> Core(Board board)
    {
        CoreSheet core = board.Core;
        CoreMaterial m = core.Material;
        Board With(CoreMaterial material) => board with { Core = core with { Material = material } };
        return
        [
            new("core height", core.Height.Spread, t => board with { Core = core with { Height = core.Height.Shifted(t) } }),
            new("core density", m.Density.Spread, t => With(m with { Density = m.Density.Shifted(t) })),
            // One input for both directions: what makes a thin sheet differ from its data sheet acts on both alike.
            new("core shear moduli", m.ShearRibbon.Spread, t => With(m with { ShearRibbon = m.ShearRibbon.Shifted(t), ShearAcross = m.ShearAcross.Shifted(t) })),
        ];
    }

    private static IEnumerable<UncertainInput<Board>> Glue(Board board)
    {
        Adhesive a = board.Adhesive;
        Board With(Adhesive adhesive) => board with { Adhesive = adhesive };
        return
        [
            new("adhesive mixed", a.Mixed.Spread, t => With(a with { Mixed = a.Mixed.Shifted(t) })),
            new("adhesive kept", a.KeptShare.Spread, t => With(a with { KeptShare = a.KeptShare.ShiftedShare(t) })),
            new("film share", a.FilmShare.Spread, t => With(a with { FilmShare = a.FilmShare.ShiftedShare(t) })),
            new("adhesive density", a.Density.Spread, t => With(a with { Density = a.Density.Shifted(t) })),
            new("film modulus", a.FilmModulus.Spread, t => With(a with { FilmModulus = a.FilmModulus.Shifted(t) })),
        ];
    }

    // Pieces of one wood are taken as cut from one plank: one set of inputs a wood.
    private static IEnumerable<UncertainInput<Board>> InRegions(Board board)
    {
        if (board.Shape is not { } shape)
        {
            return [];
        }

        var woods = shape.Regions.Select(r => r.Change.OwnWood).OfType<Wood>().Distinct(ReferenceEqualityComparer.Instance).Cast<Wood>();
        var bars = shape.Regions.Where(r => r.Change is GluedBar);
        var masses = shape.Regions.Where(r => r.Change is AddedMass { ArealMass.Spread: > 0 });
        return
        [
            .. woods.SelectMany(old => Of($"let-in {old.Name}", old, wood => Changed(board, r => ReferenceEquals(r.Change.OwnWood, old) ? r.Change.InWood(wood) : r.Change))),
            .. bars.Select(bar => new UncertainInput<Board>($"{bar.Name} height", ((GluedBar)bar.Change).Height.Spread, t => Changed(board, r =>
                ReferenceEquals(r, bar) ? (GluedBar)r.Change with { Height = ((GluedBar)r.Change).Height.Shifted(t) } : r.Change))),
            .. masses.Select(mass => new UncertainInput<Board>(mass.Name, ((AddedMass)mass.Change).ArealMass.Spread, t => Changed(board, r =>
                ReferenceEquals(r, mass) ? new AddedMass(((AddedMass)r.Change).ArealMass.Shifted(t)) : r.Change))),
        ];
    }

    private static Board Changed(Board board, Func<BoardRegion, RegionChange> change) => board with
    {
        Shape = board.Shape! with { Regions = [.. board.Shape.Regions.Select(r => r with { Change = change(r) })] },
    };

    private static IEnumerable<UncertainInput<Board>> Solid(Board board)
    {
        SolidTop solid = board.Solid;
        var woods = Of("solid top", solid.Wood, wood => board with { Solid = solid with { Wood = wood } });
        return solid.Thickness is { } h
            ? [.. woods, new("solid top thickness", h.Spread, t => board with { Solid = solid with { Thickness = h.Shifted(t) } })]
            : woods;
    }
}
