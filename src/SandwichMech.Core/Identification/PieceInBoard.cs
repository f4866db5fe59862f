using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Identification;

/// <summary>What a board that a piece goes into will be, as properties of the piece: so that the next reading is the one that tells most about the board.</summary>
public static class PieceInBoard
{
    private const int Modes = 3;
    // Beside what a table leaves open, nothing.
    private const double Accuracy = 3e-3;

    /// <summary>Mass and first modes.</summary>
    /// <remarks>Modes to first order about the board as known now, by their exact derivatives. What is open of the board's other materials no reading of the piece narrows.</remarks>
    /// <param name="board">The board; its shape is given.</param>
    /// <param name="isPiece">Whether a wood of it is the piece's.</param>
    /// <returns>Properties of a plate of wood.</returns>
    /// <exception cref="Plates.DomainException">The outline, holes and regions cannot be meshed.</exception>
    public static IReadOnlyList<SampleProperty> Properties(Board board, Func<Wood, bool> isPiece)
    {
        Board own = board.Tapped(), known = own.InWoods(w => isPiece(w) ? Sure(w) : w);
        var frame = OutlineFrame.For(own, Modes, Accuracy);
        IReadOnlyList<Prediction> frequencies = frame.Frequencies(known, frame.Own);
        Prediction mass = Propagation.Through(known, BoardInputs.Of(known), b => b.Mass(b.Laminate())).Positive(m => m);
        return
        [
            new("the board's mass", "board mass", s => Mass(With(s))) { Beside = Spread(mass) },
            .. frame.Own.Modes.Select((mode, i) =>
            {
                Func<Board, double> change = frame.Change(own, mode);
                return new SampleProperty($"the board's mode {i + 1}", $"board f{i + 1}", s => mode.Frequency * Math.Exp(change(With(s)))) { Beside = Spread(frequencies[i]) };
            }),
        ];

        Board With(Sample s) => own.InWoods(w => isPiece(w) ? ((WoodSample)s).Wood : w);

        static double Mass(Board b) => b.Mass(b.Laminate());

        static double Spread(Prediction p) => Math.Log(p.High90 / p.Low90) / (2 * Propagation.Z90);
    }

    private static Wood Sure(Wood wood)
    {
        static Estimate Known(Estimate e) => e with { Spread = 0 };
        return wood with { Density = Known(wood.Density), EL = Known(wood.EL), ErOverEl = Known(wood.ErOverEl), GlrOverEl = Known(wood.GlrOverEl), GltOverEl = Known(wood.GltOverEl), GrtOverEl = Known(wood.GrtOverEl) };
    }
}
