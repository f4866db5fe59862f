namespace SandwichMech.Workshop.Log;

/// <summary>Where the shop's log lies, and whether it is safe there.</summary>
/// <remarks>
/// A database needs locks and shared memory that a network share does not keep, and a program that copies a folder while the log is
/// being written may copy half of it. A network share is told by the kind of file system that the system names, or by a path that
/// begins with two strokes. A synchronised folder is told by what such programs leave in it: a hidden file or folder with "sync" in
/// its name, ".stfolder", or a hidden cache; by the system's own folder for them; by "cloud" or "sync" in a folder's name, or "drive" at the end of its first word or of all
/// of it. What is not told so is taken as safe, without a word.
/// </remarks>
public static class LogPlace
{
    /// <summary>Environment variable that names another log.</summary>
    public const string FileVariable = "SANDWICHMECH_LOG";

    private static readonly string[] NetworkSystems =
        ["nfs", "nfs4", "cifs", "smb", "smb2", "smb3", "smbfs", "afs", "ncpfs", "ceph", "lustre", "glusterfs", "davfs", "webdav", "afpfs",
        "fuse.sshfs", "fuse.glusterfs", "fuse.davfs", "fuse.davfs2", "fuse.smbnetfs", "fuse.curlftpfs", "fuse.gvfsd-fuse", "fuse.rclone", "fuse.s3fs"];

    private const int MostLinks = 40;
    private static readonly char[] Separators = [' ', '-', '_', '.'];

    /// <summary>The log that is meant: the named one, or the variable's, or the one in the user's data folder.</summary>
    /// <param name="named">A file, or nothing.</param>
    /// <returns>Full path, with links followed as far as the path exists.</returns>
    /// <exception cref="InputException">It is a folder, or on a network share.</exception>
    public static string Of(string? named)
    {
        string meant = named ?? Variable() ?? Path.Combine(UserFolder(), "sandwichmech", "log.sqlite");
        if (string.IsNullOrWhiteSpace(meant) || meant.Contains('\0', StringComparison.Ordinal))
        {
            throw new InputException("--log", "no file is named: write for example --log shop.sqlite");
        }

        string path = Followed(Path.GetFullPath(meant));
        if (Directory.Exists(path) || Path.EndsInDirectorySeparator(meant))
        {
            throw new InputException(path, "this is a folder: name a file for the log, as --log shop.sqlite");
        }

        return IsOnNetwork(path)
            ? throw new InputException(path, "the log cannot lie on a network share, where entries can be lost: name a file on this computer with --log, and put copies on the share with `sandwichmech log export`")
            : path;
    }

    /// <summary>What is to be said about a place.</summary>
    /// <param name="path">Full path of the log.</param>
    /// <returns>Sentences, or none.</returns>
    public static IReadOnlyList<string> Warnings(string path) => SynchronisedFolder(path) is { } folder
        ? [$"The log {path} seems to lie in a folder that another program synchronises ({folder}); it may copy the log half written. Name another file with --log or {FileVariable}, and put copies there with `sandwichmech log export`."]
        : [];

    /// <summary>The kind of file system at a path, from a table of mounts as Linux gives it in /proc/self/mounts.</summary>
    /// <param name="path">Full path.</param>
    /// <param name="mounts">Lines "device place kind ...".</param>
    /// <returns>The kind at the longest place that holds the path; nothing where none does.</returns>
    public static string? SystemAt(string path, IEnumerable<string> mounts)
    {
        (string Place, string Kind) best = ("", "");
        foreach (string line in mounts)
        {
            string[] words = line.Split(' ');
            if (words.Length < 3)
            {
                continue;
            }

            string place = words[1].Replace("\\040", " ", StringComparison.Ordinal);
            bool holds = place == "/" || path == place || path.StartsWith(place + "/", StringComparison.Ordinal);
            // Of two at one place the later covers the earlier.
            if (holds && place.Length >= best.Place.Length)
            {
                best = (place, words[2]);
            }
        }

        return best.Kind.Length == 0 ? null : best.Kind;
    }

