using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Predictions;

/// <summary>The solid top that gives way under the bridge as much as the board: same outline, hole, dome, edge, foot, and bars on its faces, one wood and one thickness.</summary>
/// <param name="Thickness">m.</param>
/// <param name="Mass">kg, without bars.</param>
/// <param name="Saved">Its mass less the board's, both without bars, kg.</param>
/// <param name="SavedShare">The same, of its mass.</param>
public sealed record SolidAtBridge(Prediction Thickness, Prediction Mass, Prediction Saved, Prediction SavedShare)
{
    private const int Order = 4, MostSteps = 12;
    private const double Enough = 1e-7, Step = 1e-4;

    // A solid plate's compliance falls with the cube of its thickness, but for shear.
    private const double FirstSlope = -3;

    /// <summary>Finds it.</summary>
    /// <param name="board">The board at the medians.</param>
    /// <param name="edge">How the edge is held; a rim's spring is the one beside the board.</param>
    /// <param name="foot">The bridge's foot.</param>
    /// <param name="deflected">The board under its strings.</param>
    /// <returns>The solid top, with intervals to first order by the exact derivatives of both compliances.</returns>
    /// <exception cref="InvalidOperationException">None is found.</exception>
    public static SolidAtBridge Of(Board board, EdgeHold edge, Curve foot, BoardDeflection deflected)
    {
        BoardShape shape = BoardPlate.ShapeOf(board);
        (PlateProblem frame, IReadOnlyList<SectionPlace> places) = BoardPlate.Problem(board, BoardPlate.FirstSize(shape.Outline), edge, foot);
        IReadOnlyList<PlateSection> Sections(Board b, double h) => SolidInPlace.Sections(b, places, h);

        (PlateStatics Plate, PlateResponse Down) At(double h)
        {
            var plate = PlateStatics.Of(frame with { Sections = Sections(board, h) }, Order);
            return (plate, plate.Respond([new(PlatePush.Deflect, foot)])[0]);
        }

        double wanted = Math.Log(deflected.PerForce.Value), slope = FirstSlope, ln = Math.Log(board.Laminate().Thickness), before = 0, move = 0;
        (PlateStatics Plate, PlateResponse Down) at;
        for (int step = 0; ; step++)
        {
            at = At(Math.Exp(ln));
            double now = Math.Log(PlateStatics.Movement(at.Down, at.Down)) - wanted;
            if (Math.Abs(now) < Enough) { break; }
            if (step == MostSteps) { throw new InvalidOperationException("No solid top of the same stiffness was found."); }
            // Secant from the second step on.
            if (step > 0) { slope = (now - before) / move; }
            before = now;
            move = -now / slope;
            ln += move;
        }

        double thickness = Math.Exp(ln), compliance = PlateStatics.Movement(at.Down, at.Down);
        Func<IReadOnlyList<PlateSection>, double> change = at.Plate.Change(at.Down, at.Down);
        double perThickness = (change(Sections(board, thickness * (1 + Step))) - change(Sections(board, thickness * (1 - Step)))) / (2 * Step * compliance);
        double springs = RimCase.IsOn(board, edge) ? at.Plate.EdgeEnergy(at.Down, at.Down) / compliance : 0;
        double ThicknessOf(RimCase c) => thickness * Math.Exp(
            (deflected.PerForceChange(c) - change(Sections(c.Board, thickness)) / compliance + springs * c.Shift) / perThickness);
        Propagation<(double H, double Solid, double Own)> figures = Propagation.Through(new RimCase(board, 0), RimCase.Inputs(board, edge), c =>
        {
            double h = ThicknessOf(c);
            return (h, Board.SolidPlate(c.Board.Solid.Wood, h).ArealMass * shape.Area, c.Board.MassWithoutBars(c.Board.Laminate()));
        });
        return new(figures.Positive(x => x.H), figures.Positive(x => x.Solid), figures.OfEitherSign(x => x.Solid - x.Own), figures.OfEitherSign(x => 1 - x.Own / x.Solid));
    }
}
