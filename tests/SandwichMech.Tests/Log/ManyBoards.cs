using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using SandwichMech.Core.Building;
using SandwichMech.Workshop.Log;

namespace SandwichMech.Tests.Log;

/// <summary>A log of many invented boards, each with a hundred readings from the first weighing to its strings.</summary>
internal static class ManyBoards
{
    /// <summary>Readings of each board.</summary>
    internal const int Readings = Stages * EachStage;

    private const int Stages = 10, EachStage = 10;
    private static readonly DateTimeOffset First = new(2001, 1, 1, 8, 0, 0, TimeSpan.Zero);

    // What is weighed at a stage of the demo board with an outline, kg.
    private static readonly (BuildStage Stage, BuildQuantity Quantity, double Value)[] Weighed =
    [
        (BuildStage.Skins, BuildQuantity.OuterMass, 0.0424), (BuildStage.Skins, BuildQuantity.CoreMass, 0.0057), (BuildStage.Skins, BuildQuantity.LetInMass, 0.0315),
        (BuildStage.FirstBond, BuildQuantity.AdhesiveMixed, 0.036), (BuildStage.FirstBond, BuildQuantity.BoardMass, 0.0962), (BuildStage.Levelled, BuildQuantity.BoardMass, 0.0954),
        (BuildStage.SecondBond, BuildQuantity.InnerMass, 0.0412), (BuildStage.SecondBond, BuildQuantity.AdhesiveMixed, 0.036), (BuildStage.SecondBond, BuildQuantity.BoardMass, 0.1531),
        (BuildStage.Sanded, BuildQuantity.BoardMass, 0.152), (BuildStage.CutOut, BuildQuantity.BoardMass, 0.124),
    ];

    // What may be read at any stage, SI.
    private static readonly (BuildQuantity Quantity, double[] Values)[] Else =
    [
        (BuildQuantity.OuterThickness, [0.00075, 0.00077, 0.00076]), (BuildQuantity.CoreHeight, [0.0018, 0.00182]), (BuildQuantity.LetInHeight, [0.00185]), (BuildQuantity.InnerThickness, [0.0006]),
        (BuildQuantity.BoardThickness, [0.0033]), (BuildQuantity.Humidity, [0.45]), (BuildQuantity.Temperature, [294]), (BuildQuantity.Tones, [36, 52]), (BuildQuantity.WitnessBefore, [0.128]), (BuildQuantity.FinishMass, [0.009]),
    ];

    /// <summary>Writes them through the log's own code, in one transaction.</summary>
    /// <param name="file">The log, which is not there yet.</param>
    /// <param name="boards">How many.</param>
    internal static void Write(string file, int boards)
    {
        using ShopLog log = ShopLog.Open(file);
        string path = Repository.File("shared", "demo", "outline.toml");
        log.Restore([], Enumerable.Range(1, boards), Entries(path, File.ReadAllText(path), boards));
    }

    private static IEnumerable<LogEntry> Entries(string path, string text, int boards)
    {
        long number = 0;
        for (int board = 1; board <= boards; board++)
        {
            // No two boards of a shop are the same.
            string own = string.Create(CultureInfo.InvariantCulture, $"# invented board {board}\n{text}");
            string hash = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(own)));
            yield return Entry(EntryKind.Board, "") with { Start = new BuildStart(string.Create(CultureInfo.InvariantCulture, $"invented {board}"), path, own, hash, 0.01, ["along at least 0.6 solid"]) };
            for (int stage = 0; stage < Stages; stage++)
            {
                IEnumerable<(BuildQuantity Quantity, double[] Values)> weighed = Weighed.Where(w => (int)w.Stage == stage).Select(w => (w.Quantity, new[] { w.Value * (1 + 0.01 * (board % 3 - 1)) }));
                foreach ((BuildQuantity quantity, double[] values) in weighed.Concat(Else).Take(EachStage))
                {
                    yield return Entry(EntryKind.Stage, "as typed") with { Built = new BuildReading((BuildStage)stage, quantity, values, 1e-5) };
                }
            }

            LogEntry Entry(string kind, string typed) => new(++number, First.AddMinutes(number), First.AddMinutes(number), 0, kind, typed, null) { Board = board };
        }
    }
}
