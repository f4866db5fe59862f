namespace SandwichMech.Workshop.UseCases;

/// <summary>What `new` answers.</summary>
/// <param name="File">The board file that was written.</param>
/// <param name="Board">The board's name.</param>
public sealed record NewResult(string File, string Board);
