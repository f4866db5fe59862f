using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;

namespace SandwichMech.Core.Identification;

/// <summary>A board on its outline, solved for on one mesh; other values are taken from the last solution.</summary>
/// <remarks>
/// Between solutions a mode keeps its shape, and its frequency is Rayleigh's quotient of that shape with the sections and the rim that are asked for, off by the square of
/// what the shape would change. <see cref="Prove"/> solves again where a fit has come to: a handful of solutions in all, fewer
/// than a reduced model needs to be built.
/// </remarks>
internal sealed class TapBoard : TappedPlate
{
    // Of the mesh, and of Rayleigh's quotients against it: beside what tones scatter by, little.
    private const double MeshAccuracy = 3e-3, Accuracy = 1e-3;

    private readonly OutlineFrame _frame;
    private readonly Board _start;
    private readonly Func<IReadOnlyList<double>, (int Along, int Across)?> _lines;
    private Solved _last;

    private sealed record Solved(IReadOnlyList<PlateSection> Sections, double RimShift, IReadOnlyList<TapMode> Modes);

    // Relative change of a mode's stiffness and mass from what it was solved with.
    private readonly record struct Quotient(double Stiffness, double Mass);

    internal TapBoard(BoardSample sample, int count)
    {
        (_start, _frame) = (sample.Board, OutlineFrame.For(sample.Board, count, MeshAccuracy));
        Areas = _frame.Own.Plate.Field.Areas();
        _lines = _frame.Own.Plate.Field.NodalCounter();
        _last = new(_frame.Sections(sample.Board), 0, Modes(_frame.Own));
        if (sample.RimShift != 0) { _last = InFull(sample); }
    }

    private protected override double[] Areas { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<TapMode> Solve(Sample sample)
    {
        var of = (BoardSample)sample;
        IReadOnlyList<PlateSection> sections = _frame.Sections(of.Board);
        return [.. _last.Modes.Select(m =>
        {
            Quotient q = Of(m, sections, of.RimShift);
            return m with { Frequency = m.Mode.Frequency * Math.Sqrt((1 + q.Stiffness) / (1 + q.Mass)) };
        }).OrderBy(m => m.Frequency)];
    }

    /// <inheritdoc/>
    public override bool Prove(Sample sample)
    {
        Solved full = InFull((BoardSample)sample);
        // Where it is good enough all stays as it is, so that modes that were given out go on being those of the last solution.
        if (Solve(sample).All(g => Math.Abs(g.Frequency / full.Modes[MostLike(g.Shape, full.Modes)].Frequency - 1) <= Accuracy)) { return true; }
        _last = full;
        return false;
    }

    /// <inheritdoc/>
    public override double[] Changes(IReadOnlyList<TapMode> modes, Sample less, Sample more)
    {
        (BoardSample from, BoardSample to) = ((BoardSample)less, (BoardSample)more);
        IReadOnlyList<PlateSection> before = _frame.Sections(from.Board), after = _frame.Sections(to.Board);
        return [.. modes.Select(m =>
        {
            (Quotient a, Quotient b) = (Of(m, before, from.RimShift), Of(m, after, to.RimShift));
            return Math.Log((1 + b.Stiffness) * (1 + a.Mass) / ((1 + a.Stiffness) * (1 + b.Mass))) / 2;
        })];
    }

    /// <inheritdoc/>
    internal override (int Along, int Across)? LinesOf(double[] shape) => _lines(shape);

    // The rim is what it is, whatever the fit makes of the board beside it.
    private Solved InFull(BoardSample sample) =>
        new(_frame.Sections(sample.Board), sample.RimShift, Modes(_frame.Of(sample.Board, _start, Math.Exp(sample.RimShift))));

    private Quotient Of(TapMode mode, IReadOnlyList<PlateSection> sections, double rimShift)
    {
        (double stiffness, double mass) = mode.Mode.Changes(_last.Sections, sections);
        return new(stiffness + BoardModes.Rim(mode.Mode.Energy) * (Math.Exp(rimShift - _last.RimShift) - 1), mass);
    }

    private static IReadOnlyList<TapMode> Modes(FirstModes found) => [.. found.Modes.Select((m, i) => new TapMode(m.Frequency, null, found.Shapes[i], m, 1))];
}
