using SandwichMech.Core.Layups;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Predictions;

/// <summary>A figure of one board over that of another, with the spread of what the two do not share.</summary>
/// <remarks>Where both name the same wood, core or adhesive, they are taken as made of the same: what is not known of it moves both together. Thicknesses, and what a bond keeps, are each board's own.</remarks>
public static class BoardRatio
{
    private static readonly string[] Own = ["thickness", "height", "adhesive mixed", "adhesive kept"];

    /// <summary>The ratio.</summary>
    /// <param name="board">The board.</param>
    /// <param name="other">What it is measured by.</param>
    /// <param name="figure">Picks the figure, positive.</param>
    /// <returns>Board over other.</returns>
    public static Prediction Of(Board board, Board other, Func<BoardFigures, double> figure)
    {
        (Propagation<BoardFigures> ours, Propagation<BoardFigures> theirs) = (BoardFigures.WithSpread(board), BoardFigures.WithSpread(other));
        double[] up = ours.Effects(f => Math.Log(figure(f))), down = theirs.Effects(f => Math.Log(figure(f)));
        var names = new List<string>(ours.Inputs);
        var effects = new List<double>(up);
        for (int i = 0; i < down.Length; i++)
        {
            string name = theirs.Inputs[i];
            int same = Shares(name, board, other) ? names.IndexOf(name, 0, up.Length) : -1;
            if (same >= 0) { effects[same] -= down[i]; }
            else
            {
                names.Add($"{name} of {other.Name}");
                effects.Add(-down[i]);
            }
        }

        double ratio = figure(ours.Nominal) / figure(theirs.Nominal);
        return Propagation.Predict(ratio, names, effects, (z, sd) => ratio * Math.Exp(z * sd));
    }

    private static bool Shares(string input, Board a, Board b) =>
        !Own.Any(o => input.EndsWith(o, StringComparison.Ordinal)) && (
        input.StartsWith("outer skin", StringComparison.Ordinal) ? a.Outer.Wood.Name == b.Outer.Wood.Name
        : input.StartsWith("inner skin", StringComparison.Ordinal) ? a.Inner.Wood.Name == b.Inner.Wood.Name
        : input.StartsWith("core", StringComparison.Ordinal) ? a.Core.Material.Name == b.Core.Material.Name
        : input.StartsWith("solid top", StringComparison.Ordinal) ? a.Solid.Wood.Name == b.Solid.Wood.Name
        : input.StartsWith("let-in", StringComparison.Ordinal) || input == "rectangle for outline" || a.Adhesive.Name == b.Adhesive.Name);
}
