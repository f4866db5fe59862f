using System.CommandLine;
using System.Globalization;
using SandwichMech.App.Terminal;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Reduced;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>The options --samples and --seed: intervals from drawn boards in the place of exact derivatives.</summary>
internal sealed class SampleOptions
{
    private const int Fewest = 100;
    private readonly Option<string?> _samples;
    private readonly Option<string> _seed = new("--seed") { Description = "Which boards are drawn", HelpName = "N", DefaultValueFactory = _ => "1" };
    private readonly int _most;

    /// <summary>Makes the options.</summary>
    /// <param name="more">What is to be said of them beyond the usual.</param>
    /// <param name="most">Boards that may be drawn at most.</param>
    internal SampleOptions(string more, int most)
    {
        _most = most;
        _samples = new("--samples") { Description = $"Take the intervals from so many boards drawn from all spreads, as 10000, in the place of exact derivatives; {more}", HelpName = "N" };
    }

    internal void AddTo(Command command)
    {
        command.Options.Add(_samples);
        command.Options.Add(_seed);
    }

    /// <summary>What is wished; nothing where no boards are to be drawn.</summary>
    internal SampleWish? Read(ParseResult parsed, Progress progress)
    {
        string seed = parsed.GetRequiredValue(_seed);
        if (!int.TryParse(seed, NumberStyles.None, CultureInfo.InvariantCulture, out int number)) { throw new InputException("--seed", $"'{seed}' is no seed: write a whole number, 0 or more"); }
        if (parsed.GetValue(_samples) is not { } samples) { return null; }
        return int.TryParse(samples, NumberStyles.None, CultureInfo.InvariantCulture, out int boards) && boards >= Fewest && boards <= _most
            ? new(boards, number, ReducedModels.OfUser(), progress.Report)
            : throw new InputException("--samples", $"'{samples}' is no number of boards: write a whole number from {Fewest} to {_most}, as 10000");
    }
}
