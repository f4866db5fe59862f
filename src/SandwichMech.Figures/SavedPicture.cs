namespace SandwichMech.Figures;

/// <summary>What was written.</summary>
/// <param name="Path">The file; another than asked for where <paramref name="Note"/> says so.</param>
/// <param name="Note">What the maker has to know about it, in one line; mostly nothing.</param>
public sealed record SavedPicture(string Path, string? Note);
