using System.Security.Cryptography;
using System.Text.Json;

namespace SandwichMech.Benchmarks;

/// <summary>The same board as layers of 20-node bricks, by CalculiX (<c>Rivals/solid.py</c>).</summary>
/// <remarks>
/// Its error is taken against its own limit over two nested meshes (the finer within 0.08 % of it), so that the theory's difference is no part of it. They take
/// many minutes: the limits lie in <c>Rivals/solid-limits.json</c>, with the digest of what they were computed from, and are computed
/// anew where that has changed.
/// </remarks>
internal sealed class SolidRival
{
    private static readonly string Limits = Path.Combine(Repository.Root, "tests", "SandwichMech.Benchmarks", "Rivals", "solid-limits.json");
    private static readonly JsonSerializerOptions Indented = new() { WriteIndented = true };

    private readonly string _case;

    private SolidRival(string given, string mesh, double error) => (_case, Mesh, Error) = (given, mesh, error);

    private sealed record Answer(string Mesh, double[] Frequencies, double Cpu, double Wall, int Nodes, double PeakMb);

    private sealed record Limit(string Digest, double[] Frequencies);

    internal string Mesh { get; }
    internal double Error { get; }
    internal int Unknowns { get; private set; }
    internal double[] Frequencies { get; private set; } = [];
    internal Cost Cost { get; private set; } = Cost.None;

    /// <summary>Looks for the coarsest mesh that is good enough.</summary>
    internal static SolidRival Of(PlateCase plate, string folder)
    {
        string path = Path.Combine(folder, $"solid-{plate.Name}.json");
        RivalFiles.WriteSolid(plate, path);
        double[] limit = LimitOf(plate.Name, path);
        foreach (string mesh in RivalProgram.Answers<string>("solid.py", path, "--meshes"))
        {
            Answer answer = RivalProgram.Answers<Answer>("solid.py", path, mesh)[0];
            double error = PlateCase.Error(answer.Frequencies, limit);
            Report.Line($"CalculiX on {mesh}: error {error:P2}, {answer.Cpu:F1} s");
            if (error <= PlateBenchmark.Wanted)
            {
                var rival = new SolidRival(path, mesh, error);
                rival.Add(answer);
                return rival;
            }
        }

        throw new InvalidOperationException($"None of the meshes in solid.py gives CalculiX an error of {PlateBenchmark.Wanted:P1}.");
    }

    internal void Measure() => Add(RivalProgram.Answers<Answer>("solid.py", _case, Mesh)[0]);

    private void Add(Answer now)
    {
        Cost = Cost.Or(new(now.Cpu, now.Wall));
        (Unknowns, Frequencies) = (3 * now.Nodes, now.Frequencies);
    }

    private static double[] LimitOf(string name, string path)
    {
        string digest = Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(path)))[..16];
        Dictionary<string, Limit> all = File.Exists(Limits) ? JsonSerializer.Deserialize<Dictionary<string, Limit>>(File.ReadAllText(Limits))! : [];
        if (!all.TryGetValue(name, out Limit? known) || known.Digest != digest)
        {
            Report.Line($"CalculiX's limits for the {name} edge are not known for this board: two nested meshes, which takes many minutes");
            all[name] = known = new(digest, RivalProgram.Answers<Answer>("solid.py", path, "--limit")[0].Frequencies);
            File.WriteAllText(Limits, JsonSerializer.Serialize(all, Indented) + "\n");
        }

        return known.Frequencies;
    }
}
