namespace SandwichMech.Workshop.Boards;

/// <summary>What is found while a board file is read: mistakes, warnings, and what to show back.</summary>
/// <param name="path">The file, as given.</param>
internal sealed class Findings(string path)
{
    private const int MostProblems = 100;
    private readonly List<Problem> _problems = [];
    private readonly List<Problem> _warnings = [];
    private readonly List<string> _readBack = [];

    internal string Path => path;

    internal IReadOnlyList<Problem> Warnings => _warnings.Count < 2 ? _warnings : [.. _warnings.OrderBy(warning => warning.Line)];

    internal IReadOnlyList<string> ReadBack => _readBack;

    internal void Report(int? line, string? field, string message) => _problems.Add(new(path, line, field, message));

    /// <summary>Takes a mistake in another file.</summary>
    internal void Report(Problem elsewhere) => _problems.Add(elsewhere);

    internal void Warn(int line, string field, string message) => _warnings.Add(new(path, line, field, message));

    internal void Show(string line) => _readBack.Add(line);

    /// <exception cref="InputException">There are mistakes: all of them, by line.</exception>
    internal void ThrowIfWrong()
    {
        if (_problems.Count == 0)
        {
            return;
        }

        // Stable: of one line, in the order of checking; what has no line comes last.
        List<Problem> sorted = [.. _problems.OrderBy(problem => problem.Line ?? int.MaxValue)];
        throw new InputException(sorted.Count <= MostProblems
            ? sorted
            : [.. sorted.Take(MostProblems), new(path, null, null, $"and {sorted.Count - MostProblems} more mistakes: mend these first")]);
    }
}
