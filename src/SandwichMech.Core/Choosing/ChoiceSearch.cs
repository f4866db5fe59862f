using SandwichMech.Core.Layups;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Choosing;

/// <summary>Goes through the boards of a wish and remembers what it found.</summary>
internal sealed class ChoiceSearch
{
    // So many layups are looked at at a time, on all cores.
    private const int Chunk = 512;
    private const int MostOthers = 6;

    private readonly LayupFigures _layups;
    private readonly PlateFigures? _plates;
    private readonly JointChance _chance;
    private readonly Action<string, double> _progress;
    private readonly Dictionary<int, ChoiceValue[]> _spread = [];
    // Layups that cannot meet the targets that they alone decide.
    private readonly bool[] _out;
    private readonly bool[] _looked;

    internal ChoiceSearch(ChoiceWish wish, Action<string, double> progress)
    {
        (Wish, _progress) = (wish, progress);
        Space = new(wish.Variants);
        _layups = new(wish.Targets);
        _plates = wish.Targets.Any(t => t.NeedsPlate) ? new(wish.Targets, wish.Plate!) : null;
        _chance = new(wish.Targets, wish.Seed);
        (_out, _looked) = (new bool[Space.Count], new bool[Space.Count]);
    }

    internal ChoiceWish Wish { get; }

    internal ChoiceSpace Space { get; }

    internal int Solves => _plates?.Solves ?? 0;

    /// <summary>The lightest board that meets all targets; nothing where none does.</summary>
    internal ChosenBoard? Lightest()
    {
        bool[] ruledOut = new bool[Space.Count];
        int raised = 0;
        while (Next(0, ruledOut) is { } number)
        {
            Candidate at = Space.At(number);
            if (_plates is null) { return Shown(at, _spread[number], solved: true); }
            if (_plates.Of(Space.ShapeOf(at), at) is { } solved) { return Shown(at, solved.Values, solved: true); }
            // The lightest of which it is told that it does: once it is solved, the errors of those about it are small, and one look rules most of them out.
            int next = ToldToMeet(number, ruledOut) is { } told && _plates.Of(Space.ShapeOf(Space.At(told)), Space.At(told)) is null ? told : number;
            if (_chance.Of(Solve(Space.At(next))) < Wish.Sure) { ruledOut[next] = true; }
            if (_plates.Raised == raised) { continue; }
            // What was ruled out by a smaller error is open again.
            raised = _plates.Raised;
            Array.Clear(ruledOut);
        }

        return null;
    }

    // The lightest board that may meet all for what is known of it, from a place in the order on.
    private int? Next(int from, bool[] ruledOut)
    {
        for (int i = from; i < Space.Count; i++)
        {
            if (i % Chunk == 0)
            {
                Look(Space.Lightest.AsSpan(i, Math.Min(Chunk, Space.Count - i)).ToArray());
                _progress("boards gone through, from the lightest on", (double)i / Space.Count);
            }

            int number = Space.Lightest[i];
            if (_out[number] || ruledOut[number]) { continue; }
            if (_plates is null || MayMeet(Space.At(number))) { return number; }
            ruledOut[number] = true;
        }

        return null;
    }

    private int? ToldToMeet(int from, bool[] ruledOut)
    {
        foreach (int number in Space.Lightest.SkipWhile(n => n != from))
        {
            if (!_looked[number]) { Look([number]); }
            if (_out[number] || ruledOut[number] || Values(Space.At(number)) is not var (values, _)) { continue; }
            if (_chance.Of(values, Wish.Sure) >= Wish.Sure) { return number; }
        }

        return null;
    }

    /// <summary>The lightest boards of other kinds that meet all, as far as is told from solved ones.</summary>
    internal IReadOnlyList<ChosenBoard> OfOtherKinds(ChosenBoard best)
    {
        var found = new Dictionary<int, ChosenBoard>();
        foreach (int number in Space.Lightest)
        {
            Candidate at = Space.At(number);
            if (at.Variant == best.At.Variant || found.ContainsKey(at.Variant)) { continue; }
            Look([number]);
            if (_out[number] || Values(at) is not var (values, solved) || _chance.Of(values) < Wish.Sure) { continue; }
            found[at.Variant] = Shown(at, values, solved);
            if (found.Count == MostOthers) { break; }
        }

        return [.. found.Values];
    }

