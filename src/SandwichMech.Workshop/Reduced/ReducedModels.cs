using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates.Reduced;

namespace SandwichMech.Workshop.Reduced;

/// <summary>Reduced models kept on disk, so that each shape and range is built once.</summary>
/// <remarks>
/// The folder may be deleted at any time, by anyone. A file is written beside its place and then renamed, so that a reader sees a whole one or none,
/// also where two programs build the same model at once; what is not whole is built anew. Where the folder cannot be written, models are built and not kept.
/// </remarks>
public sealed class ReducedModels
{
    /// <summary>Environment variable that names another folder.</summary>
    public const string FolderVariable = "SANDWICHMECH_CACHE";

    /// <summary>Bytes that are kept at most: some thirty models.</summary>
    public const long UsualBytes = 200_000_000;

    private const string Ending = ".reduced", Unfinished = ".tmp";

    // A program that was stopped while writing leaves such a file; one that is younger may still be written.
    private static readonly TimeSpan Abandoned = TimeSpan.FromDays(1);

    private readonly string _folder;
    private readonly long _mostBytes;
    private readonly Func<Board, BoardRange, ReducedOptions, Action<ReducedProgress>?, ReducedPlate> _build;

    /// <summary>Models in a folder.</summary>
    /// <param name="folder">Made where it is missing.</param>
    /// <param name="mostBytes">What is used longest ago goes when the files take more.</param>
    /// <param name="build">How a model is built; <see cref="ReducedPlate.Build"/> if nothing is given.</param>
    public ReducedModels(string folder, long mostBytes = UsualBytes, Func<Board, BoardRange, ReducedOptions, Action<ReducedProgress>?, ReducedPlate>? build = null) =>
        (_folder, _mostBytes, _build) = (folder, mostBytes, build ?? ReducedPlate.Build);

    /// <summary>Models in the user's cache folder.</summary>
    public static ReducedModels OfUser() => new(UserFolder());

    /// <summary>The model for a board's shape and a range: from disk, or built and kept.</summary>
    /// <param name="board">A board of the shape.</param>
    /// <param name="range">What it is to answer for; <see cref="BoardRange.Usual"/> if nothing is given.</param>
    /// <param name="options">What it is to give.</param>
    /// <param name="progress">Told while it is built; never where it is on disk.</param>
    /// <returns>The model.</returns>
    /// <exception cref="ArgumentException">The board has no outline.</exception>
    public ReducedPlate For(Board board, BoardRange? range = null, ReducedOptions? options = null, Action<ReducedProgress>? progress = null)
    {
        if (board.Shape is null) { throw new ArgumentException("A reduced model needs a board with an outline.", nameof(board)); }
        range ??= BoardRange.Usual(board);
        options ??= new();
        string key = ReducedKey.Of(board, range, options), path = Path.Combine(_folder, key + Ending);
        if (Kept(path, key) is { } content) { return ReducedPlate.From(content, board); }
        ReducedPlate model = _build(board, range, options, progress);
        Keep(path, ReducedFile.Bytes(key, model.Content));
        return model;
    }

    private static string UserFolder()
    {
        string? own = Environment.GetEnvironmentVariable(FolderVariable);
        if (!string.IsNullOrWhiteSpace(own)) { return own; }
        string? cache = Environment.GetEnvironmentVariable("XDG_CACHE_HOME");
        // The desktop's convention has relative paths ignored.
        string root = !string.IsNullOrWhiteSpace(cache) && Path.IsPathRooted(cache) ? cache
            : OperatingSystem.IsWindows() ? Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData)
            : Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), OperatingSystem.IsMacOS() ? "Library/Caches" : ".cache");
        return Path.Combine(root, "sandwichmech", "reduced-models");
    }

    private static ReducedContent? Kept(string path, string key)
    {
        try
        {
            if (!File.Exists(path) || ReducedFile.Read(File.ReadAllBytes(path), key) is not { } content) { return null; }
            // The time of the last use: that of reading is often not kept.
            File.SetLastWriteTimeUtc(path, DateTime.UtcNow);
            return content;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private void Keep(string path, byte[] bytes)
    {
        string unfinished = $"{path}.{Guid.NewGuid():N}{Unfinished}";
        try
        {
            Directory.CreateDirectory(_folder);
            using (var stream = new FileStream(unfinished, FileMode.CreateNew, FileAccess.Write, FileShare.None))
            {
                stream.Write(bytes);
                stream.Flush(flushToDisk: true);
            }

            File.Move(unfinished, path, overwrite: true);
            Trim(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Delete(unfinished);
        }
    }

    // The newest stays, whatever its size.
    private void Trim(string newest)
    {
        var folder = new DirectoryInfo(_folder);
        foreach (FileInfo left in folder.EnumerateFiles("*" + Unfinished).Where(f => DateTime.UtcNow - f.LastWriteTimeUtc > Abandoned)) { Delete(left.FullName); }
        FileInfo[] models = [.. folder.EnumerateFiles("*" + Ending).OrderBy(f => f.LastWriteTimeUtc)];
        long bytes = models.Sum(f => f.Length);
        foreach (FileInfo oldest in models.Where(f => f.FullName != Path.GetFullPath(newest)))
        {
            if (bytes <= _mostBytes) { return; }
            bytes -= oldest.Length;
            Delete(oldest.FullName);
        }
    }

    private static void Delete(string path)
    {
        try
        {
            File.Delete(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // Another program has it open, or has deleted the folder: it goes another time.
        }
    }
}
