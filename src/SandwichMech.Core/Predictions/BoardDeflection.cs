using SandwichMech.Core.Layups;
using SandwichMech.Core.Limits;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Predictions;

/// <summary>A place where the deflection is largest.</summary>
/// <param name="At">Where.</param>
/// <param name="Deflection">m, positive outwards.</param>
public sealed record DeflectedPlace(Point At, Prediction Deflection);

/// <summary>A board under its strings: how its bridge turns and where the board sinks and rises.</summary>
/// <remarks>
/// Strings act on the bridge's foot: their pull as even traction on the outer face, its moment about that face and what presses down as pressure on
/// the foot, the bridge's own stiffness left out. Intervals by the exact derivatives of the compliance; no further plate is solved. Linear: no
/// softening by the pull in the plane, no stiffening by the stretch of a board that sinks by more than about half its thickness.
/// </remarks>
public sealed class BoardDeflection
{
    private const int Order = 5, MostMeshes = 5;

    // First guess of the step from an order to the next as what is left: see PlateSolver.
    private const double Left = PlateSolver.Left;

    private readonly Board _board;
    private readonly StringLoad _strings;
    private readonly EdgeHold _edge;
    private readonly PlateStatics _plate;
    private readonly IReadOnlyList<SectionPlace> _places;
    private readonly SectionPlace _underFoot;
    private readonly PlateResponse _down, _tilt, _turn, _load;
    private Func<RimCase, double>? _perForce;

    private BoardDeflection(Board board, EdgeHold edge, StringLoad strings, PlateStatics plate, IReadOnlyList<SectionPlace> places, SectionPlace underFoot, Solved fine, double error)
    {
        (_board, _edge, _strings, _plate, _places, _underFoot) = (board, edge, strings, plate, places, underFoot);
        (_down, _tilt, _turn, _load) = (fine.Down, fine.Tilt, fine.Turn, fine.Load);
        RelativeNumericalError = error;
        Deflection = plate.Deflection(_load);
        Tilt = Predict(_tilt, _load, _strings.Pull);
        PerForce = Predict(_down, _down, 0);
        PerMoment = Predict(_tilt, _tilt, 0);
        Sinks = Place(Deflection.Min());
        Rises = Place(Deflection.Max());
    }

    private sealed record Solved(PlateResponse Down, PlateResponse Tilt, PlateResponse Turn, PlateResponse Load)
    {
        // What the answer's error is judged by, each relative.
        internal double[] Figures() =>
            [PlateStatics.Movement(Down, Down), PlateStatics.Movement(Tilt, Tilt), PlateStatics.Movement(Load, Load)];
    }

    /// <summary>Turn of the bridge's foot towards the nut, rad: the slope of the plane that fits its deflection best.</summary>
    public Prediction Tilt { get; }
    /// <summary>Mean sinking of the bridge's foot per force onto it, m/N; its inverse is the board's stiffness at the bridge.</summary>
    public Prediction PerForce { get; }
    /// <summary>Turn of the foot per moment about the line across the board, rad/(N·m).</summary>
    public Prediction PerMoment { get; }
    /// <summary>Where it sinks most; the deflection is negative there, or 0.</summary>
    public DeflectedPlace Sinks { get; }
    /// <summary>Where it rises most.</summary>
    public DeflectedPlace Rises { get; }
    /// <summary>Deflection under the strings at the nodes of <see cref="Field"/>, m, positive outwards.</summary>
    public IReadOnlyList<double> Deflection { get; }
    /// <summary>The nodes.</summary>
    public ShapeField Field => _plate.Field;
    /// <summary>Estimated numerical error of the figures, relative.</summary>
    public double RelativeNumericalError { get; }
    /// <summary>Triangles of the mesh.</summary>
    public int Triangles => _plate.Triangles;
    /// <summary>Unknowns.</summary>
    public int Unknowns => _plate.Unknowns;

