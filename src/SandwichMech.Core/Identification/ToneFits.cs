using MathNet.Numerics.LinearAlgebra;

namespace SandwichMech.Core.Identification;

/// <summary>A way of taking tones for modes, and the piece that fits it.</summary>
/// <param name="Numbers">For each tone, the number of its mode among those of the piece as fitted; −1 where it is none.</param>
/// <param name="Fit">The fit.</param>
/// <param name="Modes">The modes of the piece as fitted.</param>
/// <param name="Cost">−2 ln of how likely all readings are if this is so, up to a constant.</param>
internal sealed record FittedWay(IReadOnlyList<int> Numbers, FitResult Fit, IReadOnlyList<TapMode> Modes, double Cost);

/// <summary>Fits the likely ways of taking tones for modes, each by itself, and says how likely each is.</summary>
/// <remarks>
/// <see cref="ToneAssignment"/> proposes ways, linear about one piece; each is then fitted as it is. How likely the readings are under it is their normal density at
/// the fit times what the readings leave open of what could have been before (Laplace's approximation; Kass &amp; Raftery 1995, J. Am. Stat. Assoc. 90, 773,
/// section 4.1), times how likely such modes are heard. New ways are proposed about the likeliest piece, until none comes.
/// </remarks>
internal sealed class ToneFits
{
    private const int Proposed = 12, Rounds = 4;
    // Proposals so much costlier than the best one are not fitted: beyond what linearity may be off by, they would not be shown.
    private const double Window = 10;
    private const double Farthest = 5;
    // A hundredth of a standard deviation more or less says nothing.
    private const double Tolerance = 1e-2;

    private readonly PieceModel _model;
    private readonly TappedPlate _plate;
    private readonly Observation[] _tones;
    private readonly IReadOnlyList<TapMode> _first;
    private readonly List<FittedWay> _fitted = [];
    private readonly HashSet<string> _seen = [];

    private ToneFits(PieceModel model, TappedPlate plate, Observation[] tones, IReadOnlyList<TapMode> first) => (_model, _plate, _tones, _first) = (model, plate, tones, first);

    /// <summary>The likely ways, likeliest first; that one is proven on the plate's mesh.</summary>
    /// <param name="model">The piece.</param>
    /// <param name="plate">Its modes.</param>
    /// <param name="tones">Its tones, rising.</param>
    /// <param name="without">What is known without the tones.</param>
    internal static IReadOnlyList<FittedWay> Of(PieceModel model, TappedPlate plate, Observation[] tones, FitResult without)
    {
        IReadOnlyList<TapMode> first = plate.Counted(model.At(without.Parameters));
        var fits = new ToneFits(model, plate, tones, first);
        fits.Try(fits.ProposedAbout(without, first), without, first);
        FittedWay? about = null;
        for (int round = 0; round < Rounds && fits.Best() != about; round++)
        {
            about = fits.Best();
            fits.Try([.. fits.ProposedAbout(about.Fit, about.Modes), fits.WithoutFar(about)], about.Fit, about.Modes);
        }

        fits.Prove();
        return [fits.Best(), .. fits._fitted.Where(f => f != fits.Best()).OrderBy(f => f.Cost)];
    }

    private FittedWay Best() => _fitted.MinBy(f => f.Cost)!;

    private void Try(IReadOnlyList<Assignment> ways, FitResult start, IReadOnlyList<TapMode> modes)
    {
        foreach (Assignment way in ways)
        {
            // A way is known by the shapes of its modes among the first ones.
            string name = string.Join(' ', Renumbered(way.Modes, modes, _first));
            if (way.Cost > ways[0].Cost + Window || !_seen.Add(name)) { continue; }
            try { _fitted.Add(Fitted(way.Modes, modes, start)); }
            catch (InvalidOperationException)
            {
                // A way that leads to a plate which cannot be is none. Where all do, there is nothing to say.
                if (_fitted.Count == 0 && way == ways[^1]) { throw; }
            }
        }
    }

