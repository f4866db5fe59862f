namespace SandwichMech.Workshop;

/// <summary>The input is possible, but no result could be computed for it; nothing was written.</summary>
/// <param name="message">What failed, and what may help, in one line.</param>
/// <param name="inner">What the computation reported.</param>
public sealed class ComputationException(string message, Exception inner) : Exception(message, inner);
