using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>How far one input of a board may go.</summary>
/// <param name="Input">Its name, as <see cref="BoardRange.Usual"/> gives it.</param>
/// <param name="Low">Lowest value, SI, positive.</param>
/// <param name="High">Highest value, SI; equal to the lowest where it is fixed.</param>
public sealed record InputRange(string Input, double Low, double High)
{
    // Rounding of a value that was computed from an end.
    private const double Slack = 1e-9;

    /// <summary>Whether a value lies within.</summary>
    /// <param name="value">SI.</param>
    /// <returns>Whether it does; not a number does not.</returns>
    public bool Holds(double value) => value >= Low * (1 - Slack) && value <= High * (1 + Slack);

    /// <summary>A value within: even steps are even in its logarithm.</summary>
    /// <param name="position">0 at the low end, 1 at the high one.</param>
    /// <returns>SI.</returns>
    public double At(double position) => Low * Math.Pow(High / Low, position);
}

/// <summary>The boards of one shape that a reduced model answers for: a low and a high value of each input.</summary>
/// <param name="Inputs">In the order of <see cref="Usual"/>; all that a board has.</param>
public sealed record BoardRange(IReadOnlyList<InputRange> Inputs)
{
    // Share by which the usual range is widened for a board that lies outside it.
    private const double Beyond = 1.15;

    /// <summary>
    /// Skins of 0.45 to 0.9 mm of any soundboard wood, a core of 1.2 to 3.2 mm, honeycomb or foam, usual glue; woods let in and bars within a third of the board's
    /// own. Common practice, no source; widened where the board itself lies outside.
    /// </summary>
    /// <param name="board">A board of the shape.</param>
    /// <returns>The range.</returns>
    public static BoardRange Usual(Board board) => new([.. RangedInput.All(board).Select(i => UsualOf(i.Name, i.Of(board)))]);

    /// <summary>The same relative range about all values of a board, for a study of what its own inputs' spread does.</summary>
    /// <param name="board">The board.</param>
    /// <param name="factor">1.3, say: from a value over 1.3 to 1.3 times it; at least 1.</param>
    /// <returns>The range.</returns>
    public static BoardRange About(Board board, double factor) => factor >= 1 && double.IsFinite(factor)
        ? new([.. RangedInput.All(board).Select(i => Around(i.Name, i.Of(board), factor))])
        : throw new ArgumentOutOfRangeException(nameof(factor), factor, "A range about a board needs a factor of 1 or more.");

    /// <summary>The same range with one input's ends changed.</summary>
    /// <param name="input">Its name.</param>
    /// <param name="low">SI.</param>
    /// <param name="high">SI.</param>
    /// <returns>The range.</returns>
    /// <exception cref="ArgumentException">There is no such input, or the ends are not positive and in order.</exception>
    public BoardRange With(string input, double low, double high)
    {
        if (!Inputs.Any(i => i.Input == input)) { throw new ArgumentException($"No input of the board is called '{input}'.", nameof(input)); }
        return low > 0 && high >= low && double.IsFinite(high)
            ? new([.. Inputs.Select(i => i.Input == input ? new(input, low, high) : i)])
            : throw new ArgumentException($"The range of {input} must be positive, the low end first.", nameof(low));
    }

    /// <summary>A board of the range.</summary>
    /// <param name="board">Any board of the shape: what the range does not name is taken from it.</param>
    /// <param name="positions">For each input, 0 at its low end to 1 at its high one.</param>
    /// <returns>The board.</returns>
    public Board At(Board board, IReadOnlyList<double> positions)
    {
        IReadOnlyList<RangedInput> inputs = Matching(board) ?? throw new ArgumentException("The range was made for another kind of board.", nameof(board));
        Board at = board;
        for (int i = 0; i < inputs.Count; i++) { at = inputs[i].Put(at, Inputs[i].At(positions[i])); }
        return at;
    }

    /// <summary>The first input of a board that lies outside.</summary>
    /// <param name="board">The board.</param>
    /// <returns>Its name; nothing where all lie within.</returns>
    public string? Outside(Board board)
    {
        if (Matching(board) is not { } inputs) { return "the woods and bars in its regions"; }
        for (int i = 0; i < inputs.Count; i++)
        {
            if (!Inputs[i].Holds(inputs[i].Of(board))) { return Inputs[i].Input; }
        }

        return null;
    }

    /// <summary>A board's values in another: what the range names from the one, everything else from the other.</summary>
    internal static Board Values(Board from, Board into)
    {
        Board board = into;
        foreach (RangedInput input in RangedInput.All(into)) { board = input.Put(board, input.Of(from)); }
        return board;
    }

    // The board's inputs, where they are those of the range.
    private IReadOnlyList<RangedInput>? Matching(Board board)
    {
        IReadOnlyList<RangedInput> inputs = RangedInput.All(board);
        return inputs.Count == Inputs.Count && inputs.Zip(Inputs, (a, b) => a.Name == b.Input).All(same => same) ? inputs : null;
    }

    private static InputRange UsualOf(string name, double value)
    {
        (double Low, double High)? usual = name switch
        {
            "core height" => (1.2e-3, 3.2e-3),
            "core density" => (24, 100),
            "core shear modulus along the ribbon" => (18e6, 60e6),
            "core shear modulus across the ribbon" => (8e6, 35e6),
            "adhesive mixed" => (0.1, 0.3),
            "adhesive kept" => (0.3, 0.7),
            "film share" => (0.25, 0.65),
            "adhesive density" => (1000, 1250),
            "film modulus" => (1.5e9, 4e9),
            "outer skin thickness" or "inner skin thickness" => (0.45e-3, 0.9e-3),
            "outer skin density" or "inner skin density" => (300, 550),
            "outer skin E_L" or "inner skin E_L" => (7.5e9, 14.5e9),
            "outer skin E_R/E_L" or "inner skin E_R/E_L" => (0.06, 0.13),
            "outer skin G_LR/E_L" or "inner skin G_LR/E_L" => (0.05, 0.125),
            "outer skin G_LT/E_L" or "inner skin G_LT/E_L" => (0.045, 0.12),
            "outer skin G_RT/E_L" or "inner skin G_RT/E_L" => (0.002, 0.012),
            "outer skin nu_LR" or "inner skin nu_LR" => (0.32, 0.43),
            _ => null,
        };
        if (usual is null) { return Around(name, value, 4.0 / 3); }
        return new(name, value < usual.Value.Low ? value / Beyond : usual.Value.Low, value > usual.Value.High ? value * Beyond : usual.Value.High);
    }

    // A share stays below 1, and Poisson's ratio where the moduli allow it.
    private static InputRange Around(string name, double value, double factor)
    {
        double high = name is "adhesive kept" or "film share" ? Math.Min(value * factor, Math.Max(value, 0.95)) : value * factor;
        return new(name, value / factor, high);
    }
}
