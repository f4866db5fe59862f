using SandwichMech.Core.Layups;
using SandwichMech.Core.Predictions;

namespace SandwichMech.Core.Acoustics;

/// <summary>A board, the solid top in its place and all that their sound depends on, at one set of values.</summary>
/// <param name="Board">The board, with the solid top's wood and thickness.</param>
public sealed record SoundCase(Board Board)
{
    /// <summary>
    /// How far the theory may be off in all frequencies of one plate, standard deviation of the logarithm: 1 %. Judgement: against elasticity in three dimensions plain boards
    /// are within 0.3 %, glued bars within some 2 %; air that moves as in a baffle and an edge that does not give way make up the rest.
    /// </summary>
    public const double TheorySpread = 0.01;

    /// <summary>What is not known of the air that moves with a box's hole, standard deviation of the logarithm: 7 %. Judgement: <see cref="HoleEnds"/> gives 1.57 to 1.70 radii for both ends, and no hole of a box is in an endless wall.</summary>
    public const double HoleSpread = 0.07;

    private static readonly int Kinds = Enum.GetValues<LossKind>().Length;
    // Edge and sound are the same for both: one frame, one size.
    private static readonly LossKind[] Shared = [LossKind.Radiation, LossKind.Edge], OfWood = [LossKind.WoodAlong, LossKind.WoodAcross, LossKind.WoodShear], OfBoard = [LossKind.Core, LossKind.Film];

    private double[] Losses { get; init; } = new double[2 * Kinds];

    /// <summary>Shift of the logarithm of a rim's stiffness, of both.</summary>
    internal double Rim { get; init; }
    /// <summary>Shift of the logarithm of the board's frequencies by what the theory is off.</summary>
    internal double Theory { get; init; }
    /// <summary>The same of the solid top's.</summary>
    internal double SolidTheory { get; init; }
    /// <summary>Shift of the logarithm of the end correction of a box's hole.</summary>
    internal double Hole { get; init; }

    /// <summary>The end correction of a box's hole, in radii.</summary>
    public double EndCorrection => HoleEnds.ThinWall * Math.Exp(Hole);

    /// <summary>Shift of a loss factor of the board, in standard deviations.</summary>
    internal double Loss(LossKind kind) => Losses[(int)kind];

    /// <summary>The same of the solid top.</summary>
    internal double SolidLoss(LossKind kind) => Losses[Kinds + (int)kind];

    /// <summary>All inputs of a board and a solid top in one frame; what both share is one input.</summary>
    /// <param name="board">The board.</param>
    /// <param name="named">Whether the solid top's thickness is one that somebody made, with its own spread; otherwise it is what equals the board.</param>
    /// <returns>Independent inputs, as shifts that can follow on each other.</returns>
    internal static IReadOnlyList<InputShift<SoundCase>> Inputs(Board board, bool named) =>
    [
        .. BoardInputs.Shifts(board).Select(i => OfTheBoard(i)),
        .. InputShifts.Of(board.Solid.Wood).Select(i => OfTheBoard(i.Of<Board>(b => b.Solid.Wood, (b, w) => b with { Solid = b.Solid with { Wood = w } }, "solid top "))),
        .. named && board.Solid.Thickness is { Spread: > 0 } h
            ? (InputShift<SoundCase>[])[OfTheBoard(new("solid top thickness", h.Spread, (b, t) => b with { Solid = b.Solid with { Thickness = b.Solid.Thickness!.Value.Shifted(t) } }))]
            : [],
        .. RimCase.IsOn(board, BoardShapeEdge(board)) ? (InputShift<SoundCase>[])[new("rim's hold", RimCase.Spread, (c, t) => c with { Rim = c.Rim + t })] : [],
        new("theory", TheorySpread, (c, t) => c with { Theory = c.Theory + t }),
        new("theory of the solid top", TheorySpread, (c, t) => c with { SolidTheory = c.SolidTheory + t }),
        new("air at the hole's ends", HoleSpread, (c, t) => c with { Hole = c.Hole + t }),
        .. Shared.Select(k => new InputShift<SoundCase>($"loss by {Word(k)}", 1, (c, t) => c.WithLoss(k, t, t))),
        .. OfBoard.Concat(OfWood).Select(k => new InputShift<SoundCase>($"loss of {Word(k)}", 1, (c, t) => c.WithLoss(k, t, 0))),
        // Another piece of wood: its losses are its own.
        .. OfWood.Select(k => new InputShift<SoundCase>($"solid top's loss of {Word(k)}", 1, (c, t) => c.WithLoss(k, 0, t))),
    ];

    private static EdgeHold BoardShapeEdge(Board board) => board.Shape?.Edge ?? EdgeHold.Free;

    private static InputShift<SoundCase> OfTheBoard(InputShift<Board> input) => input.Of<SoundCase>(c => c.Board, (c, b) => c with { Board = b });

    private SoundCase WithLoss(LossKind kind, double own, double solid)
    {
        double[] losses = [.. Losses];
        losses[(int)kind] += own;
        losses[Kinds + (int)kind] += solid;
        return this with { Losses = losses };
    }

    private static string Word(LossKind kind) => kind switch
    {
        LossKind.WoodAlong => "wood along",
        LossKind.WoodAcross => "wood across",
        LossKind.WoodShear => "wood in shear",
        LossKind.Core => "the core",
        LossKind.Film => "the adhesive film",
        LossKind.Radiation => "sound",
        _ => "the edge",
    };
}
