namespace SandwichMech.Core.Identification;

/// <summary>What a piece is.</summary>
public enum PieceKind
{
    /// <summary>A plate of solid wood, rectangular: a skin, half a top, a strip.</summary>
    Wood,
    /// <summary>A sheet of core.</summary>
    Core,
    /// <summary>A rectangular sandwich without wood let in: a test strip, or a blank after its second bond.</summary>
    Sandwich,
}

/// <summary>A piece of the maker's own.</summary>
/// <param name="Number">Its number in the shop's log, from 1.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Material">Name of the wood or core in the tables; of a sandwich, its core's.</param>
/// <param name="Name">The maker's own words, may be empty.</param>
public sealed record Piece(int Number, PieceKind Kind, string Material, string Name)
{
    /// <summary>Wood of a sandwich's outer skin: a name of the tables or "piece 3".</summary>
    public string? OuterWood { get; init; }
    /// <summary>Wood of a sandwich's inner skin.</summary>
    public string? InnerWood { get; init; }
    /// <summary>Adhesive of a sandwich.</summary>
    public string? Adhesive { get; init; }
}
