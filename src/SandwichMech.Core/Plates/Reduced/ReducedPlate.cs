using SandwichMech.Core.Layups;
using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>The modes of any board of one shape within a range, by sums of small matrices: milliseconds in place of a full solve.</summary>
/// <remarks>
/// Stiffness and mass are sums of the sections' coefficients times fixed matrices. Those are projected once on the modes of some designs of the range
/// (<see cref="Build"/>); for each board the small matrices are added up with its own coefficients and solved (reduced basis: Hesthaven, Rozza &amp; Stamm
/// 2016). Frequencies lie above the full model's on the same mesh, as Rayleigh and Ritz have it. The error is told from the share of a mode's energy
/// that lies in the last vectors of the basis, by the ratio that full solves of other designs showed. Safe to call from several threads.
/// </remarks>
public sealed class ReducedPlate
{
    /// <summary>Changes whenever a model that was built before would now come out otherwise: part of what names a kept one.</summary>
    public const int Version = 2;

    /// <summary>Stated errors carry a margin: an answer is relied on up to so many times the accuracy that the model was built for.</summary>
    public const double MostStated = 2;

    private readonly BoardShape _shape;
    private readonly Board _board;
    private readonly CoefficientTerms _terms;
    private readonly PartSolver _solver;

    private ReducedPlate(ReducedContent content, Board board)
    {
        (Content, _board, _shape) = (content, board, BoardPlate.ShapeOf(board));
        _terms = new(content.Stations, content.Stiffness, content.Inertia);
        _solver = new(content.Parts, content.Modes);
    }

    /// <summary>All its numbers.</summary>
    public ReducedContent Content { get; }

    /// <summary>Builds a model: some dozens of full solves.</summary>
    /// <param name="board">A board of the shape: what the range leaves open is taken from it.</param>
    /// <param name="range">The boards that the model is to answer for.</param>
    /// <param name="options">What it is to give.</param>
    /// <param name="progress">Told after each full solve.</param>
    /// <returns>The model.</returns>
    /// <exception cref="ArgumentException">The board has no shape, or the range is that of another kind of board.</exception>
    /// <exception cref="DomainException">The outline, holes and regions cannot be meshed.</exception>
    public static ReducedPlate Build(Board board, BoardRange range, ReducedOptions? options = null, Action<ReducedProgress>? progress = null) =>
        From(new ReducedBuild(board, range, options ?? new(), progress).Run(), board);

    /// <summary>A model from its numbers.</summary>
    /// <param name="content">As built before for the same shape.</param>
    /// <param name="board">A board of that shape, with all that the range leaves open.</param>
    /// <returns>The model.</returns>
    public static ReducedPlate From(ReducedContent content, Board board) => new(content, board);

    /// <summary>The modes of a board.</summary>
    /// <param name="board">The board.</param>
    /// <param name="airDensity">kg/m³; 0 in vacuo.</param>
    /// <returns>The modes, or why they cannot be had here.</returns>
    public ReducedModes Solve(Board board, double airDensity = 0)
    {
        if (WhyOutside(board) is { } why) { return new([], [], [], why); }
        if (!(airDensity >= 0) || double.IsInfinity(airDensity))
        {
            throw new ArgumentOutOfRangeException(nameof(airDensity), airDensity, "The density of the air must be 0 kg/m³ or more.");
        }

        (double[], double[]) coefficients = _terms.Of(BoardPlate.Sections(board, Content.Stations), CoefficientTerms.Rim(board));
        using PartModes? modes = _solver.Solve(coefficients, airDensity);
        return modes is null ? new([], [], [], "its stiffness or mass is not positive") : Modes(modes);
    }

    /// <summary>The modes of a board, by the full model where this one cannot tell.</summary>
    /// <param name="board">The board.</param>
    /// <param name="full">The full model: <see cref="ReducedModes.InFull"/>, say.</param>
    /// <param name="airDensity">kg/m³; 0 in vacuo.</param>
    /// <returns>The modes.</returns>
    public ReducedModes Solve(Board board, Func<Board, ReducedModes> full, double airDensity = 0)
    {
        ReducedModes modes = Solve(board, airDensity);
        return modes.WhyNot is null ? modes : full(board);
    }

