using SandwichMech.Core.Acoustics;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Limits;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Choosing;

/// <summary>What plates are asked for beyond their modes.</summary>
/// <param name="Bridge">Where strings push, of a shape; nothing where there is no bridge.</param>
/// <param name="Limits">All limits of a board.</param>
/// <param name="Accuracy">Wanted relative numerical error of frequencies.</param>
public sealed record PlateWish(Func<BoardShape, PlateAction?> Bridge, Func<Board, LimitReport> Limits, double Accuracy);

/// <summary>A board that was solved for.</summary>
/// <param name="At">Which.</param>
/// <param name="Layup">What its layup says (<see cref="LayupFigures"/>).</param>
/// <param name="Values">Its figures, one a target.</param>
/// <param name="Modes">Its modes by how the edge is held.</param>
/// <param name="Place">Logarithms of its stiffnesses and areal density: how far it is from another.</param>
internal sealed record SolvedBoard(Candidate At, double[] Layup, ChoiceValue[] Values, IReadOnlyDictionary<EdgeHold, SolvedModes> Modes, double[] Place);

/// <summary>The modes of a solved board.</summary>
internal sealed record SolvedModes(OutlineFrame Frame, Board Board, IReadOnlyList<PlateSection> Sections, FirstModes Found);

/// <summary>The figures that need a plate: of some boards solved, of all others told from the nearest of these, with how far that may be off.</summary>
/// <remarks>
/// Modes by Rayleigh's quotient of the solved board's shapes, off by the square of the distance; mobility, level and margin by the way the layup goes, off by the distance. The factors of both
/// are learned: each solved board is first told from the others, and what it turns out to be off by, doubled, is the least that is taken from then on.
/// </remarks>
internal sealed class PlateFigures
{
    private const double Safety = 2, FirstSquare = 0.15, FirstStraight = 0.3;
    private const int BeyondModes = 2, SoundModes = 8;
    // Of one mesh, two boards' errors are all but the same.
    private const double Rounding = 1e-4;
    private const double LowestHeard = 60;
    // How far sound is off by its model: standard deviations, judgement. Losses a factor of two either way move a mobility's peaks alone.
    private const double MobilitySpread = 0.15, LevelSpread = 1.5;
    // A decibel is this much of the logarithm of an amplitude.
    private const double Decibel = 0.11512925464970228;

    private readonly IReadOnlyList<ChoiceTarget> _targets;
    private readonly PlateWish _wish;
    private readonly Dictionary<(int Shape, EdgeHold Edge), OutlineFrame> _frames = [];
    private readonly Dictionary<int, List<SolvedBoard>> _solved = [];
    private readonly double[] _factors;

    internal PlateFigures(IReadOnlyList<ChoiceTarget> targets, PlateWish wish)
    {
        (_targets, _wish) = (targets, wish);
        _factors = [.. targets.Select(t => t.Figure == ChoiceFigure.Mode ? FirstSquare : FirstStraight * (t.Figure == ChoiceFigure.Level ? 1 / Decibel : 1))];
    }

    /// <summary>Plates solved so far.</summary>
    internal int Solves { get; private set; }

    /// <summary>How often a factor had to be raised so far: what was ruled out before may not be.</summary>
    internal int Raised { get; private set; }

    /// <summary>The solved board that a candidate is, where it was solved.</summary>
    internal SolvedBoard? Of(int shape, Candidate candidate) => _solved.TryGetValue(shape, out List<SolvedBoard>? all) ? all.FirstOrDefault(s => s.At == candidate) : null;

    /// <summary>Figures of a board from the nearest solved one, and how far each may be off; nothing where none of its shape was solved.</summary>
    /// <param name="shape">Number of its shape.</param>
    /// <param name="board">The board as typed.</param>
    /// <param name="layup">What its layup says.</param>
    internal (ChoiceValue[] Values, double[] Errors)? Told(int shape, Board board, ChoiceValue[] layup) =>
        _solved.TryGetValue(shape, out List<SolvedBoard>? all) ? Told(all, board, layup) : null;

