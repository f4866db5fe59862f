using SandwichMech.Workshop;

namespace SandwichMech.App.Terminal;

/// <summary>Asks at the terminal: Enter passes over, and what cannot be meant is asked again with the reason.</summary>
internal sealed class Asking(ConsoleStreams console)
{
    /// <summary>Says something between questions.</summary>
    internal void Say(string text) => console.Err.WriteLine(text);

    /// <summary>One answer.</summary>
    /// <param name="question">With how to answer it.</param>
    /// <param name="check">Throws an <see cref="InputException"/> for what cannot be meant.</param>
    /// <returns>As typed; nothing where it was passed over, or there are no more answers.</returns>
    internal string? Answer(string question, Action<string> check)
    {
        while (true)
        {
            console.Err.Write($"{question} ");
            string? line = console.In.ReadLine();
            if (line is null) { console.Err.WriteLine(); }
            if (string.IsNullOrWhiteSpace(line)) { return null; }
            try
            {
                check(line);
                return line.Trim();
            }
            catch (InputException e)
            {
                console.Err.WriteLine($"  {e.Problems[0].Message}");
            }
        }
    }
}
