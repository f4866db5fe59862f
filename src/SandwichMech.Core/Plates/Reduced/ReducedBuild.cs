using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>Builds a reduced model.</summary>
/// <remarks>
/// A greedy choice (Veroy, Prud'homme, Rovas &amp; Patera 2003; Hesthaven, Rozza &amp; Stamm 2016, Certified Reduced Basis Methods, chapter 3): among
/// designs that stand for the range the one with the largest estimate is solved in full and what is new in its modes joins the basis, until no estimate
/// is too large. The estimate of ω² is rᵀ(K₀ − σM₀)⁻¹r with the residual r = (K − ω²M)x and one reference plate's factor, over ω²: quadratic in what
/// the basis lacks. How much more the error may be, the designs that are solved tell. An estimate falls as the basis grows, so only the largest known ones are looked at again.
/// </remarks>
internal sealed class ReducedBuild
{
    // Modes beyond those wanted that the basis is made for as well, so that the last wanted ones are as good as the first.
    private const int Beyond = 4;
    // What the parts of the error may take of the accuracy wanted.
    private const double MeshShare = 0.35, BasisShare = 0.5, CutShare = 0.25, DroppedShare = 0.5;
    private const double ShiftShare = 0.5;
    private const int SamplesForTerms = 400, SamplesForStations = 48;
    // Before so many solves the basis is so poor that estimates only cost time.
    private const int SolvesUnasked = 8;
    // As the full model does it: settled at a low order, then raised until ω² changes by less than so much.
    private const int StartOrder = 3;
    private const double Settled = 1e-6;
    // With fewer vectors their tail would hold what matters.
    private const int FewestPerMode = 4;
    // Rounds of growing and testing.
    private const ulong MostRounds = 3;
    private const double TailPart = 0.25, Margin = 1.5, MostOf = 0.9;

    private readonly Board _board;
    private readonly BoardRange _range;
    private readonly ReducedOptions _options;
    private readonly Action<ReducedProgress>? _progress;
    private readonly PlateProblem _problem;
    private readonly IReadOnlyList<SectionPlace> _places;
    private readonly int _order;
    private readonly double[] _meshErrors;
    private readonly PlateSystem _reference;
    private readonly FrontalFactor _factor;
    private readonly double _rim;
    private readonly CoefficientTerms _terms;
    private readonly ProjectedTerms _projected;
    private readonly ReducedBasis _basis;
    private readonly int _rigid;
    private int _solves;
    private double _worst = double.PositiveInfinity, _tighter = 1;

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
        double shift = -ShiftShare * Math.Pow(2 * Math.PI * first.Modes[0].Frequency, 2);
        _factor = _reference.Factor(shift) ?? throw new InvalidOperationException("The shifted stiffness has no factor.");
        _rim = CoefficientTerms.Rim(middle);

        double[][] samples = DesignSample.Of(_range.Inputs.Count, SamplesForTerms, options.Seed);
        Board[] boards = [.. samples.Select(s => _range.At(board, s))];
        IReadOnlyList<PlateSection>[] sections = [.. boards.Select(b => BoardPlate.Sections(b, _places))];
        StationField field = StationField.Among(_places, sections[..SamplesForStations]);
        IReadOnlyList<PlateSection>[] atStations = [.. sections.Select(s => (IReadOnlyList<PlateSection>)[.. field.Stations.Select(i => s[i])])];
        var all = CoefficientTerms.MetIn([.. field.Stations.Select(i => _places[i])], atStations, CoefficientTerms.HasRim(shape));
        (double[] Stiffness, double[] Inertia)[] values = [.. boards.Select((b, i) => all.Of(atStations[i], CoefficientTerms.Rim(b)))];
        Spanning stiffness = Spanning.Of([.. all.Stiffness.Select((_, t) => values.Select(v => v.Stiffness[t]).ToArray())], 1e-10);
        Spanning inertia = Spanning.Of([.. all.Inertia.Select((_, t) => values.Select(v => v.Inertia[t]).ToArray())], 1e-10);
        _terms = all with { Stiffness = [.. stiffness.Chosen.Select(t => all.Stiffness[t])], Inertia = [.. inertia.Chosen.Select(t => all.Inertia[t])] };
        _projected = new(_reference, field, all, stiffness, inertia);
        _basis = new(_reference, shift);