    /// <summary>Solves a board.</summary>
    internal SolvedBoard Solve(int shape, Candidate candidate, Board board, ChoiceValue[] layup)
    {
        var modes = new Dictionary<EdgeHold, SolvedModes>();
        var values = new ChoiceValue[_targets.Count];
        foreach ((ChoiceTarget target, int t) in _targets.Select((target, t) => (target, t)))
        {
            values[t] = target.Figure switch
            {
                ChoiceFigure.Mode => Mode(target),
                ChoiceFigure.Mobility or ChoiceFigure.Level => Sound(target, layup[t]),
                ChoiceFigure.Margin => Margin(board),
                _ => layup[t],
            };
        }

        var solved = new SolvedBoard(candidate, [.. layup.Select(l => l.Value)], values, modes, PlaceOf(board));
        if (!_solved.TryGetValue(shape, out List<SolvedBoard>? all)) { _solved[shape] = all = []; }
        Learn(all, solved, board, layup);
        all.Add(solved);
        return solved;

        SolvedModes At(EdgeHold edge)
        {
            if (modes.TryGetValue(edge, out SolvedModes? known)) { return known; }
            Board held = board.ForModes();
            held = held with { Shape = held.Shape! with { Edge = edge } };
            FirstModes found;
            if (_frames.TryGetValue((shape, edge), out OutlineFrame? frame)) { found = frame.Of(held); }
            else
            {
                _frames[(shape, edge)] = frame = OutlineFrame.For(held, Count(edge), _wish.Accuracy);
                found = frame.Own;
            }

            Solves++;
            return modes[edge] = new(frame, held, frame.Sections(held), found);
        }

        ChoiceValue Mode(ChoiceTarget target)
        {
            EdgeHold edge = EdgeOf(target, board.Shape!);
            SolvedModes solved = At(edge);
            PlateMode mode = solved.Found.Modes[target.Mode - 1];
            return new(Math.Log(mode.Frequency), solved.Frame.Effects(solved.Board, solved.Found, mode), BoardModes.ModelSpread(solved.Board));
        }

        ChoiceValue Sound(ChoiceTarget target, ChoiceValue way)
        {
            EdgeHold edge = EdgeOf(target, board.Shape!);
            SolvedModes solved = At(edge);
            PlateAction bridge = _wish.Bridge(solved.Board.Shape!) ?? throw new InvalidOperationException("The board has no bridge.");
            var own = BoardAcoustics.Of(solved.Found.Plate, [.. solved.Frame.Places.Select(p => LocalLayup.Of(solved.Board, p.Regions, p.At))], bridge);
            double high = Radiation.MonopoleLimit(own.Area);
            if (target.Figure == ChoiceFigure.Mobility) { return new(Math.Log(own.Mobility.TypicalMagnitude(LowestHeard, high)), way.Effects, MobilitySpread); }
            Solves++;
            var solid = BoardAcoustics.OfSolid(solved.Board, board.Solid.Thickness!.Value.Value, solved.Frame, bridge);
            return new(RelativeLevel.Of(own.Volume, solid.Volume, LowestHeard, high).Mean, way.Effects, LevelSpread);
        }

        ChoiceValue Margin(Board of)
        {
            Solves++;
            Prediction? governing = _wish.Limits(of.UnderWeight()).Limits.Select(l => l.Margin).OfType<Prediction>().MinBy(m => m.Value);
            return governing is { } m ? new(Math.Log(m.Value), [], Math.Log(m.High90 / m.Low90) / (2 * Propagation.Z90))
                : throw new InvalidOperationException("No margin of this board is known.");
        }
    }

    private int Count(EdgeHold edge)
    {
        int modes = BeyondModes + _targets.Where(t => t.Figure == ChoiceFigure.Mode).Max(t => (int?)t.Mode) ?? 0;
        return edge != EdgeHold.Free && _targets.Any(t => t.Figure is ChoiceFigure.Mobility or ChoiceFigure.Level) ? Math.Max(modes, SoundModes) : Math.Max(modes, BeyondModes + 1);
    }

