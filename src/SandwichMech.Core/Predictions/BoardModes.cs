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

    /// <summary>Predicted frequencies of all modes with their intervals.</summary>
    /// <remarks>To first order through the modes' exact derivatives: no further plate is solved. On a rim, how well that holds is an input too, and so is the model's own error.</remarks>
    /// <param name="board">The board at the medians.</param>
    /// <param name="solution">Its modes.</param>
    /// <param name="modes">Modes of it in air (<see cref="PlateSolution.InAir(IReadOnlyList{AirMode})"/>); its own in vacuo where none are given.</param>
    /// <returns>Hz, one a mode.</returns>
    public static IReadOnlyList<Prediction> Frequencies(Board board, BoardSolution solution, IReadOnlyList<PlateMode>? modes = null)
    {
        IReadOnlyList<PlateMode> of = modes ?? solution.Plate.Modes;
        (IReadOnlyList<string> inputs, double[][] effects) = Effects(board, solution, of);
        string[] named = [.. inputs, ModelItself];
        return [.. of.Select((m, i) => Propagation.Predict(m.Frequency, named, [.. effects[i], ModelSpread(board)], (z, sd) => m.Frequency * Math.Exp(z * sd)))];
    }

    /// <summary>What a model is called among a prediction's sources.</summary>
    internal const string ModelItself = "the model itself";

    /// <summary>
    /// How far the frequencies of first-order theory on the outline are off, standard deviation of the logarithm: judgement from its differences to three-dimensional elasticity (at most 0.4 %
    /// plain, 1.1 % with bridge and braces) and what air and edge leave out.
    /// </summary>
    internal static double ModelSpread(Board board) => board.Shape?.Regions.Any(r => r.Change is GluedBar) == true ? 0.01 : 0.005;

    /// <summary>What one standard deviation of each input does to the logarithm of each frequency, the rim's hold last where it holds the edge.</summary>
    internal static (IReadOnlyList<string> Inputs, double[][] Effects) Effects(Board board, BoardSolution solution, IReadOnlyList<PlateMode> modes)
    {
        Func<Board, double[]> changes = Changes(board, solution, modes);
        EdgeHold edge = board.Shape?.Edge ?? EdgeHold.Free;
        bool rim = RimCase.IsOn(board, edge);
        Propagation<(double[] Own, double Rim)> figures = Propagation.Through(new RimCase(board, 0), RimCase.Inputs(board, edge), at => (changes(at.Board), at.Shift));
        return (figures.Inputs, [.. modes.Select((m, i) => figures.Effects(c => c.Own[i] + (rim ? Rim(m.Energy) / 2 * c.Rim : 0)))]);
    }

    // What the sections do not hold, the rim's springs do; a frequency goes with the root of a stiffness.
    internal static double Rim(EnergyShares e) => 1 - e.Along - e.Across - e.Twist - e.Shear - e.Membrane - e.Bars;

    /// <summary>What a tenth of a millimetre or of a modulus does to the modes, largest first.</summary>
    /// <param name="board">The board at the medians.</param>
    /// <param name="solution">Its modes.</param>
    /// <param name="modes">Modes of it in air; its own in vacuo where none are given.</param>
    /// <returns>For each mode, one row an input.</returns>
    public static IReadOnlyList<IReadOnlyList<ModeSensitivity>> Sensitivities(Board board, BoardSolution solution, IReadOnlyList<PlateMode>? modes = null)
    {
        IReadOnlyList<PlateMode> of = modes ?? solution.Plate.Modes;
        Func<Board, double[]> changes = Changes(board, solution, of);
        var rows = Steps(board).Select(step => (step, More: changes(step.At(0.5)), Less: changes(step.At(-0.5)))).ToList();
        return [.. of.Select((_, i) => (IReadOnlyList<ModeSensitivity>)
        [
            .. rows.Select(r => new ModeSensitivity(r.step.Name, r.step.Change, r.More[i] - r.Less[i])).OrderByDescending(s => Math.Abs(s.RelativeChange)),
        ])];
    }

    // Relative change of every frequency from the board's own.
    private static Func<Board, double[]> Changes(Board board, BoardSolution solution, IReadOnlyList<PlateMode> modes)
    {
        IReadOnlyList<PlateSection> nominal = BoardPlate.Sections(board, solution.Places);
        return b =>
        {
            IReadOnlyList<PlateSection> changed = BoardPlate.Sections(b, solution.Places);
            return [.. modes.Select(m => m.RelativeChange(nominal, changed))];
        };
    }

    private sealed record Step(string Name, string Change, Func<double, Board> At);

    private static Step[] Steps(Board board)
    {
        Estimate Thicker(Estimate e, double t) => e with { Value = e.Value + t * ThicknessStep };
        Step Thickness(string name, Func<double, Board> at) => new(name, "+0.1 mm", at);
        Step Modulus(string name, Func<double, Board> at) => new(name, "+10 %", at);
        Estimate Stiffer(Estimate e, double t) => e.Times(1 + t * ModulusStep);
        return
        [
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
        ];

        // E_L alone: the other moduli stay, so their ratios to it fall.
        static Estimate Softer(Estimate e, double t) => e.Times(1 / (1 + t * ModulusStep));
    }
}
