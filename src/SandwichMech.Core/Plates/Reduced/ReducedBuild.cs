using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>Builds a reduced model.</summary>
/// <remarks>
/// A greedy choice (Veroy, Prud'homme, Rovas &amp; Patera 2003; Hesthaven, Rozza &amp; Stamm 2016, Certified Reduced Basis Methods, chapter 3): among
/// designs that stand for the range the one whose modes lie most in the vectors that came last is solved in full; how far the model was off there is
/// seen, and what is new in its modes joins the basis, until several in a row were near enough. Other designs then tell what error to state.
/// </remarks>
internal sealed class ReducedBuild
{
    // Modes beyond those wanted that the basis is made for as well, so that the last wanted ones are as good as the first.
    private const int Beyond = 4;
    // What the parts of the error may take of the accuracy wanted.
    private const double MeshShare = 0.35, BasisShare = 0.5, CutShare = 0.25, DroppedShare = 0.5, MirrorShare = 0.3;
    private const double ShiftShare = 0.5, TermTolerance = 1e-10;
    private const int SamplesForTerms = 400, SamplesForStations = 48;
    // So many designs that were expected to be the worst have to be near enough one after the other.
    private const int Calm = 3;
    // Before so many solves nothing tells which design is the worst.
    private const int SolvesUnasked = 6;
    // As the full model does it: settled at a low order, then raised until ω² changes by less than so much.
    private const int StartOrder = 3;
    private const double Settled = 1e-6;
    // With fewer vectors their tail would hold what matters.
    private const int FewestPerMode = 4;
    // Rounds of growing and testing.
    private const ulong MostRounds = 3;
    private const double Margin = 1.5, MostOf = 0.9;

    private readonly Board _board;
    private readonly BoardRange _range;
    private readonly ReducedOptions _options;
    private readonly Action<ReducedProgress>? _progress;
    private readonly PlateProblem _problem;
    private readonly IReadOnlyList<SectionPlace> _places;
    private readonly int _order;
    private readonly double[] _meshErrors;
    private readonly PlateSystem _reference;
    private readonly CoefficientTerms _terms;
    private readonly MirrorSplit? _mirror;
    private readonly ReducedGrowth[] _parts;
    private int _solves;
    private double _last = double.PositiveInfinity, _tighter = 1;

