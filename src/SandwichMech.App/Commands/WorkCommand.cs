using System.CommandLine;

namespace SandwichMech.App.Commands;

/// <summary>A command with examples in its help.</summary>
internal sealed class WorkCommand(string name, string description, params string[] examples) : Command(name, description)
{
    /// <summary>Whole command lines that run as they stand in a clone of the project.</summary>
    internal IReadOnlyList<string> Examples { get; } = examples;
}