    private FittedWay Fitted(IReadOnlyList<int> way, IReadOnlyList<TapMode> modes, FitResult start)
    {
        double[][] shapes = [.. way.Where(m => m >= 0).Select(m => modes[m].Shape)];
        FitResult fit = Fit(way, start, p => _model.WithTones(_plate, shapes, p));
        IReadOnlyList<TapMode> then = _plate.Solve(_model.At(fit.Parameters));
        return Weighed(Renumbered(way, modes, then), then, fit);
    }

    private FitResult Fit(IReadOnlyList<int> way, FitResult start, Func<double[], ModelValues> model)
    {
        Observation[] heard = [.. _model.Plain, .. _tones.Where((_, t) => way[t] >= 0)];
        return LogFit.Fit(new double[_model.Count], _model.Precision, Identify.Logs(heard), Identify.Spreads(heard), model, start.Parameters, Tolerance);
    }

    private FittedWay Weighed(IReadOnlyList<int> way, IReadOnlyList<TapMode> modes, FitResult fit) => new(way, fit, modes, Cost(way, fit, modes));

    private double Cost(IReadOnlyList<int> way, FitResult fit, IReadOnlyList<TapMode> modes)
    {
        var at = Vector<double>.Build.Dense(fit.Parameters);
        double open = Math.Log((fit.Covariance * _model.Precision).Determinant()), density = 0;
        for (int t = 0; t < way.Count; t++)
        {
            if (way[t] >= 0) { density += Math.Log(2 * Math.PI * _tones[t].Spread * _tones[t].Spread); }
        }

        return fit.SumOfSquares + at * (_model.Precision * at) - open + density + ToneAssignment.CostOfHearing(way, [.. modes.Select(m => m.Frequency)]);
    }

    // Where the best way's fit has left what the plate knows, it and the others are fitted again with what was learnt.
    private void Prove()
    {
        for (int again = 0; again < Rounds && !_plate.Prove(_model.At(Best().Fit.Parameters)); again++)
        {
            FittedWay[] all = [.. _fitted.Where(f => f.Cost <= Best().Cost + Window)];
            _fitted.Clear();
            _fitted.AddRange(all.Select(f => Fitted(f.Numbers, f.Modes, f.Fit)));
        }
    }

    // The way without the tones that lie far from their modes: better no reading than a wrong one.
    private Assignment WithoutFar(FittedWay way)
    {
        int at = _model.Plain.Length;
        return new([.. way.Numbers.Select(m => m >= 0 && Math.Abs(way.Fit.Misfits[at++]) > Farthest ? -1 : m)], double.NegativeInfinity);
    }

    // Mode numbers follow the shapes.
    private List<int> Renumbered(IReadOnlyList<int> way, IReadOnlyList<TapMode> from, IReadOnlyList<TapMode> to)
    {
        var taken = new List<int>();
        foreach (int m in way) { taken.Add(m < 0 ? -1 : _plate.MostLike(from[m].Shape, to, taken)); }
        return taken;
    }

    private IReadOnlyList<Assignment> ProposedAbout(FitResult fit, IReadOnlyList<TapMode> modes)
    {
        // What is known without the tones, about the parameters that the modes were found with.
        ModelValues values = _model.WithoutTones(fit.Parameters);
        Vector<double> at = Vector<double>.Build.Dense(fit.Parameters), pull = _model.Precision * -at;
        Matrix<double> normal = _model.Precision.Clone();
        for (int i = 0; i < _model.Plain.Length; i++)
        {
            Observation o = _model.Plain[i];
            double weight = 1 / (o.Spread * o.Spread);
            Vector<double> g = Identify.Row(values.Slopes, i);
            normal += weight * g.OuterProduct(g);
            pull += g * (weight * (Math.Log(o.Value) - values.Values[i]));
        }

        Matrix<double> covariance = normal.Inverse();
        double offset = fit.Parameters[^1];
        IReadOnlyList<TapMode> counted = _tones.Any(t => t.Tone is { Along: not null }) ? _plate.Counted(modes) : modes;
        return ToneAssignment.Likeliest(
            Identify.Logs(_tones), Identify.Spreads(_tones), (t, m) => _tones[t].Tone is not { Along: { } along, Across: { } across } || counted[m].Lines == (along, across),
            [.. modes.Select(m => Math.Log(m.Frequency) + offset)], _model.Slopes(_plate, fit.Parameters, modes), covariance * pull, covariance, Proposed);
    }
}
