using System.Diagnostics.CodeAnalysis;

namespace SandwichMech.Workshop.Units;

/// <summary>Either a value that was read, or one line that says why not and how to mend it.</summary>
/// <param name="Value">The value; null when there is a problem.</param>
/// <param name="Problem">One line, without the name of the field or file, which the caller puts before it; null when all is well.</param>
public readonly record struct ReadResult(TypedValue? Value, string? Problem)
{
    /// <summary>True when a value was read.</summary>
    [MemberNotNullWhen(true, nameof(Value))]
    [MemberNotNullWhen(false, nameof(Problem))]
    public bool IsRead => Value is not null;

    /// <summary>A result that holds a value.</summary>
    /// <param name="value">What was read.</param>
    /// <returns>The result.</returns>
    public static ReadResult Read(TypedValue value) => new(value, null);

    /// <summary>A result that holds a problem.</summary>
    /// <param name="problem">One line that says what is wrong and how to mend it.</param>
    /// <returns>The result.</returns>
    public static ReadResult Refused(string problem) => new(null, problem);
}

/// <summary>Either the two parts of a mixing ratio such as 100:30, or one line that says why not.</summary>
/// <param name="First">First part, positive and finite; 0 when there is a problem.</param>
/// <param name="Second">Second part, positive and finite; 0 when there is a problem.</param>
/// <param name="Problem">One line, without the name of the field; null when all is well.</param>
public readonly record struct PartsResult(double First, double Second, string? Problem)
{
    /// <summary>True when both parts were read.</summary>
    [MemberNotNullWhen(false, nameof(Problem))]
    public bool IsRead => Problem is null;
}