    private static EdgeHold EdgeOf(ChoiceTarget target, BoardShape shape) =>
        target.Edge ?? (target.Figure != ChoiceFigure.Mode && shape.Edge == EdgeHold.Free ? EdgeHold.Rim : shape.Edge);

    private (ChoiceValue[] Values, double[] Errors) Told(List<SolvedBoard> all, Board board, ChoiceValue[] layup)
    {
        double[] place = PlaceOf(board);
        SolvedBoard near = all.MinBy(s => Distance(s.Place, place))!;
        double distance = Distance(near.Place, place);
        var frequencies = new Dictionary<EdgeHold, double[]>();
        var values = new ChoiceValue[_targets.Count];
        double[] errors = new double[_targets.Count];
        for (int t = 0; t < values.Length; t++)
        {
            ChoiceTarget target = _targets[t];
            if (!target.NeedsPlate) { values[t] = layup[t]; continue; }
            errors[t] = _factors[t] * (target.Figure == ChoiceFigure.Mode ? distance * distance : distance);
            if (target.Figure != ChoiceFigure.Mode)
            {
                values[t] = near.Values[t] with { Value = near.Values[t].Value + layup[t].Value - near.Layup[t] };
                continue;
            }

            EdgeHold edge = EdgeOf(target, board.Shape!);
            if (!frequencies.TryGetValue(edge, out double[]? of)) { frequencies[edge] = of = Frequencies(near, edge, board); }
            values[t] = near.Values[t] with { Value = of[target.Mode - 1] };
        }

        return (values, errors);
    }

    // Logarithms, lowest first.
    private static double[] Frequencies(SolvedBoard near, EdgeHold edge, Board board)
    {
        SolvedModes solved = near.Modes[edge];
        Board held = board.ForModes();
        held = held with { Shape = solved.Board.Shape! with { Regions = held.Shape!.Regions } };
        IReadOnlyList<PlateSection> sections = solved.Frame.Sections(held);
        // A rim's spring goes with the stiffness of the board beside it.
        double follows = RimCase.IsOn(held, edge) ? BoardPlate.BendingBesideRim(held) / BoardPlate.BendingBesideRim(solved.Board) - 1 : 0;
        return [.. solved.Found.Modes.Select(m =>
        {
            (double stiffness, double mass) = m.Changes(solved.Sections, sections);
            return Math.Log(m.Frequency) + Math.Log((1 + stiffness + BoardModes.Rim(m.Energy) * follows) / (1 + mass)) / 2;
        }).Order()];
    }

    private void Learn(List<SolvedBoard> others, SolvedBoard found, Board board, ChoiceValue[] layup)
    {
        if (others.Count == 0) { return; }
        (ChoiceValue[] told, double[] _) = Told(others, board, layup);
        double distance = others.Min(s => Distance(s.Place, found.Place));
        // Two boards all but the same teach nothing but rounding.
        if (distance < 1e-3) { return; }
        for (int t = 0; t < told.Length; t++)
        {
            if (!_targets[t].NeedsPlate) { continue; }
            double factor = Safety * Math.Max(0, Math.Abs(told[t].Value - found.Values[t].Value) - Rounding) / (_targets[t].Figure == ChoiceFigure.Mode ? distance * distance : distance);
            if (factor > _factors[t]) { (_factors[t], Raised) = (factor, Raised + 1); }
        }
    }

    private static double[] PlaceOf(Board board)
    {
        Laminate l = board.Laminate();
        return
        [
            Math.Log(l.Bending.M11), Math.Log(l.Bending.M22), Math.Log(l.Bending.M66), Math.Log(l.Shear.Sx), Math.Log(l.Shear.Sy), Math.Log(l.ArealMass),
            // Boards alike in all of these may still differ: what one skin has lost the other may have won, and let-in wood is as high as the core.
            Math.Log(board.Outer.Thickness.Value), Math.Log(board.Inner.Thickness.Value), Math.Log(board.Core.Height.Value),
        ];
    }

    private static double Distance(double[] a, double[] b) => Math.Sqrt(a.Zip(b, (x, y) => (x - y) * (x - y)).Sum());
}
