using System.Text;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>Reads board files: TOML, one board a file, every value a text with its unit.</summary>
public static class BoardFiles
{
    private const int LargestFile = 1_000_000;
    private const string HowToStart = "`sandwichmech new FILE` writes one to start from";

    /// <summary>Reads a board file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="tables">Where names of woods, cores and adhesives are looked up.</param>
    /// <returns>The board.</returns>
    /// <exception cref="InputException">The file cannot be read, or its content cannot be used: everything that is wrong, with line and field.</exception>
    public static BoardFile Read(string path, MaterialTables tables) => Parse(path, Text(path), tables);

    /// <summary>Reads a board file's text.</summary>
    /// <param name="path">The file as it is to be called in messages; a folder of own tables is looked for beside it.</param>
    /// <param name="text">Its text.</param>
    /// <param name="tables">Where names of woods, cores and adhesives are looked up.</param>
    /// <returns>The board.</returns>
    /// <exception cref="InputException">Everything that is wrong, with line and field.</exception>
    public static BoardFile Parse(string path, string text, MaterialTables tables)
    {
        string plain = text.StartsWith('\uFEFF') ? text[1..] : text;
        if (plain.Length > LargestFile)
        {
            throw TooLarge(path);
        }

        if (string.IsNullOrWhiteSpace(plain))
        {
            throw new InputException(path, $"is empty: {HowToStart}");
        }

        var findings = new Findings(path);
        ReadFields fields = ReadFields.Of(plain, tables, findings);
        FieldsTogether.Check(fields, findings);
        findings.ThrowIfWrong();
        return BoardMaking.Of(plain, fields, findings);
    }

    /// <summary>Puts a new text into a board file, whole or not at all.</summary>
    /// <param name="path">The file.</param>
    /// <param name="text">Its new text.</param>
    /// <exception cref="InputException">It cannot be written; the old text stays.</exception>
    internal static void Replace(string path, string text)
    {
        try
        {
            WholeFile.Write(path, new UTF8Encoding(false).GetBytes(text), "the board file");
        }
        catch (IOException e)
        {
            throw new InputException(path, $"nothing was changed: {e.Message}");
        }
    }

    internal static string Text(string path)
    {
        if (string.IsNullOrWhiteSpace(path))
        {
            throw new InputException("board file", "no file is named: give the board file's path");
        }

        if (Directory.Exists(path))
        {
            throw new InputException(path, "is a folder: give the board file in it");
        }

        if (!File.Exists(path))
        {
            throw new InputException(path, NoSuchFile(path));
        }

        try
        {
            return Decoded(path, Bytes(path));
        }
        catch (UnauthorizedAccessException)
        {
            throw new InputException(path, "may not be read: the file belongs to somebody else, or its permissions forbid it");
        }
        catch (IOException)
        {
            throw new InputException(path, "cannot be read just now: see whether another program holds it, and whether the disk is there");
        }
    }

    private static string NoSuchFile(string path)
    {
        string folder = Path.GetDirectoryName(path) is { Length: > 0 } named ? named : ".";
        if (!Directory.Exists(folder))
        {
            return $"there is no folder {folder}: check the path";
        }

        string? near = Nearest.Name(Path.GetFileName(path), Neighbours(folder));
        return $"there is no such file{(near is null ? "" : $"; did you mean {near}?")} ({HowToStart})";
    }

    private static string[] Neighbours(string folder)
    {
        try
        {
            return [.. Directory.EnumerateFiles(folder, "*.toml").Take(1000).Select(file => Path.GetFileName(file))];
        }
        catch (Exception wrong) when (wrong is IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }

    private static ReadOnlySpan<byte> Bytes(string path)
    {
        // Read to a limit rather than asked for its length: what is no ordinary file has none.
        using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var bytes = new byte[LargestFile + 1];
        int count = stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        return count > LargestFile ? throw TooLarge(path) : bytes.AsSpan(0, count);
    }

    private static string Decoded(string path, ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]) || bytes.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]))
        {
            throw new InputException(path, "is written in UTF-16: save it as UTF-8 in your editor");
        }

        if (bytes.Contains((byte)0))
        {
            throw new InputException(path, $"is not a text file: give a board file ({HowToStart})");
        }

        try
        {
            return new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes);
        }
        catch (DecoderFallbackException)
        {
            throw new InputException(path, "is not in UTF-8: save it as UTF-8 in your editor, if it is a board file");
        }
    }

    private static InputException TooLarge(string path) =>
        new(path, "is larger than 1 MB, which no board file is: give the board file");
}
