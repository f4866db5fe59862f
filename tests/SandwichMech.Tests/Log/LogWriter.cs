using System.Globalization;
using System.Runtime.CompilerServices;
using SandwichMech.Core.Identification;
using SandwichMech.Workshop.Log;

namespace SandwichMech.Tests.Log;

/// <summary>
/// What comes before any test: the user's own log is out of reach. Where a variable says so, this program does nothing but write
/// into a log until it is killed.
/// </summary>
internal static class LogWriter
{
    internal const string Variable = "SANDWICHMECH_TEST_WRITES";

    [ModuleInitializer]
    internal static void Write()
    {
        KillTrial.WriteIfAsked();
        if (Environment.GetEnvironmentVariable(Variable) is not { } file)
        {
            Environment.SetEnvironmentVariable(LogPlace.FileVariable, Path.Combine(Path.GetTempPath(), $"sandwichmech-{Guid.NewGuid():N}", "log.sqlite"));
            return;
        }

        using ShopLog log = ShopLog.Open(file);
        log.AddPiece(PieceKind.Wood, "Sitka spruce", "");
        for (int i = 0; i < 100_000; i++)
        {
            string typed = i.ToString(CultureInfo.InvariantCulture);
            log.AddReading(1, SampleLog.Weighed(i + 1), typed);
            // Only now is it acknowledged.
            Console.WriteLine(typed);
        }

        Environment.Exit(1);
    }
}