    internal ReducedBuild(Board board, BoardRange range, ReducedOptions options, Action<ReducedProgress>? progress)
    {
        (_board, _range, _options, _progress) = (board, range, options, progress);
        BoardShape shape = BoardPlate.ShapeOf(board);
        Board middle = _range.At(board, Middle());
        var patches = options.Actions.Select(a => a.Patch).OfType<Outlines.Curve>().ToArray();
        (PlateProblem? problem, IReadOnlyList<SectionPlace> places) = (null, []);
        PlateSolution first = PlateSolver.Solve(
            size =>
            {
                (problem, places) = BoardPlate.Problem(middle, size, null, patches);
                // At two orders, at least.
                _solves += 2;
                return problem;
            },
            BoardPlate.FirstSize(shape.Outline), options.Modes, MeshShare * options.Accuracy);
        _order = first.Order;
        (_problem, _places) = (problem!, places);
        _meshErrors = [.. first.Modes.Select(m => m.Error)];
        _reference = new(_problem, _order);
        double shift = -ShiftShare * Math.Pow(2 * Math.PI * first.Modes[0].Frequency, 2), rim = CoefficientTerms.Rim(middle);

        double[][] samples = DesignSample.Of(_range.Inputs.Count, SamplesForTerms, options.Seed);
        Board[] boards = [.. samples.Select(s => _range.At(board, s))];
        IReadOnlyList<PlateSection>[] sections = [.. boards.Select(b => BoardPlate.Sections(b, _places))];
        StationField field = StationField.Among(_places, sections[..SamplesForStations]);
        IReadOnlyList<PlateSection>[] atStations = [.. sections.Select(s => (IReadOnlyList<PlateSection>)[.. field.Stations.Select(i => s[i])])];
        var all = CoefficientTerms.MetIn([.. field.Stations.Select(i => _places[i])], atStations, CoefficientTerms.HasRim(shape));
        (double[] Stiffness, double[] Inertia)[] values = [.. boards.Select((b, i) => all.Of(atStations[i], CoefficientTerms.Rim(b)))];
        var stiffness = SpannedTerms.Of(all.Stiffness, [.. all.Stiffness.Select((_, t) => values.Select(v => v.Stiffness[t]).ToArray())], TermTolerance);
        var inertia = SpannedTerms.Of(all.Inertia, [.. all.Inertia.Select((_, t) => values.Select(v => v.Inertia[t]).ToArray())], TermTolerance);
        _terms = all with { Stiffness = [.. stiffness.Chosen.Select(t => all.Stiffness[t])], Inertia = [.. inertia.Chosen.Select(t => all.Inertia[t])] };

        PlateModes.Result modes = Full(middle);
        double[][] rigid = modes.Vectors[..modes.Rigid];
        var mirror = new MirrorSplit(_reference, MirrorShare * options.Accuracy);
        (double[]?[] Even, double[]?[] Odd)? ofRigid = mirror.Of(rigid), ofModes = mirror.Of(modes.Vectors[modes.Rigid..]);
        _mirror = ofRigid is null || ofModes is null ? null : mirror;
        _parts = [.. Enumerable.Range(0, _mirror is null ? 1 : 2).Select(_ => new ReducedGrowth(_reference, shift, rim, new(_reference, field, stiffness, inertia)))];
        if (_mirror is null) { _parts[0].Begin(rigid); }
        else
        {
            // Rigid motions mix with each other as they like: what is alike in the parts of several is one.
            _parts[0].Begin(Independent(ofRigid!.Value.Even));
            _parts[1].Begin(Independent(ofRigid.Value.Odd));
        }

        Enrich(modes);
    }

    internal ReducedContent Run()
    {
        Board[] designs = [.. DesignSample.Of(_range.Inputs.Count, _options.Designs, _options.Seed).Select(p => _range.At(_board, p))];
        bool[] solved = new bool[designs.Length];
        for (ulong round = 1; ; round++)
        {
            Grow(designs, solved);
            ReducedContent content = Finish(designs);
            // Designs that the model was not built from: what it says of them has to be small enough too, or they join.
            Board[] tests = [.. Inside(_options.Tests, _options.Seed + 1 + round)];
            PlateModes.Result[] exact = [.. tests.Select(Full)];
            content = Tested(content, tests, exact, out double stated);
            if (stated <= ReducedPlate.MostStated * _options.Accuracy || round == MostRounds || _solves + _options.Tests >= _options.MostSolves) { return content; }
            foreach (PlateModes.Result modes in exact) { Enrich(modes); }
            _tighter /= 2;
            Tell(stated);
        }
    }

    private IEnumerable<Board> Inside(int count, ulong seed) =>
        DesignSample.Inside(_range.Inputs.Count, count, DesignSample.Random(seed)).Select(p => _range.At(_board, p));

    private void Grow(Board[] designs, bool[] solved)
    {
        double wanted = _tighter * BasisShare * _options.Accuracy;
        for (int calm = 0; calm < Calm && _solves + _options.Tests < _options.MostSolves && Array.IndexOf(solved, false) is >= 0 and int next;)
        {
            ReducedPart[] parts = [.. _parts.Select(p => p.AsAdded())];
            var solver = new PartSolver(parts, _options.Modes);
            if (_solves > SolvesUnasked) { next = Enumerable.Range(0, designs.Length).Where(d => !solved[d]).MaxBy(d => Newest(solver, parts, designs[d])); }
            PlateModes.Result exact = Full(designs[next]);
            solved[next] = true;
            using (PartModes modes = Solved(solver, designs[next])) { _last = Errors(modes.Values, exact).Max(); }
            calm = _last <= wanted ? calm + 1 : 0;
            Enrich(exact);
            Tell(_last);
        }
    }