    private ReducedModes Modes(PartModes modes)
    {
        double[] errors = [.. modes.TailShares(Content.Parts).Zip(Content.MeshErrors, (tail, mesh) => Content.ErrorPerTail * tail + mesh)];
        double[][] movements = [.. Content.Parts[0].Movements.Select((_, action) => modes.Order.Select(o => Movement(o.Part, o.Mode, action)).ToArray())];
        string? why = errors.Max() <= MostStated * Content.Accuracy ? null : "its error there may be larger than was asked for";
        return new([.. modes.Values.Select(v => Math.Sqrt(v) / (2 * Math.PI))], errors, movements, why);

        double Movement(int part, int mode, int action)
        {
            ReducedSolver solver = modes.Solvers[part];
            double[] of = Content.Parts[part].Movements[action], rigid = solver.RigidParts(mode);
            return DenseRows.Dot(of.AsSpan(0, rigid.Length), rigid)
                + DenseRows.Dot(of.AsSpan(rigid.Length), solver.Vectors.AsSpan(mode * Content.Parts[part].Flexible, Content.Parts[part].Flexible));
        }
    }

    private string? WhyOutside(Board board)
    {
        if (board.Shape is not { } shape || !SameShape(shape)) { return "the board has another shape or edge than the reduced model"; }
        if (Content.Range.Outside(board) is { } input) { return $"the {input} lies outside the range of the reduced model"; }
        // Whatever else differs from the board that the model was made for shows in the sections.
        Board same = BoardRange.Values(board, _board);
        return BoardPlate.Sections(same, Content.Stations).Zip(BoardPlate.Sections(board, Content.Stations)).All(s => Near(s.First, s.Second))
            ? null
            : "the board differs in more than the reduced model lets vary";
    }

    private bool SameShape(BoardShape shape) => ReferenceEquals(shape, _shape)
        || (shape.Edge == _shape.Edge && shape.DomeAlong == _shape.DomeAlong && shape.DomeAcross == _shape.DomeAcross
            && Same([shape.Outline, .. shape.Holes], [_shape.Outline, .. _shape.Holes])
            && HoldsAlike(shape)
            && shape.Regions.Count == _shape.Regions.Count
            && shape.Regions.Zip(_shape.Regions).All(r => r.First.Change.GetType() == r.Second.Change.GetType() && Same(r.First.Border, r.Second.Border)));

    // Where a stretch of the edge is held is a function: it is asked at many points.
    private bool HoldsAlike(BoardShape shape) => shape.Stretches.Count == _shape.Stretches.Count
        && (shape.Stretches.Count == 0 || Around(shape.Outline).All(p => shape.HoldAt(p, shape.Edge) == _shape.HoldAt(p, _shape.Edge)));

    /// <summary>Points all along a curve.</summary>
    /// <param name="curve">The curve.</param>
    /// <returns>Some dozens a segment.</returns>
    public static IEnumerable<Outlines.Point> Around(Outlines.Curve curve) => Enumerable.Range(0, 32 * curve.Segments.Count).Select(i => curve.At(i / 32.0));

    private static bool Same(IReadOnlyList<Outlines.Curve> a, IReadOnlyList<Outlines.Curve> b) => ReferenceEquals(a, b)
        || (a.Count == b.Count && a.Zip(b).All(c => ReferenceEquals(c.First, c.Second) || c.First.Segments.SequenceEqual(c.Second.Segments)));

    private static bool Near(in PlateSection a, in PlateSection b)
    {
        if (a == b) { return true; }
        return Near(a.Stiffness(), b.Stiffness()) && Near(a.Inertia(), b.Inertia());
    }

    private static bool Near(double[,] a, double[,] b)
    {
        const double rounding = 1e-9;
        for (int i = 0; i < a.GetLength(0); i++)
        {
            for (int j = 0; j < a.GetLength(1); j++)
            {
                if (!(Math.Abs(a[i, j] - b[i, j]) <= rounding * Math.Sqrt(Math.Abs(a[i, i] * a[j, j])))) { return false; }
            }
        }

        return true;
    }
}
