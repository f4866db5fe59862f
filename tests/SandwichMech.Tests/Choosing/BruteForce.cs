using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Choosing;

/// <summary>Choosing without any search: each board by itself, its plate solved, none told from another.</summary>
internal static class BruteForce
{
    /// <summary>Lightest of all boards whose chance is enough, by single bounds on stiffness along and one mode of the free board.</summary>
    /// <param name="wish">Targets: stiffness along at least, and a mode between bounds or at least.</param>
    /// <param name="accuracy">Of the frequencies.</param>
    /// <param name="below">Boards from this mass on, kg, are passed over: they could not be the lightest.</param>
    /// <returns>Its mass, kg, and how many plates there were; nothing where none is enough.</returns>
    internal static (double? Mass, int Solves) Lightest(ChoiceWish wish, double accuracy, double below = double.PositiveInfinity)
    {
        double? least = null;
        int solves = 0;
        var chance = new JointChance(wish.Targets, wish.Seed);
        foreach (ChoiceVariant variant in wish.Variants)
        {
            OutlineFrame? frame = null;
            foreach (double outer in variant.Outer)
            {
                foreach (double inner in variant.Inner)
                {
                    Board board = At(variant, outer, inner);
                    solves++;
                    double mass = board.Mass(board.Laminate());
                    if (mass >= below) { continue; }
                    frame ??= OutlineFrame.For(board, 4, accuracy);
                    FirstModes found = frame.Of(board);
                    ChoiceValue[] values = [.. wish.Targets.Select(t => t.NeedsPlate ? Mode(board, frame, found, t.Mode) : Along(board, t.OfSolid))];
                    if (chance.Of(values) >= wish.Sure && (least is null || mass < least)) { least = mass; }
                }
            }
        }

        return (least, solves);
    }

    /// <summary>The demo board on its outline with other cores and skins.</summary>
    internal static IReadOnlyList<ChoiceVariant> Variants(IReadOnlyList<double> heights, IReadOnlyList<double> skins)
    {
        string path = Repository.File("shared", "demo", "outline.toml");
        BoardFile file = BoardFiles.Read(path, MaterialTables.BuiltIn());
        return [.. heights.Select(h => new ChoiceVariant(file.Board with { Core = file.Board.Core with { Height = file.Board.Core.Height.MovedTo(h) } }, 0, skins, skins))];
    }

    /// <summary>Values from one to another by a step.</summary>
    internal static double[] Steps(double from, double to, double step) => [.. Enumerable.Range(0, (int)Math.Round((to - from) / step) + 1).Select(i => from + i * step)];

    internal static Board At(ChoiceVariant v, double outer, double inner) => v.Board with
    {
        Outer = v.Board.Outer with { Thickness = v.Board.Outer.Thickness.MovedTo(outer) },
        Inner = v.Board.Inner with { Thickness = v.Board.Inner.Thickness.MovedTo(inner) },
    };

    private static ChoiceValue Mode(Board board, OutlineFrame frame, FirstModes found, int number) =>
        new(Math.Log(found.Modes[number - 1].Frequency), frame.Effects(board, found, found.Modes[number - 1]), BoardModes.ModelSpread(board));

    private static ChoiceValue Along(Board board, bool ofSolid)
    {
        Propagation<double> p = Propagation.Through(board, BoardInputs.Of(board), b =>
            Math.Log(b.Laminate().Bending.M11) - (ofSolid ? Math.Log(Board.SolidPlate(b.Solid.Wood, b.Solid.Thickness!.Value.Value).Bending.M11) : 0));
        return new(p.Nominal, p.Effects(x => x), 0);
    }
}
