using System.Text;
using SandwichMech.Workshop.Log;

namespace SandwichMech.Workshop.UseCases;

/// <summary>What `log where`, `log restore` and, into a file, `log export` answer.</summary>
/// <param name="Log">File of the log.</param>
/// <param name="IsThere">Whether it was begun.</param>
/// <param name="Pieces">Pieces, withdrawn ones left out.</param>
/// <param name="Boards">Boards, withdrawn ones left out.</param>
/// <param name="Entries">Entries, corrected and withdrawn ones too.</param>
/// <param name="Export">The file that was written or restored.</param>
/// <param name="Warnings">What is to be said about its place.</param>
public sealed record LogResult(string Log, bool IsThere, int Pieces, int Boards, long Entries, string? Export, IReadOnlyList<string> Warnings);

/// <summary>Where the log is, its export and its restoring.</summary>
public static class KeepLog
{
    private const long LargestExport = 1_000_000_000;

    /// <summary>Where the log is and what it holds.</summary>
    /// <param name="log">The log.</param>
    /// <param name="export">The file that was written or restored.</param>
    /// <returns>Its file and numbers.</returns>
    public static LogResult Where(ShopLog log, string? export = null) =>
        new(log.File, File.Exists(log.File), log.Pieces().Count, log.CountBoards(), log.Entries(), export, log.Warnings);

    /// <summary>Writes all of the log into a file, whole or not at all.</summary>
    /// <param name="log">The log.</param>
    /// <param name="path">The file; an earlier export is replaced.</param>
    /// <returns>What was written.</returns>
    /// <exception cref="InputException">The file is something else than an export.</exception>
    public static LogResult Export(ShopLog log, string path)
    {
        if (Directory.Exists(path) || (File.Exists(path) && !IsExport(path)))
        {
            throw new InputException(path, "is there already and is no export of a log: choose another name");
        }

        string text = LogExport.Write(log), beside = $"{path}.{Guid.NewGuid():N}.part";
        try
        {
            using (var stream = new FileStream(beside, FileMode.CreateNew, FileAccess.Write, FileShare.None))
            {
                stream.Write(Encoding.UTF8.GetBytes(text));
                stream.Flush(flushToDisk: true);
            }

            AttachedFiles.Copy(log, log.FilesFolder, FilesOf(path));
            File.Move(beside, path, overwrite: true);
        }
        catch (DirectoryNotFoundException)
        {
            throw new InputException(path, "there is no such folder: make it first, or give another");
        }
        finally
        {
            File.Delete(beside);
        }

        return Where(log, path) is var written && AttachedFiles.Missing(log, FilesOf(path)) is { Count: > 0 } missing ? written with { Warnings = [.. written.Warnings, .. missing] } : written;
    }

    /// <summary>Where the files that are attached to boards go with an export.</summary>
    /// <param name="export">The export's file.</param>
    /// <returns>A folder beside it.</returns>
    public static string FilesOf(string export) => export + ".files";

    /// <summary>Writes readings, predictions, boards and pieces as tables for spreadsheets.</summary>
    /// <param name="log">The log.</param>
    /// <param name="folder">Where; earlier ones are replaced.</param>
    /// <returns>What was written.</returns>
    /// <exception cref="InputException">A file of such a name is something else.</exception>
    public static LogResult Tables(ShopLog log, string folder)
    {
        LogCsv.Write(log, folder);
        return Where(log, folder);
    }

    /// <summary>Puts an export into an empty log.</summary>
    /// <param name="log">The log.</param>
    /// <param name="path">The export.</param>
    /// <returns>What the log holds now.</returns>
    /// <exception cref="InputException">The file is no whole export, or the log is not empty; nothing was written.</exception>
    public static LogResult Restore(ShopLog log, string path)
    {
        if (!File.Exists(path))
        {
            throw new InputException(path, Directory.Exists(path) ? "is a folder: give a file that `sandwichmech log export` has written" : "there is no such file: give one that `sandwichmech log export` has written");
        }

        if (new FileInfo(path).Length > LargestExport)
        {
            throw new InputException(path, "is larger than any export of a log: give a file that `sandwichmech log export` has written");
        }

        LogExport.Restore(Text(path), path, log);
        AttachedFiles.Copy(log, FilesOf(path), log.FilesFolder);
        LogResult restored = Where(log, path);
        return restored with { Warnings = [.. restored.Warnings, .. AttachedFiles.Missing(log, log.FilesFolder)] };
    }

    private static string Text(string path)
    {
        byte[] bytes = File.ReadAllBytes(path);
        try
        {
            return new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes).TrimStart('\uFEFF');
        }
        catch (DecoderFallbackException)
        {
            throw new InputException(path, "this is no export of a log, or is damaged: give a whole file that `sandwichmech log export` has written");
        }
    }

    private static bool IsExport(string path)
    {
        // The head is enough: whoever began a file so has no more to lose than an export.
        using var reader = new StreamReader(path);
        var head = new char[64];
        int count = reader.ReadBlock(head);
        return new string(head, 0, count).Contains("\"format\": \"sandwichmech log\"", StringComparison.Ordinal);
    }
}
