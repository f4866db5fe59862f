using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Numerics;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Predictions;

/// <summary>A board of a sweep on one outline.</summary>
/// <param name="Frequencies">Of its first modes, Hz; their sources are left out.</param>
/// <param name="Solid">The solid top that equals it on the outline; nothing where none was asked for.</param>
/// <param name="Error">Estimated numerical error of the frequencies, relative.</param>
public sealed record OutlineRow(IReadOnlyList<Prediction> Frequencies, SweptSolid? Solid, double Error);

/// <summary>A board's equal solid top in a sweep.</summary>
/// <param name="Thickness">m; its sources are left out.</param>
/// <param name="SavedSpread">Standard deviation of the mass that the board saves against it, kg.</param>
public sealed record SweptSolid(Prediction Thickness, double SavedSpread)
{
    /// <summary>The mass saved with its intervals.</summary>
    /// <param name="value">At the medians, kg.</param>
    /// <returns>kg; its sources are left out.</returns>
    public Prediction Saved(double value) => Prediction.Normal(value, SavedSpread);
}

/// <summary>First modes, and solid tops of equal first mode or equal stiffness at the bridge, of boards that differ in one thickness or two.</summary>
/// <remarks>
/// Few of them are solved; between these the logarithms are cubics with the exact derivatives by the logarithms of the thicknesses (<see cref="HermiteGrid"/>), modes
/// in the order of their frequencies. Widths of intervals between are straight lines, which puts them off by
/// half a per cent of the width for skins of 0.3 to 1.5 mm.
/// </remarks>
public static class OutlineSweep
{
    private const double Tolerance = 3e-4, Step = 1e-4;

    /// <summary>Solves a sweep.</summary>
    /// <param name="frame">Frame of one of the boards or of one near.</param>
    /// <param name="thicknesses">One or two lists of what differs, m, rising.</param>
    /// <param name="at">The board at a thickness of each list.</param>
    /// <param name="criterion">What is held equal between a board and its solid top; nothing where no solid is wanted.</param>
    /// <param name="solved">Told the numbers in the lists of each board that was solved.</param>
    /// <returns>One row a board, the first list slowest.</returns>
    /// <exception cref="NoSolidException">No solid top equals one of them.</exception>
    public static IReadOnlyList<OutlineRow> Of(
        OutlineFrame frame, IReadOnlyList<IReadOnlyList<double>> thicknesses, Func<double[], Board> at, Func<Board, FirstModes, OutlineCriterion>? criterion,
        Action<int[]>? solved = null)
    {
        double? near = null;
        double error = 0;
        double[][] axes = [.. thicknesses.Select(t => t.Select(v => Math.Log(v)).ToArray())];
        IReadOnlyList<(double[] Values, double[] Beside)> points = HermiteGrid.Fill(axes[0], axes.Length > 1 ? axes[1] : [0], Solve, Tolerance);
        int modes = points[0].Values.Length - (criterion is null ? 0 : 1);
        return [.. points.Select(p => new OutlineRow(
            [.. Enumerable.Range(0, modes).Select(i => Prediction.LogNormal(Math.Exp(p.Values[i]), p.Beside[i]))],
            criterion is null ? null : new(Prediction.LogNormal(Math.Exp(p.Values[modes]), p.Beside[modes]), p.Beside[modes + 1]),
            error + Tolerance))];

        GridPoint Solve(int first, int second)
        {
            int[] number = axes.Length > 1 ? [first, second] : [first];
            double[] place = [.. thicknesses.Zip(number, (t, n) => t[n])];
            Board board = at(place);
            FirstModes found = frame.Of(board);
            IReadOnlyList<Prediction> frequencies = frame.Frequencies(board, found);
            error = Math.Max(error, found.Modes.Max(m => m.Error));
            bool onRim = RimCase.IsOn(board, BoardPlate.ShapeOf(board).Edge);
            SolidOnOutline? solid = criterion is null ? null
                : EqualOnOutline.Solid(criterion(board, found), near) ?? throw new NoSolidException(board.Solid.Wood.Name);
            near = solid?.Thickness.Value;
            double[][] slopes = [.. axes.Select((_, axis) => Slopes(Stepped(axis, 1 + Step), Stepped(axis, 1 - Step)))];
            solved?.Invoke(number);
            return new(
                [.. found.Modes.Select(m => Math.Log(m.Frequency)), .. near is { } h ? [Math.Log(h)] : Array.Empty<double>()],
                slopes[0], slopes.Length > 1 ? slopes[1] : new double[slopes[0].Length],
                [.. frequencies.Select(f => f.LogSpread), .. solid is null ? Array.Empty<double>() : [solid.Thickness.LogSpread, solid.Saved.Spread]]);

            Board Stepped(int axis, double by) => at([.. place.Select((t, k) => k == axis ? t * by : t)]);

            double[] Slopes(Board more, Board less) =>
            [
                .. found.Modes.Select(m =>
                {
                    Func<Board, double> change = frame.Change(board, m);
                    return (change(more) - change(less) + BoardModes.Rim(m.Energy) / 2 * (Follows(more) - Follows(less))) / (2 * Step);
                }),
                .. solid is null ? Array.Empty<double>()
                    : [(Math.Log(solid.ThicknessOf(new(more, Follows(more)))) - Math.Log(solid.ThicknessOf(new(less, Follows(less))))) / (2 * Step)],
            ];

            // A rim's spring goes with the stiffness of the board beside it.
            double Follows(Board changed) => onRim ? Math.Log(BoardPlate.BendingBesideRim(changed) / BoardPlate.BendingBesideRim(board)) : 0;
        }
    }
}
