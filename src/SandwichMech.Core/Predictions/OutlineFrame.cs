using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Predictions;

/// <summary>The first modes in air of one plate on a frame.</summary>
/// <param name="Plate">Its modes in vacuo.</param>
/// <param name="Modes">Its modes in air, lowest first, each with its numerical error.</param>
/// <param name="Shapes">Their deflection at the frame's nodes.</param>
public sealed record FirstModes(PlateSolution Plate, IReadOnlyList<PlateMode> Modes, IReadOnlyList<double[]> Shapes);

/// <summary>One mesh for a board and for all on its outline that differ from it in thickness or wood: only sections change, so that modes can be compared by shape.</summary>
/// <remarks>Where frequencies over a range of designs come from; what answers faster can take the place of <see cref="Of(Board)"/>.</remarks>
public sealed class OutlineFrame
{
    private readonly PlateProblem _problem;
    private readonly IReadOnlyList<SectionPlace> _places;
    private readonly double[] _areas;
    private readonly int _count;
    private readonly double _accuracy;
    private readonly bool _baffled;

    private OutlineFrame(Board board, PlateProblem problem, IReadOnlyList<SectionPlace> places, PlateSolution plate, int count, double accuracy)
    {
        (_problem, _places, _count, _accuracy) = (problem, places, count, accuracy);
        _baffled = BoardPlate.ShapeOf(board).Edge != EdgeHold.Free;
        _areas = plate.Field.Areas();
        Own = InAir(plate);
    }

    /// <summary>The modes of the board that the frame was made for.</summary>
    public FirstModes Own { get; }

    /// <summary>Where each of the sections of its plates stands.</summary>
    public IReadOnlyList<SectionPlace> Places => _places;

    /// <summary>Makes a frame.</summary>
    /// <param name="board">The board at the medians; its shape is given.</param>
    /// <param name="count">Flexible modes wanted of each plate.</param>
    /// <param name="accuracy">Wanted relative numerical error of this board's frequencies; others' are told with them.</param>
    /// <returns>The frame, with the board's modes.</returns>
    /// <exception cref="DomainException">The outline, holes and regions cannot be meshed.</exception>
    public static OutlineFrame For(Board board, int count, double accuracy)
    {
        PlateProblem problem = null!;
        IReadOnlyList<SectionPlace> places = [];
        PlateSolution plate = PlateSolver.Solve(
            size =>
            {
                (problem, places) = BoardPlate.Problem(board, size);
                return problem;
            },
            BoardPlate.FirstSize(BoardPlate.ShapeOf(board).Outline), count, accuracy, PlateSolver.BeyondForAir);
        return new(board, problem, places, plate, count, accuracy);
    }

    /// <summary>Modes of a board that differs from the frame's in thickness or material.</summary>
    /// <param name="board">The board.</param>
    /// <returns>Its modes, its rim's spring its own.</returns>
    public FirstModes Of(Board board) => Of(board, board);

    /// <summary>The same with so many times the rim's spring of another board.</summary>
    internal FirstModes Of(Board board, Board beside, double rim = 1) => Solve(Sections(board), beside, rim);

    /// <summary>A board's sections on the frame's mesh.</summary>
    internal IReadOnlyList<PlateSection> Sections(Board board) => BoardPlate.Sections(board, _places);

    /// <summary>Modes of the solid top in a board's place: same outline, hole, dome, edge, and bars on its faces.</summary>
    /// <param name="board">The board; a rim's spring is the one beside it.</param>
    /// <param name="thickness">m.</param>
    /// <returns>The solid's modes.</returns>
    public FirstModes OfSolid(Board board, double thickness) => Solve(SolidInPlace.Sections(board, _places, thickness), board);

    /// <summary>Predicted frequencies of a board's modes, with their intervals.</summary>
    /// <param name="board">The board.</param>
    /// <param name="modes">Its modes, by <see cref="Of(Board)"/>.</param>
    /// <returns>Hz.</returns>
    public IReadOnlyList<Prediction> Frequencies(Board board, FirstModes modes) => BoardModes.Frequencies(board, new(modes.Plate, _places), modes.Modes);

    /// <summary>What one standard deviation of each of a board's inputs does to the logarithm of a mode's frequency.</summary>
    internal double[] Effects(Board board, FirstModes modes, PlateMode mode) => BoardModes.Effects(board, new(modes.Plate, _places), [mode]).Effects[0];

    /// <summary>Change of ln frequency of a board's mode for a changed board, to first order; a rim stays.</summary>
    internal Func<Board, double> Change(Board board, PlateMode mode)
    {
        IReadOnlyList<PlateSection> own = BoardPlate.Sections(board, _places);
        return changed => mode.RelativeChange(own, BoardPlate.Sections(changed, _places));
    }

    /// <summary>The same of a solid top's mode, for changed wood or bars and a changed thickness.</summary>
    internal Func<Board, double, double> SolidChange(Board board, double thickness, PlateMode mode)
    {
        IReadOnlyList<PlateSection> own = SolidInPlace.Sections(board, _places, thickness);
        return (changed, h) => mode.RelativeChange(own, SolidInPlace.Sections(changed, _places, h));
    }

    /// <summary>Number of the mode, from 0, whose shape is most like a given one.</summary>
    internal int MostLike(double[] shape, FirstModes modes) => ShapeField.MostLike(shape, modes.Shapes, _areas);

    private FirstModes Solve(IReadOnlyList<PlateSection> sections, Board beside, double rim = 1) =>
        InAir(PlateSolver.OnMesh(_problem with { Sections = sections, Support = BoardPlate.Supports(beside, rim: rim) }, _count, Own.Plate.Order, _accuracy, PlateSolver.BeyondForAir));

    private FirstModes InAir(PlateSolution plate)
    {
        IReadOnlyList<AirMode> air = plate.InAir(_baffled, AmbientAir.Density, _count).Modes;
        return new(plate, plate.InAir(air), [.. air.Select(m => m.Shape.ToArray())]);
    }
}