        PlateModes.Result modes = Full(middle);
        _rigid = modes.Rigid;
        _projected.Append(modes.Vectors[..modes.Rigid], _rim);
        Enrich(modes);
    }

    internal ReducedContent Run()
    {
        Board[] designs = [.. Inside(_options.Designs, _options.Seed)];
        double[] estimates = new double[designs.Length];
        for (ulong round = 1; ; round++)
        {
            Array.Fill(estimates, double.PositiveInfinity);
            Grow(designs, estimates);
            ReducedContent content = Finish(designs);
            // Designs that the model was not built from: what it says of them has to be small enough too, or they join.
            Board[] tests = [.. Inside(_options.Tests, _options.Seed + 1 + round)];
            PlateModes.Result[] exact = [.. tests.Select(Full)];
            content = Tested(content, tests, exact, out double stated);
            if (stated <= ReducedPlate.MostStated * _options.Accuracy || round == MostRounds || _solves + _options.Tests >= _options.MostSolves) { return content; }
            foreach (PlateModes.Result modes in exact) { Enrich(modes); }
            _tighter /= 2;
            _progress?.Invoke(new(_solves, _basis.Vectors.Count, stated, Fraction(stated)));
        }
    }

    private IEnumerable<Board> Inside(int count, ulong seed) =>
        DesignSample.Inside(_range.Inputs.Count, count, DesignSample.Random(seed)).Select(p => _range.At(_board, p));

    private void Grow(Board[] designs, double[] estimates)
    {
        double wanted = _tighter * BasisShare * _options.Accuracy;
        bool[] fresh = new bool[designs.Length];
        while (_solves + _options.Tests < _options.MostSolves)
        {
            int worst = -1;
            while (true)
            {
                worst = Array.IndexOf(estimates, estimates.Max());
                if (fresh[worst] || (double.IsPositiveInfinity(estimates[worst]) && _solves < SolvesUnasked)) { break; }
                estimates[worst] = Estimate(designs[worst]).Max();
                fresh[worst] = true;
            }

            _worst = estimates[worst];
            if (_worst <= wanted) { return; }
            Enrich(Full(designs[worst]));
            _progress?.Invoke(new(_solves, _basis.Vectors.Count, _worst, Fraction(_worst)));
            estimates[worst] = 0;
            Array.Clear(fresh);
            fresh[worst] = true;
        }
    }

    private ReducedContent Finish(IReadOnlyList<Board> designs)
    {
        int all = _projected.Count;
        var turn = Matrix<double>.Build.DenseIdentity(all);
        turn.SetSubMatrix(_rigid, _rigid, _basis.Principal());
        double[][] stiffness = [.. _projected.Stiffness.Select(m => Turned(m, turn))], inertia = [.. _projected.Inertia.Select(m => Turned(m, turn))];
        int flexible = Enough(designs, stiffness, inertia);
        double[][] vectors = [.. Enumerable.Range(0, _rigid + flexible).Select(j => Combined(turn.Column(j)))];
        double[][] shapes = [.. vectors.Select(_reference.Deflection)];
        var points = new AirPoints(_reference.Mesh, _reference.IntegralsOf, AirDetail.Usual);
        var air = Matrix<double>.Build.DenseOfArray(AirVolume.Of(points, shapes, _board.Shape!.Edge != EdgeHold.Free));
        return new()
        {
            Range = _range,
            Modes = _options.Modes,
            Accuracy = _options.Accuracy,
            Rigid = _rigid,
            Flexible = flexible,
            Tail = Math.Max(1, (int)(TailPart * flexible)),
            ErrorPerTail = 1,
            MeshErrors = _meshErrors,
            Stations = _terms.Stations,
            Stiffness = _terms.Stiffness,
            Inertia = _terms.Inertia,
            StiffnessMatrices = [.. stiffness.Select(m => Packed(m, _rigid, flexible))],
            InertiaMatrices = [.. inertia.Select(m => Packed(m, 0, _rigid + flexible))],
            Air = Packed([.. air.ToRowMajorArray()], 0, _rigid + flexible),
            Movements = [.. _options.Actions.Select(a => PatchWeights.Of(_reference, _problem.Mesh, a)).Select(w => vectors.Select(v => DenseRows.Dot(w, v)).ToArray())],
            Report = new(_solves, _reference.Unknowns, 0, _worst),
        };
    }

    // The fewest leading vectors that are as good as all of them, but for a small part of the accuracy wanted.
    private int Enough(IReadOnlyList<Board> designs, double[][] stiffness, double[][] inertia)
    {
        int all = _projected.Count - _rigid, low = Math.Min(FewestPerMode * _options.Modes, all), high = all;
        double[][] best = Values(all);
        while (low < high)
        {
            int middle = (low + high) / 2;
            double[][] values = Values(middle);
            bool isEnough = best.Zip(values).All(d => d.First.Zip(d.Second).All(v => Error(v.Second, v.First) <= _tighter * CutShare * _options.Accuracy));
            (low, high) = isEnough ? (low, middle) : (middle + 1, high);
        }

        // Whole lanes are as quick.
        return Math.Min((low + 7) / 8 * 8, all);

        double[][] Values(int flexible)
        {
            double[][] k = [.. stiffness.Select(m => Packed(m, _rigid, flexible))], m = [.. inertia.Select(m => Packed(m, 0, _rigid + flexible))];
            return [.. designs.Select(d => Solver(d, flexible, k, m).Values)];
        }
    }

    // How large its error is at designs that it was not built from, how many times what the tail brings, and what it would say there.
    private ReducedContent Tested(ReducedContent content, Board[] tests, PlateModes.Result[] exact, out double stated)
    {
        double worst = 0, most = 0;
        var ratios = new List<double>();
        for (int t = 0; t < tests.Length; t++)
        {
            ReducedSolver solver = Solver(tests[t], content.Flexible, content.StiffnessMatrices, content.InertiaMatrices);
            double[] tails = solver.TailShares(content.Tail);
            most = Math.Max(most, tails.Max());
            for (int i = 0; i < content.Modes; i++)
            {
                double error = Error(solver.Values[i], exact[t].Values[exact[t].Rigid + i]);
                worst = Math.Max(worst, error);
                ratios.Add(error / tails[i]);
            }
        }

        ratios.Sort();
        double perTail = Margin * ratios[(int)(MostOf * (ratios.Count - 1))];
        stated = perTail * most + _meshErrors.Max();
        return content with { ErrorPerTail = perTail, Report = content.Report with { Solves = _solves, WorstError = worst } };
    }

    private double[] Turned(double[] m, Matrix<double> turn) =>
        (turn.Transpose() * Matrix<double>.Build.Dense(_projected.Count, _projected.Count, m) * turn).ToColumnMajorArray();

    private double[] Combined(Vector<double> with)
    {
        double[] sum = new double[_reference.Unknowns];
        for (int k = 0; k < with.Count; k++)
        {
            if (with[k] != 0) { DenseRows.Add(sum, with[k], _projected.Vectors[k]); }
        }

        return sum;
    }

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

    private void Enrich(PlateModes.Result modes) =>
        _projected.Append(_basis.Add(modes.Vectors[modes.Rigid..], 2 * _tighter * DroppedShare * BasisShare * _options.Accuracy), _rim);

    private ReducedSolver Solver(Board board)
    {
        int flexible = _basis.Vectors.Count, all = _projected.Count;
        return Solver(board, flexible, [.. _projected.Stiffness.Select(m => Packed(m, _rigid, flexible))], [.. _projected.Inertia.Select(m => Packed(m, 0, all))]);
    }

    private ReducedSolver Solver(Board board, int flexible, IReadOnlyList<double[]> stiffness, IReadOnlyList<double[]> inertia)
    {
        var solver = new ReducedSolver(_rigid, flexible, _options.Modes);
        return solver.Solve(_terms.Of(BoardPlate.Sections(board, _terms.Stations), CoefficientTerms.Rim(board)), stiffness, inertia, 0, [])
            ? solver
            : throw new InvalidOperationException("A design of the range is not possible: its stiffness or mass is not positive.");
    }

    // Lower triangle of some rows and columns of a matrix that is square and full.
    private static double[] Packed(double[] full, int from, int count)
    {
        int all = (int)Math.Round(Math.Sqrt(full.Length));
        double[] packed = new double[ReducedSolver.Packed(count)];
        for (int i = 0, at = 0; i < count; i++)
        {
            for (int j = 0; j <= i; j++) { packed[at++] = full[(from + i) * all + from + j]; }
        }

        return packed;
    }

    // Relative, of the frequency.
    private double[] Estimate(Board board)
    {
        ReducedSolver solver = Solver(board);
        int modes = _options.Modes, flexible = _basis.Vectors.Count;
        double[][] x = new double[modes][];
        for (int i = 0; i < modes; i++)
        {
            x[i] = new double[_reference.Unknowns];
            for (int k = 0; k < flexible; k++) { DenseRows.Add(x[i], solver.Vectors[i * flexible + k], _projected.Vectors[_rigid + k]); }
            double[] rigid = solver.RigidParts(i);
            for (int k = 0; k < _rigid; k++) { DenseRows.Add(x[i], rigid[k], _projected.Vectors[k]); }
        }

        PlateProblem problem = ProblemOf(board);
        var system = new PlateSystem(problem, _order);
        double[][] residual = PlateProducts.Stiffness(system, 0, x);
        for (int i = 0; i < modes; i++) { DenseRows.Add(residual[i], -solver.Values[i], PlateProducts.Mass(system, x[i])); }
        double[][] image = _factor.Solve(residual);
        return [.. residual.Select((r, i) => DenseRows.Dot(r, image[i]) / (2 * solver.Values[i]))];
    }
}