    /// <summary>Whether a kind of file system is a share of another computer.</summary>
    /// <param name="kind">As the system calls it: "nfs4", "ext4".</param>
    /// <returns>True for a share; false also where the kind is not known.</returns>
    public static bool IsNetworkSystem(string kind) => NetworkSystems.Contains(kind, StringComparer.OrdinalIgnoreCase);

    /// <summary>The folder above a file that another program synchronises; nothing where none is seen to.</summary>
    internal static string? SynchronisedFolder(string path)
    {
        // The user's own folder holds hidden files of many programs, and none of these says anything about all of it.
        string home = Environment.GetFolderPath(Environment.SpecialFolder.UserProfile);
        for (DirectoryInfo? folder = Directory.GetParent(path); folder is { Parent: not null } && folder.FullName != home; folder = folder.Parent)
        {
            if (IsSynchronisedName(folder.Name) || HasMark(folder.FullName))
            {
                return folder.FullName;
            }
        }

        return null;
    }

    private static bool IsSynchronisedName(string name)
    {
        string lower = name.ToLowerInvariant();
        return lower.Contains("cloud", StringComparison.Ordinal) || lower.Contains("sync", StringComparison.Ordinal) || lower == "mobile documents"
            || (lower.Length > "drive".Length && lower.Split(Separators)[0].EndsWith("drive", StringComparison.Ordinal))
            || lower.EndsWith(" drive", StringComparison.Ordinal);
    }

    private static bool HasMark(string folder)
    {
        try
        {
            return Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder, ".*").Select(e => Path.GetFileName(e)).Any(
                n => n == ".stfolder" || n.Contains("sync", StringComparison.OrdinalIgnoreCase) || (n.Length > ".cache".Length && n.EndsWith(".cache", StringComparison.Ordinal)));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    private static bool IsOnNetwork(string path)
    {
        if (OperatingSystem.IsWindows() && path.StartsWith(@"\\", StringComparison.Ordinal) && path is not ['\\', '\\', '?' or '.', '\\', _, ':', ..])
        {
            return true;
        }

        try
        {
            return OperatingSystem.IsLinux()
                ? SystemAt(path, File.ReadLines("/proc/self/mounts")) is { } kind && IsNetworkSystem(kind)
                : new DriveInfo(Path.GetPathRoot(path)!) is var drive && (drive.DriveType == DriveType.Network || (drive.IsReady && IsNetworkSystem(drive.DriveFormat)));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return false;
        }
    }

    /// <summary>The path with every link in it followed, as far as it exists.</summary>
    private static string Followed(string path, int links = 0)
    {
        string reached = Path.GetPathRoot(path)!;
        string[] parts = path[reached.Length..].Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries);
        for (int i = 0; i < parts.Length; i++)
        {
            reached = Path.Combine(reached, parts[i]);
            // Where a link goes there may be links again; the system itself gives up after some forty.
            if (links < MostLinks && new FileInfo(reached).LinkTarget is { } target)
            {
                return Followed(Path.GetFullPath(Path.Combine([target, .. parts[(i + 1)..]]), Path.GetDirectoryName(reached)!), links + 1);
            }
        }

        return reached;
    }

    private static string? Variable() => Environment.GetEnvironmentVariable(FileVariable) is { } file && !string.IsNullOrWhiteSpace(file) ? file : null;

    private static string UserFolder()
    {
        string? data = Environment.GetEnvironmentVariable("XDG_DATA_HOME");
        // The desktop's convention has relative paths ignored.
        string folder = !string.IsNullOrWhiteSpace(data) && Path.IsPathRooted(data)
            ? data
            : Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
        return folder.Length > 0 ? folder : throw new InputException("--log", "this user has no data folder: name a file for the log, as --log shop.sqlite");
    }
}
