namespace SandwichMech.Workshop;

/// <summary>Reads a file that was named on the command line or in a board file.</summary>
internal static class GivenFile
{
    /// <summary>Its bytes, up to one block more than the limit.</summary>
    /// <param name="path">The file.</param>
    /// <param name="what">What it should be, for messages: "drawing".</param>
    /// <param name="largest">Beyond so many bytes reading stops; whoever asks sees by the length that there was more.</param>
    /// <exception cref="InputException">There is no such file, or it cannot be read.</exception>
    internal static byte[] Bytes(string path, string what, int largest)
    {
        if (string.IsNullOrWhiteSpace(path)) { throw new InputException(what, $"no file is named: give the {what}'s path"); }
        if (Directory.Exists(path)) { throw new InputException(path, $"is a folder: give the {what} in it"); }
        if (!File.Exists(path)) { throw new InputException(path, $"there is no such file: check the path of the {what}"); }
        try
        {
            // Read to a limit rather than asked for its length: what is no ordinary file has none.
            using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            var kept = new MemoryStream();
            var some = new byte[81920];
            for (int n = stream.Read(some); n > 0 && kept.Length <= largest; n = stream.Read(some)) { kept.Write(some, 0, n); }
            return kept.ToArray();
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
}