    /// <summary>Solves a board under its strings.</summary>
    /// <param name="board">The board at the medians; its shape is given.</param>
    /// <param name="edge">How its edge is held; a hinged edge is held in its plane too, as rim and block hold it.</param>
    /// <param name="foot">Border of the bridge's foot, inside the board.</param>
    /// <param name="strings">Their load.</param>
    /// <param name="accuracy">Wanted relative numerical error.</param>
    /// <returns>The board under its strings.</returns>
    /// <exception cref="UnsupportedPlateException">The edge is free.</exception>
    /// <exception cref="DomainException">The curves cannot be meshed.</exception>
    public static BoardDeflection Solve(Board board, EdgeHold edge, Curve foot, StringLoad strings, double accuracy = 2e-3)
    {
        if (edge == EdgeHold.Free && BoardPlate.ShapeOf(board).Stretches.Count == 0) { throw new UnsupportedPlateException(); }
        Point middle = foot.Bounds().Middle;
        SectionPlace underFoot = new(BoardShape.Covering(BoardPlate.ShapeOf(board).Regions, middle), middle);
        double size = BoardPlate.FirstSize(BoardPlate.ShapeOf(board).Outline);
        for (int attempt = 1; ; attempt++)
        {
            (PlateProblem problem, IReadOnlyList<SectionPlace> places) = BoardPlate.Problem(board, size, edge, foot);
            double[] coarse = Respond(PlateStatics.Of(problem, Order - 1)).Figures();
            var plate = PlateStatics.Of(problem, Order);
            Solved fine = Respond(plate);
            double error = Left * fine.Figures().Zip(coarse, (f, c) => Math.Abs(c / f - 1)).Max();
            if (error <= accuracy || attempt == MostMeshes) { return new(board, edge, strings, plate, places, underFoot, fine, error); }
            size *= Math.Clamp(Math.Pow(accuracy / error, 0.25), 0.5, 0.85);
        }

        Solved Respond(PlateStatics plate)
        {
            IReadOnlyList<PlateResponse> r = plate.Respond([
                new(PlatePush.Deflect, foot), new(PlatePush.TiltAlong, foot), new(PlatePush.TurnAlong, foot), new(PlatePush.SlideAlong, foot)]);
            return new(r[0], r[1], r[2],
                r[3].Times(strings.Pull).Plus(r[2].Times(strings.Pull * Face(board, underFoot))).Plus(r[1].Times(strings.Pull * strings.Height)).Plus(r[0].Times(-strings.Down)));
        }
    }

    /// <summary>Loads per width under the strings where the board is plain sandwich: no region and no bar.</summary>
    /// <returns>At the quadrature points of the mesh, moments about half the thickness.</returns>
    public IReadOnlyList<LoadedPlace> LineLoads()
    {
        LocalLayup plain = LocalLayup.Of(_board, [], default);
        // The plate's moments are about the core's middle.
        double offset = plain.Plies.Sum(p => p.Thickness) / 2 - plain.BelowCore;
        return [.. _plate.Forces(_load).Where(f => _places[f.Section].Regions.Count == 0).Select(f => new LoadedPlace("")
        {
            At = f.At,
            Force = f.Force,
            Moment = f.Moment - f.Force * offset,
            ShearAlong = f.ShearAlong,
            ShearAcross = f.ShearAcross,
        })];
    }

    // Height of the outer face, under a bridge that is glued on, above the plane that all sections share.
    private static double Face(Board board, SectionPlace place)
    {
        LocalLayup local = LocalLayup.Of(board, place.Regions, place.At);
        return local.Plies.Sum(p => p.Thickness) - local.BelowCore;
    }

    /// <summary>Change of ln <see cref="PerForce"/> for changed inputs, to first order.</summary>
    internal double PerForceChange(RimCase at) => (_perForce ??= Moved(_down, _down, 0))(at) / PerForce.Value;

    private DeflectedPlace Place(double value)
    {
        int node = Array.IndexOf([.. Deflection], value);
        Point at = Field.Nodes[node];
        return value == 0
            ? new(at, new(0, 0, 0, 0, 0, []))
            : new(at, Predict(_plate.RespondAt(node), _load, _strings.Pull));
    }

    // A movement with its intervals: the board's inputs through the sections and the height of its face, and how well the rim holds.
    private Prediction Predict(PlateResponse measured, PlateResponse under, double pull)
    {
        double value = PlateStatics.Movement(measured, under), sign = value < 0 ? -1 : 1;
        Propagation<double> figures = Propagation.Through(new RimCase(_board, 0), RimCase.Inputs(_board, _edge), Moved(measured, under, pull));
        Prediction either = figures.OfEitherSign(d => value + d);
        // What may as well be nothing has no logarithm to speak of.
        if (either.Low90 * either.High90 <= 0) { return either; }
        Prediction p = figures.Positive(d => sign * value * Math.Exp(d / value));
        return sign > 0 ? p : p.Negated();
    }

    // Its change for changed inputs, to first order.
    private Func<RimCase, double> Moved(PlateResponse measured, PlateResponse under, double pull)
    {
        double face = Face(_board, _underFoot), turn = pull * PlateStatics.Movement(measured, _turn);
        Func<IReadOnlyList<PlateSection>, double> change = _plate.Change(measured, under);
        double springs = RimCase.IsOn(_board, _edge) ? _plate.EdgeEnergy(measured, under) : 0;
        return at => change(BoardPlate.Sections(at.Board, _places)) + turn * (Face(at.Board, _underFoot) - face) - springs * at.Shift;
    }
}