    private double Newest(PartSolver solver, ReducedPart[] parts, Board design)
    {
        using PartModes modes = Solved(solver, design);
        return modes.TailShares(parts).Max();
    }

    private void Tell(double error) => _progress?.Invoke(new(_solves, _parts.Sum(p => p.Flexible), error, Fraction(error)));

    private ReducedContent Finish(IReadOnlyList<Board> designs)
    {
        ReducedMatrices[] turned = [.. _parts.Select(p => p.Turned())];
        var points = new AirPoints(_reference.Mesh, _reference.IntegralsOf, AirDetail.Usual);
        double[][] actions = [.. _options.Actions.Select(a => PatchWeights.Of(_reference, _problem.Mesh, a))];
        int[] flexible = Enough(designs, turned);
        return new()
        {
            Range = _range,
            Modes = _options.Modes,
            Accuracy = _options.Accuracy,
            ErrorPerTail = 1,
            MeshErrors = _meshErrors,
            Stations = _terms.Stations,
            Stiffness = _terms.Stiffness,
            Inertia = _terms.Inertia,
            Parts = [.. turned.Select((matrices, p) =>
            {
                double[][] vectors = [.. matrices.Vectors.Take(matrices.Rigid + flexible[p])];
                var air = Matrix<double>.Build.DenseOfArray(AirVolume.Of(points, [.. vectors.Select(_reference.Deflection)], _board.Shape!.Edge != EdgeHold.Free));
                return matrices.With(flexible[p], _parts[p].Most + 1) with
                {
                    Air = ReducedSolver.Laid(air.ToRowMajorArray(), matrices.Rigid, matrices.Rigid, flexible[p]),
                    Movements = [.. actions.Select(w => vectors.Select(v => DenseRows.Dot(w, v)).ToArray())],
                };
            })],
            Report = new(_solves, _reference.Unknowns, 0, _last),
        };
    }

    // The fewest leading vectors of each part that are as good as all of them, but for a small part of the accuracy wanted.
    private int[] Enough(IReadOnlyList<Board> designs, ReducedMatrices[] turned)
    {
        int[] enough = [.. turned.Select(m => m.Flexible)];
        (double[], double[])[] coefficients = [.. designs.Select(Coefficients)];
        double[][] best = Values(enough);
        for (int p = 0; p < enough.Length; p++)
        {
            int low = Math.Min(FewestPerMode * _parts[p].Most, enough[p]), high = enough[p];
            while (low < high)
            {
                int middle = (low + high) / 2;
                double[][] values = Values([.. enough.Select((e, i) => i == p ? middle : e)]);
                bool isEnough = best.Zip(values).All(d => d.First.Zip(d.Second).All(v => Error(v.Second, v.First) <= _tighter * CutShare * _options.Accuracy));
                (low, high) = isEnough ? (low, middle) : (middle + 1, high);
            }

            // Whole registers are as quick.
            enough[p] = Math.Min(SingleMatrix.Order(low), enough[p]);
        }

        return enough;

        double[][] Values(int[] flexible)
        {
            var solver = new PartSolver([.. turned.Select((m, i) => m.With(flexible[i], _parts[i].Most + 1))], _options.Modes);
            return [.. coefficients.Select(c =>
            {
                using PartModes modes = Solved(solver, c);
                return modes.Values;
            })];
        }
    }

