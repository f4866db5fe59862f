using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Workshop.Boards;

namespace SandwichMech.Workshop.UseCases;

/// <summary>What every use case that solves a board on its outline needs: its shape, and plain words where it cannot be solved.</summary>
internal static class OutlineSolving
{
    /// <summary>Where the bridge stands: the bridge's own foot, or else the wood let in under it; nothing where neither is given.</summary>
    internal static BoardRegion? Bridge(BoardShape shape) =>
        shape.Regions.FirstOrDefault(r => r.Change is GluedBar { Face: Face.Outer }) ?? shape.Regions.FirstOrDefault(r => r.Name == ShapeMaking.BridgePatch);

    /// <summary>The theory and what of the board is in it.</summary>
    internal const string Model = "first-order shear theory on the outline with hole and let-in wood";

    /// <summary>What 'rim' stands for.</summary>
    internal const string RimMeans =
        "the rim turns against a spring between hinged and clamped, 7 D/L: common practice has no figure, so a factor of five either way is in the intervals until taps on the rim narrow it";

    /// <summary>How the edge is held, in words: "free", "free, clamped at the upper end".</summary>
    internal static string EdgeWords(BoardShape shape) => EdgeWords(shape, shape.Edge);

    /// <summary>The same with another hold outside the stretches.</summary>
    internal static string EdgeWords(BoardShape shape, EdgeHold elsewhere) =>
        string.Join(", ", shape.Stretches.Select(s => $"{BoardFields.NameOf(s.Hold)} {s.Name}").Prepend(BoardFields.NameOf(elsewhere)));

    /// <summary>What is not in the model: "no bridge, braces or box", less what the board has.</summary>
    /// <param name="shape">The board.</param>
    /// <param name="last">What is never in it: "box".</param>
    internal static string NotIn(BoardShape shape, params string[] last)
    {
        string[] missing = [.. shape.Regions.Any(r => r.Change is GluedBar) ? [] : (string[])["bridge", "braces"], .. last];
        return missing.Length switch
        {
            0 => "all that the board file names is in it",
            1 => $"no {missing[0]} yet",
            _ => $"no {string.Join(", ", missing[..^1])} or {missing[^1]} yet",
        };
    }

    /// <summary>The board's shape.</summary>
    /// <param name="file">The board as read.</param>
    /// <param name="what">What needs it: "modes".</param>
    /// <param name="without">What can be had without, or nothing.</param>
    /// <exception cref="InputException">The board has no outline.</exception>
    internal static BoardShape ShapeOf(BoardFile file, string what, string without) => file.Board.Shape
        ?? throw new InputException(file.Path, $"{what} need an outline: add [{BoardFields.OutlineLower.Table.Name}] with lower, waist and upper, and size.length ({without})");

    /// <summary>Says where modes are beyond the theory; nothing where they are not.</summary>
    internal static IEnumerable<string> ShortWaves(Board board, double highest)
    {
        if (Core.Plates.ShortWaves.Of(board, highest) is { } wave)
        {
            yield return string.Create(System.Globalization.CultureInfo.InvariantCulture,
                $"the core is so soft in shear that at {highest:F0} Hz waves {(wave.Along ? "along" : "across")} the board are {wave.Length * 1000:F0} mm long, {wave.Length / wave.ShearLength:F0} times √(D/S): there the skins begin to bend on their own, which this theory leaves out, and frequencies near it come out some {wave.TooLow * 100:F0} % too low");
        }
    }

    /// <summary>Solves, and says what is wrong where that cannot be done.</summary>
    /// <exception cref="InputException">The outline cannot be meshed, or nothing holds the board.</exception>
    /// <exception cref="ComputationException">The numbers do not come out.</exception>
    internal static T Try<T>(BoardFile file, string what, Func<T> solve)
    {
        try
        {
            return solve();
        }
        catch (DomainException e)
        {
            throw new InputException([.. e.Problems.Select(p => new Problem(file.Path, null, "outline", p.Message))]);
        }
        catch (UnsupportedPlateException)
        {
            throw new InputException(file.Path, $"nothing keeps the board from moving or turning as a whole, so it bears no load: hold its edge ({BoardFields.EdgeHeld.Name} = \"rim\", say), or more of it");
        }
        catch (InvalidOperationException e)
        {
            throw new ComputationException($"no {what} were found for {file.Path}: {e.Message.TrimEnd('.')}; another --accuracy, or measures of outline, hole and let-in wood that come less close to each other, may help", e);
        }
    }
}
