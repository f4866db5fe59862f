namespace SandwichMech.Workshop;

/// <summary>Something wrong, or merely unusual, in what was typed or in a file: where, what, and how to mend it.</summary>
/// <param name="Where">File, option or prompt, as the user knows it.</param>
/// <param name="Line">Line of a file, from 1, where there is one.</param>
/// <param name="Field">The field in the user's words ("outer.thickness"), where there is one.</param>
/// <param name="Message">What is wrong and what to write, in one line.</param>
public sealed record Problem(string Where, int? Line, string? Field, string Message)
{
    /// <summary>One line, ready to print.</summary>
    public override string ToString() =>
        $"{Where}{(Line is { } line ? $", line {line}" : "")}: {(Field is null ? "" : $"{Field}: ")}{Message}";
}

/// <summary>What the user gave cannot be used; all that is wrong with it, at once. Nothing was written.</summary>
public sealed class InputException : Exception
{
    /// <summary>Makes the exception from all problems.</summary>
    /// <param name="problems">One or more.</param>
    public InputException(IReadOnlyList<Problem> problems)
        : base(string.Join('\n', problems)) => Problems = problems;

    /// <summary>Makes the exception from one problem.</summary>
    /// <param name="where">File, option or prompt.</param>
    /// <param name="message">What is wrong and what to write.</param>
    public InputException(string where, string message)
        : this([new(where, null, null, message)])
    {
    }

    /// <summary>Makes an exception without a place; kept for the framework's conventions.</summary>
    /// <param name="message">What is wrong.</param>
    public InputException(string message)
        : this([new("input", null, null, message)])
    {
    }

    /// <summary>Everything that is wrong.</summary>
    public IReadOnlyList<Problem> Problems { get; }
}
