namespace SandwichMech.Workshop;

/// <summary>Writes a file whole or not at all.</summary>
public static class WholeFile
{
    /// <summary>Writes beside the file first and then puts it in place.</summary>
    /// <param name="path">The file; replaced where it is there already.</param>
    /// <param name="content">Its bytes.</param>
    /// <param name="what">What it holds, in words: "the picture".</param>
    /// <exception cref="IOException">It cannot be written; nothing is left behind.</exception>
    public static void Write(string path, byte[] content, string what)
    {
        string beside = $"{path}.{Guid.NewGuid():N}.part";
        try
        {
            File.WriteAllBytes(beside, content);
            File.Move(beside, path, overwrite: true);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            Remove(beside);
            throw new IOException($"{what} could not be written to {path}: {Reason(e, path)}", e);
        }
    }

    /// <summary>Refuses a place where nothing can be written, before minutes of work.</summary>
    /// <param name="path">The file.</param>
    /// <param name="option">What named it: "--plot".</param>
    /// <exception cref="InputException">There is no such folder, or the name is a folder's.</exception>
    public static void CheckPlace(string path, string option)
    {
        if (Directory.Exists(path)) { throw new InputException(option, $"{path} is a folder: give a file name"); }
        if (Path.GetDirectoryName(Path.GetFullPath(path)) is { } folder && !Directory.Exists(folder))
        {
            throw new InputException(option, $"there is no folder {folder} to write {Path.GetFileName(path)} into: make it first, or name another");
        }
    }

    /// <summary>The reason without the name of the file beside, which the maker has never seen.</summary>
    private static string Reason(Exception e, string path)
    {
        string folder = Path.GetDirectoryName(Path.GetFullPath(path)) ?? path;
        return e switch
        {
            _ when Directory.Exists(path) => "it is a folder; give a file name",
            DirectoryNotFoundException => $"there is no folder {folder}; make it first or give another",
            UnauthorizedAccessException => $"you may not write to the folder {folder}; give another",
            _ => e.Message,
        };
    }

    private static void Remove(string file)
    {
        try
        {
            File.Delete(file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            // It was never made, or cannot be reached: the first failure is the one to tell.
        }
    }
}