    // How large its error is at designs that it was not built from, how many times what the tail brings, and what it would say there.
    private ReducedContent Tested(ReducedContent content, Board[] tests, PlateModes.Result[] exact, out double stated)
    {
        double worst = 0, most = 0;
        var ratios = new List<double>();
        var solver = new PartSolver(content.Parts, content.Modes);
        for (int t = 0; t < tests.Length; t++)
        {
            using PartModes modes = Solved(solver, tests[t]);
            double[] tails = modes.TailShares(content.Parts), errors = Errors(modes.Values, exact[t]);
            most = Math.Max(most, tails.Max());
            worst = Math.Max(worst, errors.Max());
            ratios.AddRange(errors.Zip(tails, (e, tail) => e / tail));
        }

        ratios.Sort();
        double perTail = Margin * ratios[(int)(MostOf * (ratios.Count - 1))];
        stated = perTail * most + _meshErrors.Max();
        return content with { ErrorPerTail = perTail, Report = content.Report with { Solves = _solves, WorstError = worst } };
    }

    private PartModes Solved(PartSolver solver, Board board) => Solved(solver, Coefficients(board));

    private static PartModes Solved(PartSolver solver, (double[] Stiffness, double[] Inertia) coefficients) =>
        solver.Solve(coefficients, 0) ?? throw new InvalidOperationException("A design of the range is not possible: its stiffness or mass is not positive.");

    private (double[] Stiffness, double[] Inertia) Coefficients(Board board) => _terms.Of(BoardPlate.Sections(board, _terms.Stations), CoefficientTerms.Rim(board));

    private double[] Errors(double[] values, PlateModes.Result exact) => [.. values.Take(_options.Modes).Select((v, i) => Error(v, exact.Values[exact.Rigid + i]))];

    private static double Error(double value, double exact) => Math.Sqrt(value / exact) - 1;

    // Errors fall about evenly in their logarithm, from some tenths.
    private double Fraction(double error) =>
        Math.Clamp(Math.Max(Math.Log(0.2 / error) / Math.Log(0.2 / (BasisShare * _options.Accuracy)), (double)_solves / _options.MostSolves), 0, 0.95);

    // A little off the middle, each input by its own part, lest a board that is symmetric leave the motion of its plane out.
    private double[] Middle() => [.. _range.Inputs.Select((_, i) => 0.5 + 0.03 * Math.Sin(i + 1))];

    private PlateProblem ProblemOf(Board board) => _problem with { Sections = BoardPlate.Sections(board, _places), Support = BoardPlate.Supports(board) };

    private PlateModes.Result Full(Board board)
    {
        _solves++;
        PlateProblem problem = ProblemOf(board);
        int count = _options.Modes + Beyond;
        var low = new PlateSystem(problem, StartOrder);
        return PlateModes.Raised(low, PlateModes.Start(low, problem, count), new(problem, _order), problem, count, Settled).First(count);
    }

    private void Enrich(PlateModes.Result modes)
    {
        double[][] flexible = modes.Vectors[modes.Rigid..];
        double negligible = 2 * _tighter * DroppedShare * BasisShare * _options.Accuracy;
        if (_mirror is null)
        {
            _parts[0].Add(flexible, _options.Modes, negligible);
            return;
        }

        (double[]?[] even, double[]?[] odd) = _mirror.Of(flexible, isKnown: true)!.Value;
        foreach ((ReducedGrowth part, double[]?[] of) in _parts.Zip([even, odd]))
        {
            part.Add([.. of.OfType<double[]>()], of.Take(_options.Modes).Count(v => v is not null), negligible);
        }
    }

    // Orthonormal, what is left of each after those before it.
    private static List<double[]> Independent(double[]?[] vectors)
    {
        var kept = new List<double[]>();
        foreach (double[] vector in vectors.OfType<double[]>().OrderByDescending(v => DenseRows.Dot(v, v)))
        {
            double size = DenseRows.Dot(vector, vector);
            double[] left = [.. vector];
            foreach (double[] before in kept.Concat(kept)) { DenseRows.Add(left, -DenseRows.Dot(left, before), before); }
            double rest = DenseRows.Dot(left, left);
            if (rest > 1e-4 * size) { kept.Add(Array.ConvertAll(left, v => v / Math.Sqrt(rest))); }
        }

        return kept;
    }
}
