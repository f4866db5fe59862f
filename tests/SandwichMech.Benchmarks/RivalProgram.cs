using System.Diagnostics;
using System.Text.Json;

namespace SandwichMech.Benchmarks;

/// <summary>Something that a rival needs is not installed.</summary>
internal sealed class MissingRivalException(string message) : Exception(message);

/// <summary>Runs the rivals' Python scripts, on one core and with Debian's OpenBLAS.</summary>
/// <remarks>CHOLMOD, ARPACK and CalculiX call whatever BLAS is Debian's choice; the plain one would make them slower than they need be.</remarks>
internal static class RivalProgram
{
    private const string Install = "sudo apt install calculix-ccx python3-gmsh python3-numpy python3-scipy libcholmod3 libopenblas0-serial";

    private static readonly JsonSerializerOptions Words = new() { PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower };

    // Debian's own first: another Python on the path has not Debian's modules.
    private static readonly Lazy<string> Python = new(() => new[] { "/usr/bin/python3", "python3" }.FirstOrDefault(p => Succeeds(p, "-c", "import numpy, scipy, gmsh"))
        ?? throw Missing("python3 with numpy, scipy and gmsh (Debian: python3-numpy, python3-scipy, python3-gmsh)"));

    private static readonly Lazy<string> Blas = new(() => (Directory.Exists("/usr/lib") ? Directory.EnumerateDirectories("/usr/lib") : [])
        .Select(d => Path.Combine(d, "openblas-serial")).FirstOrDefault(d => File.Exists(Path.Combine(d, "libblas.so.3")))
        ?? throw Missing("OpenBLAS (Debian: libopenblas0-serial)"));

    /// <summary>Says what is missing before anything is measured.</summary>
    /// <exception cref="MissingRivalException">A program or a library is not installed.</exception>
    internal static void Check()
    {
        if (!Succeeds(Python.Value, "-c", "import ctypes; ctypes.CDLL('libcholmod.so.3')"))
        {
            throw Missing("CHOLMOD 3 (Debian: libcholmod3)");
        }

        // ccx ends with an exit code of its own even where all is well.
        if (!Succeeds(Python.Value, "-c", "import shutil, sys; sys.exit(shutil.which('ccx') is None)"))
        {
            throw Missing("CalculiX, the program ccx (Debian: calculix-ccx)");
        }

        _ = Blas.Value;
    }

    /// <summary>Runs a script and reads the lines that it answers.</summary>
    /// <typeparam name="T">What a line holds.</typeparam>
    /// <param name="script">Its name in Rivals.</param>
    /// <param name="words">What it is told.</param>
    internal static T[] Answers<T>(string script, params string[] words)
    {
        string path = Path.Combine(Repository.Root, "tests", "SandwichMech.Benchmarks", "Rivals", script);
        (int code, string output, string errors) = Run(Python.Value, [path, .. words]);
        return code == 0
            ? [.. output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonSerializer.Deserialize<T>(line, Words)!)]
            : throw new InvalidOperationException($"{script} {string.Join(' ', words)} ended with {code}:\n{output}{errors}");
    }

    private static MissingRivalException Missing(string what) => new($"a rival is not installed: {what}. All of them: {Install}");

    private static bool Succeeds(string program, params string[] words)
    {
        try
        {
            return Run(program, words).Code == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }

    private static (int Code, string Output, string Errors) Run(string program, string[] words)
    {
        var start = new ProcessStartInfo(program, words) { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (string threads in new[] { "OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "CCX_NPROC_RESULTS", "CCX_NPROC_STIFFNESS" })
        {
            start.Environment[threads] = "1";
        }

        if (Blas.IsValueCreated)
        {
            start.Environment["LD_LIBRARY_PATH"] = Blas.Value + (Environment.GetEnvironmentVariable("LD_LIBRARY_PATH") is { Length: > 0 } old ? ":" + old : "");
        }

        using Process process = Process.Start(start)!;
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output, errors.Result);
    }
}
