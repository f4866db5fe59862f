using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;

namespace SandwichMech.Core.Identification;

/// <summary>What is uncertain about a piece before it is read, and what is wanted of it.</summary>
public static class SampleInputs
{
    // ln sd of the ratio of tapped to bent moduli: 5 to 10 % stiffer are its limits.
    private const double RatioSpread = 0.015;

    /// <summary>Of a plate of solid wood; density and modulus go together.</summary>
    /// <param name="wood">As the table has it.</param>
    /// <param name="thickness">Spread of the mean thickness.</param>
    /// <param name="moisture">Standard deviation of the moisture content, percent.</param>
    public static IReadOnlyList<SampleInput> OfWood(Wood wood, double thickness, double moisture) =>
    [
        .. OfWood("", wood, s => ((WoodSample)s).Wood, (s, w) => (WoodSample)s with { Wood = w }),
        new("thickness", thickness, (s, t) => (WoodSample)s with { Thickness = ((WoodSample)s).Thickness * Math.Exp(t) }),
        new("moisture", moisture, (s, t) => (WoodSample)s with { MoisturePercent = Math.Max(0, ((WoodSample)s).MoisturePercent + t) }),
        Ratio,
    ];

    /// <summary>Of a sandwich.</summary>
    /// <param name="board">As tables and file have it, thicknesses with their spread.</param>
    public static IReadOnlyList<SampleInput> OfSandwich(Board board) =>
    [
        new("outer skin thickness", board.Outer.Thickness.Spread, (s, t) => With(s, b => b with { Outer = b.Outer with { Thickness = b.Outer.Thickness.Shifted(t) } })),
        .. OfWood("outer skin ", board.Outer.Wood, s => ((SandwichSample)s).Board.Outer.Wood, (s, w) => With(s, b => b with { Outer = b.Outer with { Wood = w } })),
        new("inner skin thickness", board.Inner.Thickness.Spread, (s, t) => With(s, b => b with { Inner = b.Inner with { Thickness = b.Inner.Thickness.Shifted(t) } })),
        .. OfWood("inner skin ", board.Inner.Wood, s => ((SandwichSample)s).Board.Inner.Wood, (s, w) => With(s, b => b with { Inner = b.Inner with { Wood = w } })),
        new("core height", board.Core.Height.Spread, (s, t) => With(s, b => b with { Core = b.Core with { Height = b.Core.Height.Shifted(t) } })),
        Core("core density", board.Core.Material.Density.Spread, (m, t) => m with { Density = m.Density.Shifted(t) }),
        // What both directions share, and what each has of its own: half each of the variance.
        Core("core shear moduli", board.Core.Material.ShearRibbon.Spread / Math.Sqrt(2), (m, t) => m with { ShearRibbon = m.ShearRibbon.Shifted(t), ShearAcross = m.ShearAcross.Shifted(t) }),
        Core("core shear modulus along the ribbon", board.Core.Material.ShearRibbon.Spread / Math.Sqrt(2), (m, t) => m with { ShearRibbon = m.ShearRibbon.Shifted(t) }),
        Core("core shear modulus across the ribbon", board.Core.Material.ShearAcross.Spread / Math.Sqrt(2), (m, t) => m with { ShearAcross = m.ShearAcross.Shifted(t) }),
        Glue("adhesive mixed", board.Adhesive.Mixed.Spread, (a, t) => a with { Mixed = a.Mixed.Shifted(t) }),
        Glue("adhesive kept", board.Adhesive.KeptShare.Spread, (a, t) => a with { KeptShare = a.KeptShare.ShiftedShare(t) }),
        Glue("film share", board.Adhesive.FilmShare.Spread, (a, t) => a with { FilmShare = a.FilmShare.ShiftedShare(t) }),
        Glue("film modulus", board.Adhesive.FilmModulus.Spread, (a, t) => a with { FilmModulus = a.FilmModulus.Shifted(t) }),
        Ratio,
    ];

    /// <summary>What is wanted of a plate of wood: at the tables' moisture content, moduli as a tap finds them.</summary>
    public static readonly IReadOnlyList<SampleProperty> WoodProperties =
    [
        new("density", "rho", s => ((WoodSample)s).Wood.Density.Value),
        new("stiffness along the grain", "E_L", s => ((WoodSample)s).Wood.EL.Value),
        new("stiffness across the grain", "E_R", s => ((WoodSample)s).Wood.ER),
        new("shear in the plate", "G_LR", s => ((WoodSample)s).Wood.Glr),
    ];

    /// <summary>What is wanted of a sandwich.</summary>
    public static readonly IReadOnlyList<SampleProperty> SandwichProperties =
    [
        new("areal density", "m", s => ((SandwichSample)s).Board.Laminate().ArealMass),
        new("bending stiffness along", "D along", s => ((SandwichSample)s).Board.Laminate().Bending.M11),
        new("bending stiffness across", "D across", s => ((SandwichSample)s).Board.Laminate().Bending.M22),
        new("core shear along the ribbon", "G ribbon", s => ((SandwichSample)s).Board.Core.Material.ShearRibbon.Value),
        new("core shear across the ribbon", "G across", s => ((SandwichSample)s).Board.Core.Material.ShearAcross.Value),
    ];

    private static SampleInput Ratio => new("tapped over bent stiffness", RatioSpread, (s, t) => s with { TappedOverBent = s.TappedOverBent * Math.Exp(t) });

    private static IEnumerable<SampleInput> OfWood(string of, Wood wood, Func<Sample, Wood> get, Func<Sample, Wood, Sample> put)
    {
        // ln E_L = ρ · (what density brings) + its own.
        double follows = wood.Density.Spread > 0 ? BoardInputs.ModulusWithDensity * wood.EL.Spread / wood.Density.Spread : 0;
        double own = wood.EL.Spread * (wood.Density.Spread > 0 ? Math.Sqrt(1 - BoardInputs.ModulusWithDensity * BoardInputs.ModulusWithDensity) : 1);
        SampleInput One(string name, double spread, Func<Wood, double, Wood> shift) => new(of + name, spread, (s, t) => put(s, shift(get(s), t)));
        return
        [
            One("density", wood.Density.Spread, (w, t) => w with { Density = w.Density.Shifted(t), EL = w.EL.Shifted(t * follows) }),
            One("E_L", own, (w, t) => w with { EL = w.EL.Shifted(t) }),
            One("E_R/E_L", wood.ErOverEl.Spread, (w, t) => w with { ErOverEl = w.ErOverEl.Shifted(t) }),
            One("G_LR/E_L", wood.GlrOverEl.Spread, (w, t) => w with { GlrOverEl = w.GlrOverEl.Shifted(t) }),
            One("G_LT/E_L", wood.GltOverEl.Spread, (w, t) => w with { GltOverEl = w.GltOverEl.Shifted(t) }),
            One("G_RT/E_L", wood.GrtOverEl.Spread, (w, t) => w with { GrtOverEl = w.GrtOverEl.Shifted(t) }),
        ];
    }

    private static SandwichSample With(Sample s, Func<Board, Board> change)
    {
        var sandwich = (SandwichSample)s;
        return sandwich with { Board = change(sandwich.Board) };
    }

    private static SampleInput Core(string name, double spread, Func<CoreMaterial, double, CoreMaterial> shift) =>
        new(name, spread, (s, t) => With(s, b => b with { Core = b.Core with { Material = shift(b.Core.Material, t) } }));

    private static SampleInput Glue(string name, double spread, Func<Adhesive, double, Adhesive> shift) =>
        new(name, spread, (s, t) => With(s, b => b with { Adhesive = shift(b.Adhesive, t) }));
}
