using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Predictions;

namespace SandwichMech.Core.Identification;

/// <summary>What is uncertain about a piece before it is read, and what is wanted of it.</summary>
public static class SampleInputs
{
    // ln sd of the ratio of tapped to bent moduli: 5 to 10 % stiffer are its limits.
    private const double RatioSpread = 0.015;

    private const string CoreShear = "core shear moduli";

    /// <summary>Name of the input that stands for how much stiffer than usual the rim holds the board, and the symbol of the property.</summary>
    internal const string RimsHold = "rim's hold", RimSymbol = "rim";

    /// <summary>Of a plate of solid wood; density and modulus go together.</summary>
    /// <param name="wood">As the table has it.</param>
    /// <param name="thickness">Spread of the mean thickness.</param>
    /// <param name="moisture">Standard deviation of the moisture content, percent.</param>
    public static IReadOnlyList<InputShift<Sample>> OfWood(Wood wood, double thickness, double moisture) =>
    [
        .. InputShifts.Of(wood).Select(i => i.Of<Sample>(s => ((WoodSample)s).Wood, (s, w) => (WoodSample)s with { Wood = w })),
        new("thickness", thickness, (s, t) => (WoodSample)s with { Thickness = ((WoodSample)s).Thickness * Math.Exp(t) }),
        // Of moisture, in percent, the shift is none of a logarithm.
        new("moisture", moisture, (s, t) => (WoodSample)s with { MoisturePercent = Math.Max(0, ((WoodSample)s).MoisturePercent + t) }),
        Ratio,
    ];

    /// <summary>Of a sandwich: as of a board, but that its core's two shear moduli, which its readings are to tell, share half of their variance only.</summary>
    /// <param name="board">As tables and file have it, thicknesses with their spread.</param>
    public static IReadOnlyList<InputShift<Sample>> OfSandwich(Board board) =>
        [.. Layup(board).Select(i => i.Of<Sample>(s => ((SandwichSample)s).Board, (s, b) => (SandwichSample)s with { Board = b })), Ratio];

    /// <summary>Of a board on its outline: as of a sandwich, its regions and the rim's hold besides.</summary>
    /// <param name="board">As tables, pieces and file have it.</param>
    public static IReadOnlyList<InputShift<Sample>> OfBoard(Board board)
    {
        InputShift<Sample>[] own = [.. Layup(board).Concat(InputShifts.OfRegions(board)).Select(i => i.Of<Sample>(s => ((BoardSample)s).Board, (s, b) => (BoardSample)s with { Board = b }))];
        return RimCase.IsOn(board, board.Shape!.Edge)
            ? [.. own, new(RimsHold, RimCase.Spread, (s, t) => (BoardSample)s with { RimShift = ((BoardSample)s).RimShift + t })]
            : own;
    }

    private static InputShift<Board>[] Layup(Board board)
    {
        double shear = board.Core.Material.ShearRibbon.Spread / Math.Sqrt(2);
        return
        [
            .. InputShifts.OfLayup(board).Select(i => i.Name == CoreShear ? i with { Spread = shear } : i),
            new("core shear modulus along the ribbon", shear, (b, t) => With(b, m => m with { ShearRibbon = m.ShearRibbon.Shifted(t) })),
            new("core shear modulus across the ribbon", shear, (b, t) => With(b, m => m with { ShearAcross = m.ShearAcross.Shifted(t) })),
        ];

        static Board With(Board b, Func<CoreMaterial, CoreMaterial> change) => b with { Core = b.Core with { Material = change(b.Core.Material) } };
    }

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

    /// <summary>What is wanted of a board: moduli as a tap finds them, its layup where nothing is let in.</summary>
    /// <param name="board">The board; its shape is given.</param>
    public static IReadOnlyList<SampleProperty> BoardProperties(Board board)
    {
        SampleProperty[] own =
        [
            new("mass", "mass", s => s.Mass),
            new("bending stiffness along", "D along", s => s.Layup(false).Bending.M11),
            new("bending stiffness across", "D across", s => s.Layup(false).Bending.M22),
            new("stiffness against twisting", "D twist", s => s.Layup(false).Bending.M66),
            new("core shear along the ribbon", "G ribbon", s => ((BoardSample)s).Board.Core.Material.ShearRibbon.Value),
            new("core shear across the ribbon", "G across", s => ((BoardSample)s).Board.Core.Material.ShearAcross.Value),
        ];
        return RimCase.IsOn(board, board.Shape!.Edge) ? [.. own, new("rim's hold, of its usual", RimSymbol, s => Math.Exp(((BoardSample)s).RimShift))] : own;
    }

    private static InputShift<Sample> Ratio => new("tapped over bent stiffness", RatioSpread, (s, t) => s with { TappedOverBent = s.TappedOverBent * Math.Exp(t) });
}
