using SandwichMech.Core.Layups;

namespace SandwichMech.Workshop.Boards;

/// <summary>The ways to hold an edge, in words.</summary>
internal static class EdgeHolds
{
    private static readonly Meant[] All = [new("free", EdgeHold.Free), new("hinged", EdgeHold.Hinged), new("clamped", EdgeHold.Clamped), new("rim", EdgeHold.Rim)];

    private sealed record Meant(string Words, EdgeHold Hold);

    /// <summary>What may stand in a field that says how an edge is held.</summary>
    internal static ChoiceKind Kind { get; } = new("way to hold an edge", [.. All.Select(h => h.Words)]);

    internal static EdgeHold Of(string words) => All.First(h => h.Words == words).Hold;

    internal static string Name(EdgeHold hold) => All.First(h => h.Hold == hold).Words;
}