    /// <summary>Figures of a board, its own or told from a solved one near; nothing where no board of its shape was solved.</summary>
    internal (ChoiceValue[] Values, bool Solved)? Values(Candidate at)
    {
        ChoiceValue[] layup = SpreadOf(at);
        if (_plates is null) { return (layup, true); }
        int shape = Space.ShapeOf(at);
        return _plates.Of(shape, at) is { } solved ? (solved.Values, true)
            : _plates.Told(shape, Space.BoardAt(at), layup) is { } told ? (told.Values, false) : null;
    }

    /// <summary>Figures of a board from its own plate, solved where it was not yet.</summary>
    internal ChoiceValue[] Solve(Candidate at)
    {
        ChoiceValue[] layup = SpreadOf(at);
        int shape = Space.ShapeOf(at);
        return _plates is null ? layup : (_plates.Of(shape, at) ?? _plates.Solve(shape, at, Space.BoardAt(at), layup)).Values;
    }

    internal double Chance(IReadOnlyList<ChoiceValue> values, double enough = 0) => _chance.Of(values, enough);

    /// <summary>Chance with one target changed.</summary>
    internal double ChanceWith(int target, ChoiceTarget changed, IReadOnlyList<ChoiceValue> values) => _chance.With(target, changed).Of(values, Wish.Sure);

    /// <summary>Chance of all bounds, aims left out.</summary>
    internal double ChanceOfBounds(IReadOnlyList<ChoiceValue> values) => Enumerable.Range(0, Wish.Targets.Count).Where(t => Wish.Targets[t].Aim is not null)
        .Aggregate(_chance, (chance, t) => chance.With(t, Wish.Targets[t] with { Aim = null })).Of(values);

    internal ChosenBoard Shown(Candidate at, IReadOnlyList<ChoiceValue> values, bool solved)
    {
        Board board = Space.BoardAt(at);
        string[] inputs = [.. BoardInputs.Of(board).Where(i => i.Spread > 0).Select(i => i.Name), "rim's hold"];
        return new(at, board, Space.MassAt(at), _chance.Of(values),
            [.. Wish.Targets.Select((t, i) => new TargetOutcome(t, Predicted(t, values[i], inputs), JointChance.Alone(t, values[i])))], solved);
    }

    /// <summary>Layup's figures with their spreads.</summary>
    internal ChoiceValue[] SpreadOf(Candidate at)
    {
        int number = Space.NumberOf(at);
        lock (_spread)
        {
            if (_spread.TryGetValue(number, out ChoiceValue[]? known)) { return known; }
        }

        ChoiceValue[] found = _layups.WithSpread(Space.BoardAt(at).UnderWeight());
        lock (_spread) { _spread[number] = found; }
        return found;
    }

    /// <summary>Scaled figures of a board's layup at the medians.</summary>
    internal double[] Nominal(Candidate at) => _layups.Nominal(Space.BoardAt(at).UnderWeight(), Space.MassAt(at));

    internal void Tell(string what, double share) => _progress(what, share);

    private void Look(int[] numbers) => Parallel.ForEach(numbers, number =>
    {
        if (_looked[number]) { return; }
        Candidate at = Space.At(number);
        double[] nominal = Nominal(at);
        // With a chance of a half or more a bound holds at the median.
        bool wrong = Wish.Targets.Zip(nominal, (t, x) => !t.NeedsPlate && (t.Aim is not null || Wish.Sure >= 0.5) && t.Off(x) > 0).Any(x => x);
        _out[number] = wrong || Wish.Targets.Zip(SpreadOf(at), (t, v) => !t.NeedsPlate && t.Aim is null && JointChance.Alone(t, v) < Wish.Sure).Any(x => x)
            || (_plates is null && _chance.Of(SpreadOf(at), Wish.Sure) < Wish.Sure);
        _looked[number] = true;
    });

    // Whether a board may meet its targets for all that is told of it; always, where nothing is.
    private bool MayMeet(Candidate at)
    {
        int shape = Space.ShapeOf(at);
        if (_plates!.Of(shape, at) is { } solved) { return _chance.Of(solved.Values) >= Wish.Sure; }
        if (_plates.Told(shape, Space.BoardAt(at), SpreadOf(at)) is not var (values, errors)) { return true; }
        ChoiceValue[] kindest = [.. values.Select((v, t) => v with { Value = Wish.Targets[t].Kindest(v.Value, errors[t]) })];
        return _chance.Of(kindest, Wish.Sure) >= Wish.Sure;
    }

    private static Prediction Predicted(ChoiceTarget target, ChoiceValue value, string[] inputs) => Propagation.Predict(
        target.Figured(value.Value), [.. inputs.Take(value.Effects.Length), "the model itself"], [.. value.Effects, value.Own],
        (z, sd) => target.Figured(value.Value + z * sd));
}
