using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;

namespace SandwichMech.Core.Identification;

/// <summary>A board on its outline, solved for on one mesh. A fit takes some five steps, each a solution: fewer than any reduced model needs to be built.</summary>
internal sealed class TapBoard : TappedPlate
{
    // Beside what tones scatter by, nothing.
    private const double Accuracy = 3e-3;

    private readonly OutlineFrame _frame;
    private readonly Board _start;
    private readonly Func<IReadOnlyList<double>, (int Along, int Across)?> _lines;
    private (BoardSample Of, IReadOnlyList<PlateSection> Sections, IReadOnlyList<TapMode> Modes) _last;

    internal TapBoard(BoardSample sample, int count)
    {
        (_start, _frame) = (sample.Board, OutlineFrame.For(sample.Board, count, Accuracy));
        Areas = _frame.Own.Plate.Field.Areas();
        _lines = _frame.Own.Plate.Field.NodalCounter();
        _last = (sample with { RimShift = 0 }, _frame.Sections(sample.Board), Modes(_frame.Own));
        First = Counted(sample);
    }

    /// <inheritdoc/>
    public override IReadOnlyList<TapMode> First { get; }

    private protected override double[] Areas { get; }

    internal override bool IsQuick => false;

    /// <inheritdoc/>
    public override IReadOnlyList<TapMode> Solve(Sample sample)
    {
        var of = (BoardSample)sample;
        IReadOnlyList<PlateSection> sections = _frame.Sections(of.Board);
        if (_last.Of.RimShift != of.RimShift || !_last.Sections.SequenceEqual(sections))
        {
            // The rim is what it is, whatever the fit makes of the board beside it.
            _last = (of, sections, Modes(_frame.Of(of.Board, _start, Math.Exp(of.RimShift))));
        }

        return _last.Modes;
    }

    private protected override (int Along, int Across)? LinesOf(double[] shape) => _lines(shape);

    /// <inheritdoc/>
    public override bool Prove(Sample sample) => true;

    /// <inheritdoc/>
    public override double[] Changes(IReadOnlyList<TapMode> modes, Sample own, Sample changed)
    {
        (BoardSample from, BoardSample to) = ((BoardSample)own, (BoardSample)changed);
        IReadOnlyList<PlateSection> before = _frame.Sections(from.Board), after = _frame.Sections(to.Board);
        return [.. modes.Select(m => m.Mode.RelativeChange(before, after) + BoardModes.Rim(m.Mode.Energy) / 2 * (to.RimShift - from.RimShift))];
    }

    private static List<TapMode> Modes(FirstModes found) => [.. found.Modes.Select((m, i) => new TapMode(m.Frequency, null, found.Shapes[i], m, 1))];
}
