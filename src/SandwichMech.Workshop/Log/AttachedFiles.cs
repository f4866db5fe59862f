using System.Globalization;
using System.Security.Cryptography;

namespace SandwichMech.Workshop.Log;

/// <summary>Files that are attached to boards go with an export, each under the hash of what it holds.</summary>
internal static class AttachedFiles
{
    /// <summary>Copies what the log names from one folder to another; what is there already stays, and what was changed is not copied.</summary>
    internal static void Copy(ShopLog log, string from, string to)
    {
        foreach (LogEntry entry in log.Attachments())
        {
            string hash = entry.Attached!.Sha256, source = Path.Combine(from, hash), target = Path.Combine(to, hash);
            // The hash is a file's name here: nothing but a hash may lead out of the folder.
            if (!IsHash(hash) || !IsWhole(source, hash) || IsWhole(target, hash)) { continue; }
            Directory.CreateDirectory(to);
            WholeFile.Write(target, File.ReadAllBytes(source), "an attached file");
        }
    }

    /// <summary>A sentence for each attached file that is not in a folder as it was attached.</summary>
    internal static IReadOnlyList<string> Missing(ShopLog log, string folder) =>
        [.. log.Attachments().Where(e => !IsHash(e.Attached!.Sha256) || !IsWhole(Path.Combine(folder, e.Attached.Sha256), e.Attached.Sha256)).Select(e => string.Create(
            CultureInfo.InvariantCulture, $"The file {e.Attached!.Name} (entry {e.Number}, board {e.Board}) is missing or was changed: put it back as {Path.Combine(folder, e.Attached.Sha256)}."))];

    /// <summary>Whether a file holds what it held when it was attached.</summary>
    internal static bool IsWhole(string file, string hash)
    {
        if (!File.Exists(file)) { return false; }
        using FileStream stream = File.OpenRead(file);
        return Convert.ToHexStringLower(SHA256.HashData(stream)) == hash;
    }

    private static bool IsHash(string text) => text.Length == 2 * SHA256.HashSizeInBytes && text.All(char.IsAsciiHexDigitLower);
}
