using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.Data.Sqlite;

namespace SandwichMech.Workshop.Log;

/// <summary>A sum of all that an entry says, kept with it: a database sees when its pages do not hang together, but not when a digit in one has changed.</summary>
/// <remarks>It tells what a disk did by accident. Against a person who wants to change an entry it is no guard: anyone can work it out anew.</remarks>
internal static class LogSum
{
    /// <summary>Its name in the steps that bring a log up to date.</summary>
    internal const string Function = "entry_sum";

    // 64 bits: one changed bit in 2e19 stays unseen.
    private const int Bytes = 8;

    /// <summary>The sum of an entry, from what stands in its columns.</summary>
    /// <returns>First eight bytes of SHA-256 (FIPS 180-4), hexadecimal.</returns>
    internal static string Of(long number, string recorded, string at, long? piece, long? board, string kind, string payload, string asTyped, long? corrects)
    {
        // The length of the payload parts it from what was typed, which may hold anything.
        string all = string.Create(CultureInfo.InvariantCulture, $"{number}|{recorded}|{at}|{piece}|{board}|{corrects}|{kind}|{payload.Length}|{payload}|{asTyped}");
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(all)).AsSpan(0, Bytes));
    }

    /// <summary>Lets the steps of <see cref="LogSchema"/> work sums out.</summary>
    internal static void AddTo(SqliteConnection log) => log.CreateFunction<long, string, string, long?, long?, string, string, string, long?, string>(Function, Of, isDeterministic: true);
}
