using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>An input of a board that a reduced model lets vary: read from a board, and put into one.</summary>
/// <param name="Name">In the maker's words.</param>
/// <param name="Of">Its value in a board, SI, positive.</param>
/// <param name="Put">The board with another value; everything else stays.</param>
internal sealed record RangedInput(string Name, Func<Board, double> Of, Func<Board, double, Board> Put)
{
    /// <summary>All that may vary in a board of one shape: skins, core, adhesive, woods of regions, heights of bars.</summary>
    /// <remarks>Ratios stand after the modulus that they are taken to, so that putting one after the other gives any board.</remarks>
    internal static IReadOnlyList<RangedInput> All(Board board) =>
    [
        .. OfSkin("outer skin", b => b.Outer, (b, s) => b with { Outer = s }),
        .. OfSkin("inner skin", b => b.Inner, (b, s) => b with { Inner = s }),
        new("core height", b => b.Core.Height.Value, (b, v) => b with { Core = b.Core with { Height = b.Core.Height with { Value = v } } }),
        OfCore("core density", m => m.Density.Value, (m, v) => m with { Density = m.Density with { Value = v } }),
        OfCore("core shear modulus along the ribbon", m => m.ShearRibbon.Value, (m, v) => m with { ShearRibbon = m.ShearRibbon with { Value = v } }),
        OfCore("core shear modulus across the ribbon", m => m.ShearAcross.Value, (m, v) => m with { ShearAcross = m.ShearAcross with { Value = v } }),
        OfGlue("adhesive mixed", a => a.Mixed.Value, (a, v) => a with { Mixed = a.Mixed with { Value = v } }),
        OfGlue("adhesive kept", a => a.KeptShare.Value, (a, v) => a with { KeptShare = a.KeptShare with { Value = v } }),
        OfGlue("film share", a => a.FilmShare.Value, (a, v) => a with { FilmShare = a.FilmShare with { Value = v } }),
        OfGlue("adhesive density", a => a.Density.Value, (a, v) => a with { Density = a.Density with { Value = v } }),
        OfGlue("film modulus", a => a.FilmModulus.Value, (a, v) => a with { FilmModulus = a.FilmModulus with { Value = v } }),
        .. InRegions(board),
    ];

    private static IEnumerable<RangedInput> OfSkin(string name, Func<Board, Skin> skin, Func<Board, Skin, Board> put) =>
    [
        new($"{name} thickness", b => skin(b).Thickness.Value, (b, v) => put(b, skin(b) with { Thickness = skin(b).Thickness with { Value = v } })),
        .. OfWood(name, b => skin(b).Wood, (b, w) => put(b, skin(b) with { Wood = w })),
    ];

    private static IEnumerable<RangedInput> OfWood(string name, Func<Board, Wood> wood, Func<Board, Wood, Board> put)
    {
        return
        [
            One("density", w => w.Density.Value, (w, v) => w with { Density = w.Density with { Value = v } }),
            One("E_L", w => w.EL.Value, (w, v) => w with { EL = w.EL with { Value = v } }),
            One("E_R/E_L", w => w.ErOverEl.Value, (w, v) => w with { ErOverEl = w.ErOverEl with { Value = v } }),
            One("G_LR/E_L", w => w.GlrOverEl.Value, (w, v) => w with { GlrOverEl = w.GlrOverEl with { Value = v } }),
            One("G_LT/E_L", w => w.GltOverEl.Value, (w, v) => w with { GltOverEl = w.GltOverEl with { Value = v } }),
            One("G_RT/E_L", w => w.GrtOverEl.Value, (w, v) => w with { GrtOverEl = w.GrtOverEl with { Value = v } }),
            One("nu_LR", w => w.NuLR, (w, v) => w with { NuLR = v }),
        ];

        RangedInput One(string what, Func<Wood, double> of, Func<Wood, double, Wood> with) =>
            new($"{name} {what}", b => of(wood(b)), (b, v) => put(b, with(wood(b), v)));
    }

    private static RangedInput OfCore(string name, Func<CoreMaterial, double> of, Func<CoreMaterial, double, CoreMaterial> with) =>
        new(name, b => of(b.Core.Material), (b, v) => b with { Core = b.Core with { Material = with(b.Core.Material, v) } });

    private static RangedInput OfGlue(string name, Func<Adhesive, double> of, Func<Adhesive, double, Adhesive> with) =>
        new(name, b => of(b.Adhesive), (b, v) => b with { Adhesive = with(b.Adhesive, v) });

    // Regions of one wood share it, as in BoardInputs: what is put goes into all of them.
    private static IEnumerable<RangedInput> InRegions(Board board)
    {
        if (board.Shape is not { } shape) { yield break; }
        var seen = new HashSet<Wood>(ReferenceEqualityComparer.Instance);
        for (int i = 0; i < shape.Regions.Count; i++)
        {
            int first = i;
            if (shape.Regions[i].Change.OwnWood is { } own && seen.Add(own))
            {
                int[] sharing = [.. Enumerable.Range(0, shape.Regions.Count).Where(r => ReferenceEquals(shape.Regions[r].Change.OwnWood, own))];
                foreach (RangedInput one in OfWood($"{shape.Regions[i].Name} wood", b => b.Shape!.Regions[first].Change.OwnWood!, (b, w) => Changed(b, sharing, c => c.InWood(w))))
                {
                    yield return one;
                }
            }

            if (shape.Regions[i].Change is AddedMass)
            {
                yield return new(shape.Regions[i].Name, b => ((AddedMass)b.Shape!.Regions[first].Change).ArealMass.Value,
                    (b, v) => Changed(b, [first], c => new AddedMass(((AddedMass)c).ArealMass with { Value = v })));
            }

            if (shape.Regions[i].Change is GluedBar)
            {
                yield return new($"{shape.Regions[i].Name} height", b => ((GluedBar)b.Shape!.Regions[first].Change).Height.Value,
                    (b, v) => Changed(b, [first], c => (GluedBar)c with { Height = ((GluedBar)c).Height with { Value = v } }));
            }
        }
    }

    private static Board Changed(Board board, int[] regions, Func<RegionChange, RegionChange> change) => board with
    {
        Shape = board.Shape! with { Regions = [.. board.Shape.Regions.Select((r, i) => regions.Contains(i) ? r with { Change = change(r.Change) } : r)] },
    };
}
