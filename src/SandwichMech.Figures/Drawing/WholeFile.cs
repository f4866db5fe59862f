namespace SandwichMech.Figures.Drawing;

/// <summary>Writes a file whole or not at all.</summary>
internal static class WholeFile
{
    /// <summary>Writes beside the file first and then puts it in place.</summary>
    /// <param name="path">The file; replaced where it is there already.</param>
    /// <param name="content">Its bytes.</param>
    /// <exception cref="IOException">It cannot be written; nothing is left behind.</exception>
    internal static void Write(string path, byte[] content)
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
            throw new IOException($"the picture could not be written to {path}: {Reason(e, path)}", e);
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
