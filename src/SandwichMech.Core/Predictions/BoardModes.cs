using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Predictions;

/// <summary>What a small change of one thickness or modulus does to a mode.</summary>
/// <param name="Input">What is changed, in the maker's words.</param>
/// <param name="Change">By how much: "+0.1 mm", "+10 %".</param>
/// <param name="RelativeChange">df/f for it, to first order.</param>
public sealed record ModeSensitivity(string Input, string Change, double RelativeChange);

/// <summary>The modes of a board on its outline, with the spread of everything that it depends on.</summary>
public static class BoardModes
{
    // Half a step each way; the sections are exact at both, so only the curvature over the step is lost.
    private const double ThicknessStep = 0.1e-3, ModulusStep = 0.1;

    /// <summary>Predicted frequency of a mode with its intervals.</summary>
    /// <remarks>To first order through the mode's exact derivatives: no further plate is solved.</remarks>
    /// <param name="board">The board at the medians.</param>
    /// <param name="mode">A mode found with it.</param>
    /// <returns>Hz.</returns>
    public static Prediction Frequency(Board board, PlateMode mode)
    {
        IReadOnlyList<PlateSection> nominal = BoardPlate.Sections(board);
        return Propagation
            .Through(board, BoardInputs.Of(board), b => mode.Frequency * Math.Exp(mode.RelativeChange(nominal, BoardPlate.Sections(b))))
            .Positive(f => f);
    }

    /// <summary>What a tenth of a millimetre or of a modulus does to a mode, largest first.</summary>
    /// <param name="board">The board at the medians.</param>
    /// <param name="mode">A mode found with it.</param>
    /// <returns>One row an input.</returns>
    public static IReadOnlyList<ModeSensitivity> Sensitivities(Board board, PlateMode mode)
    {
        IReadOnlyList<PlateSection> nominal = BoardPlate.Sections(board);
        double Central(Func<double, Board> at) =>
            (mode.RelativeChange(nominal, BoardPlate.Sections(at(0.5))) - mode.RelativeChange(nominal, BoardPlate.Sections(at(-0.5))));
        Estimate Thicker(Estimate e, double t) => e with { Value = e.Value + t * ThicknessStep };
        ModeSensitivity Thickness(string name, Func<double, Board> at) => new(name, "+0.1 mm", Central(at));
        ModeSensitivity Modulus(string name, Func<double, Board> at) => new(name, "+10 %", Central(at));
        Estimate Stiffer(Estimate e, double t) => e.Times(1 + t * ModulusStep);
        return
        [
            .. new[]
            {
                Thickness("outer skin thickness", t => board with { Outer = board.Outer with { Thickness = Thicker(board.Outer.Thickness, t) } }),
                Thickness("inner skin thickness", t => board with { Inner = board.Inner with { Thickness = Thicker(board.Inner.Thickness, t) } }),
                Thickness("core height", t => board with { Core = board.Core with { Height = Thicker(board.Core.Height, t) } }),
                Modulus("outer skin E_L", t => board with { Outer = board.Outer with { Wood = board.Outer.Wood with { EL = Stiffer(board.Outer.Wood.EL, t), ErOverEl = Softer(board.Outer.Wood.ErOverEl, t), GlrOverEl = Softer(board.Outer.Wood.GlrOverEl, t) } } }),
                Modulus("outer skin E_R", t => board with { Outer = board.Outer with { Wood = board.Outer.Wood with { ErOverEl = Stiffer(board.Outer.Wood.ErOverEl, t) } } }),
                Modulus("outer skin G_LR", t => board with { Outer = board.Outer with { Wood = board.Outer.Wood with { GlrOverEl = Stiffer(board.Outer.Wood.GlrOverEl, t) } } }),
                Modulus("inner skin E_L", t => board with { Inner = board.Inner with { Wood = board.Inner.Wood with { EL = Stiffer(board.Inner.Wood.EL, t), ErOverEl = Softer(board.Inner.Wood.ErOverEl, t), GlrOverEl = Softer(board.Inner.Wood.GlrOverEl, t) } } }),
                Modulus("inner skin E_R", t => board with { Inner = board.Inner with { Wood = board.Inner.Wood with { ErOverEl = Stiffer(board.Inner.Wood.ErOverEl, t) } } }),
                Modulus("inner skin G_LR", t => board with { Inner = board.Inner with { Wood = board.Inner.Wood with { GlrOverEl = Stiffer(board.Inner.Wood.GlrOverEl, t) } } }),
                Modulus("core shear moduli", t => board with { Core = board.Core with { Material = board.Core.Material with { ShearRibbon = Stiffer(board.Core.Material.ShearRibbon, t), ShearAcross = Stiffer(board.Core.Material.ShearAcross, t) } } }),
            }.OrderByDescending(s => Math.Abs(s.RelativeChange)),
        ];

        // E_L alone: the other moduli stay, so their ratios to it fall.
        static Estimate Softer(Estimate e, double t) => e.Times(1 / (1 + t * ModulusStep));
    }
}
