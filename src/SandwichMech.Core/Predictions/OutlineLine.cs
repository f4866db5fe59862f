using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Numerics;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Predictions;

/// <summary>A board of a line of boards on one outline.</summary>
/// <param name="Frequencies">Of its first modes, Hz, with the 90 % interval.</param>
/// <param name="SolidThickness">Of the solid top that equals it on the outline, m; nothing where none was asked for.</param>
/// <param name="Error">Estimated numerical error of the frequencies, relative.</param>
public sealed record OutlineRow(IReadOnlyList<FrequencyRange> Frequencies, double? SolidThickness, double Error);

/// <summary>A frequency and its 90 % interval.</summary>
/// <param name="Value">Hz.</param>
/// <param name="Low">Hz.</param>
/// <param name="High">Hz.</param>
public sealed record FrequencyRange(double Value, double Low, double High);

/// <summary>First modes, and solid tops of equal first mode or equal stiffness at the bridge, of boards that differ in one thickness.</summary>
/// <remarks>
/// Few of them are solved; between these the logarithms are cubics with the exact derivatives by the logarithm of the thickness (<see cref="HermiteLine"/>), modes in
/// the order of their frequencies. Widths of intervals between are straight lines, which puts them off by
/// half a per cent of the width for skins of 0.3 to 1.5 mm.
/// </remarks>
public static class OutlineLine
{
    private const double Tolerance = 3e-4, Step = 1e-4;

    /// <summary>Solves a line of boards.</summary>
    /// <param name="frame">Frame of one of them or of one near.</param>
    /// <param name="thicknesses">What differs, m, rising.</param>
    /// <param name="at">The board at a thickness.</param>
    /// <param name="criterion">What is held equal between a board and its solid top; nothing where no solid is wanted.</param>
    /// <param name="solved">Told the number of each board that was solved.</param>
    /// <returns>One row a board.</returns>
    /// <exception cref="NoSolidException">No solid top equals one of them.</exception>
    public static IReadOnlyList<OutlineRow> Of(
        OutlineFrame frame, IReadOnlyList<double> thicknesses, Func<double, Board> at, Func<Board, FirstModes, OutlineCriterion>? criterion, Action<int>? solved = null)
    {
        double? near = null;
        double error = 0;
        LinePoint[] points = HermiteLine.Fill([.. thicknesses.Select(t => Math.Log(t))], Solve, Tolerance);
        int modes = points[0].Beside.Length / 2;
        return [.. points.Select(p => new OutlineRow(
            [.. Enumerable.Range(0, modes).Select(i => new FrequencyRange(Math.Exp(p.Values[i]), Math.Exp(p.Values[i] + p.Beside[2 * i]), Math.Exp(p.Values[i] + p.Beside[2 * i + 1])))],
            p.Values.Length > modes ? Math.Exp(p.Values[modes]) : null,
            error + Tolerance))];

        LinePoint Solve(int number)
        {
            Board board = at(thicknesses[number]), more = at(thicknesses[number] * (1 + Step)), less = at(thicknesses[number] * (1 - Step));
            FirstModes found = frame.Of(board);
            IReadOnlyList<Prediction> frequencies = frame.Frequencies(board, found);
            error = Math.Max(error, found.Modes.Max(m => m.Error));
            bool onRim = RimCase.IsOn(board, BoardPlate.ShapeOf(board).Edge);
            var values = found.Modes.Select(m => Math.Log(m.Frequency)).ToList();
            var slopes = found.Modes.Select(m => Slope(frame.Change(board, m), BoardModes.Rim(m.Energy) / 2)).ToList();
            if (criterion?.Invoke(board, found) is { } equal)
            {
                SolidOnOutline solid = EqualOnOutline.Solid(equal, near) ?? throw new NoSolidException(board.Solid.Wood.Name);
                near = solid.Thickness.Value;
                values.Add(Math.Log(near.Value));
                slopes.Add((Math.Log(solid.ThicknessOf(new(more, Follows(more)))) - Math.Log(solid.ThicknessOf(new(less, Follows(less))))) / (2 * Step));
            }

            solved?.Invoke(number);
            return new([.. values], [.. slopes], [.. frequencies.SelectMany(f => (double[])[Math.Log(f.Low90 / f.Value), Math.Log(f.High90 / f.Value)])]);

            double Slope(Func<Board, double> change, double rim) => (change(more) - change(less) + rim * (Follows(more) - Follows(less))) / (2 * Step);

            // A rim's spring goes with the stiffness of the board beside it.
            double Follows(Board changed) => onRim ? Math.Log(BoardPlate.BendingBesideRim(changed) / BoardPlate.BendingBesideRim(board)) : 0;
        }
    }
}
