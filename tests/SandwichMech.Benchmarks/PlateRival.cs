namespace SandwichMech.Benchmarks;

/// <summary>The same theory by somebody else's tools: cubic triangles in NumPy, CHOLMOD, ARPACK (<c>Rivals/plate.py</c>).</summary>
/// <remarks>
/// It is given our mesher's mesh for nothing, at that one of several sizes which is good enough and cheapest. Its error is taken
/// against the same reference as ours (<see cref="PlateCase.Reference"/>).
/// </remarks>
internal sealed class PlateRival
{
    // Of the triangles, m.
    private static readonly double[] Sizes = [0.050, 0.044, 0.040, 0.037, 0.035, 0.033, 0.031, 0.028, 0.025, 0.022];

    private readonly string _mesh;

    private PlateRival(string mesh, double error) => (_mesh, Error) = (mesh, error);

    private sealed record Answer(double[] Frequencies, double Cpu, double Wall, double Assembly, double Factor, double Modes, int Triangles, int Unknowns, string Blas);

    internal double Error { get; }
    internal int Triangles { get; private set; }
    internal int Unknowns { get; private set; }
    internal string Blas { get; private set; } = "";
    internal string Phases { get; private set; } = "";
    internal Cost Cost { get; private set; } = Cost.None;

    /// <summary>Looks for the mesh.</summary>
    internal static PlateRival Of(PlateCase plate, double[] reference, string folder)
    {
        string[] meshes = [.. Sizes.Select((size, i) =>
        {
            string path = Path.Combine(folder, $"{plate.Name}-{i}.json");
            RivalFiles.WritePlate(plate, size, path);
            return path;
        })];
        (string mesh, Answer answer) = meshes.Zip(RivalProgram.Answers<Answer>("plate.py", meshes))
            .Where(m => PlateCase.Error(m.Second.Frequencies, reference) <= PlateBenchmark.Wanted).MinBy(m => m.Second.Cpu);
        return answer is null
            ? throw new InvalidOperationException($"None of the meshes gives cubic triangles an error of {PlateBenchmark.Wanted:P1}.")
            : new(mesh, PlateCase.Error(answer.Frequencies, reference));
    }

    internal void Measure()
    {
        Answer now = RivalProgram.Answers<Answer>("plate.py", _mesh)[0];
        if (now.Cpu < Cost.Processor)
        {
            Phases = FormattableString.Invariant($"assembly {now.Assembly:F3}, factor {now.Factor:F3}, modes {now.Modes:F3} s");
        }

        Cost = Cost.Or(new(now.Cpu, now.Wall));
        (Triangles, Unknowns, Blas) = (now.Triangles, now.Unknowns, now.Blas);
    }
}
