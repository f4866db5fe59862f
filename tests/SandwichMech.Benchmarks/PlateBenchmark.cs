using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;

namespace SandwichMech.Benchmarks;

/// <summary>Our cold plate solve, mesh to frequencies, beside the same theory in NumPy, CHOLMOD and ARPACK and beside CalculiX's layered solid, at the same error.</summary>
/// <remarks>
/// Cold: nothing is kept from an earlier solve; the program is warm and the file read. Every cost is the least of several processor
/// times, ours and the rivals' taken in turn: for one core that is the wall's time, and a busy machine changes it little. Each rival has the
/// cheapest of its meshes that is good enough, found beforehand; see <see cref="PlateRival"/> and <see cref="SolidRival"/>.
/// </remarks>
internal static class PlateBenchmark
{
    /// <summary>Relative error that all of them are held to.</summary>
    internal const double Wanted = 3e-3;

    private const double Usual = 1e-3;
    private const double LeastOverSolid = 40, LeastOverPlate = 1;
    private const int Rounds = 6, WarmUps = 3;

    internal static bool Run()
    {
        RivalProgram.Check();
        DirectoryInfo folder = Directory.CreateTempSubdirectory("sandwichmech-plate-");
        try
        {
            return Compare(PlateCase.Of(EdgeHold.Clamped), folder.FullName) & Compare(PlateCase.Of(EdgeHold.Free), folder.FullName);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static bool Compare(PlateCase plate, string folder)
    {
        double[] reference = plate.Reference();
        var cubic = PlateRival.Of(plate, reference, folder);
        var solid = SolidRival.Of(plate, folder);
        PlateSolution ours = null!, usual = null!, more = null!;
        Cost coldCost = Cost.None, usualCost = Cost.None, meshCost = Cost.None, moreCost = Cost.None, airCost = Cost.None;
        for (int i = -WarmUps; i < Rounds; i++)
        {
            Cost Least(Cost before, Action work) => Stopclock.Cost(work) is var now && i < 0 ? before : before.Or(now);
            coldCost = Least(coldCost, () => ours = plate.Cold(Wanted));
            usualCost = Least(usualCost, () => usual = plate.Cold(Usual));
            meshCost = Least(meshCost, () => plate.Problem(plate.FirstSize));
            moreCost = Least(moreCost, () => more = plate.Cold(Wanted, PlateSolver.BeyondForAir));
            airCost = Least(airCost, () => more.InAir(plate.Edge != EdgeHold.Free, AmbientAir.Density, PlateCase.Modes));
            if (i >= 0) { cubic.Measure(); }
            // Half a minute, and once measured when its mesh was found.
            if (i == Rounds / 2) { solid.Measure(); }
        }

        double ourError = PlateCase.Error(PlateCase.Frequencies(ours), reference), usualError = PlateCase.Error(PlateCase.Frequencies(usual), reference);
        Report.Line($"{plate.Name} edge, first {PlateCase.Modes} frequencies in vacuo, {reference[0]:F0} to {reference[^1]:F0} Hz");
        Report.Line($"{"",-46}{"unknowns",9}{"error",9}{"processor s",12}{"wall s",10}");
        Row($"ours, {Wanted:P1} wanted, {ours.Triangles} triangles", ours.Unknowns, ourError, coldCost);
        Row("  of that one mesh", null, null, meshCost);
        Row("  the air beside it: its mass", null, null, airCost);
        Row($"  the air beside it: {PlateSolver.BeyondForAir} further modes", null, null, new(moreCost.Processor - coldCost.Processor, moreCost.Wall - coldCost.Wall));
        Row($"ours, {Usual:P1} wanted, {usual.Triangles} triangles", usual.Unknowns, usualError, usualCost);
        Row($"cubic, CHOLMOD, ARPACK, {cubic.Triangles} triangles", cubic.Unknowns, cubic.Error, cubic.Cost);
        Report.Line($"  of that {cubic.Phases}");
        Row($"CalculiX, layered solid, {solid.Mesh}", solid.Unknowns, solid.Error, solid.Cost);
        Report.Line($"   BLAS of both rivals: {cubic.Blas}; solid of the same layers {solid.Frequencies[0] / reference[0] - 1:P1} to {solid.Frequencies[^1] / reference[^1] - 1:P1} from the plate");
        return Report.Gate("our largest error, %", 100 * ourError, ourError <= Wanted, $"at most {100 * Wanted}", "F3")
            & Report.Gate("times faster than CalculiX", solid.Cost.Processor / coldCost.Processor, solid.Cost.Processor >= LeastOverSolid * coldCost.Processor, $"at least {LeastOverSolid}")
            & Report.Gate("times faster than cubic triangles in Python", cubic.Cost.Processor / coldCost.Processor, cubic.Cost.Processor > LeastOverPlate * coldCost.Processor, $"more than {LeastOverPlate}");

        static void Row(string what, int? unknowns, double? error, Cost? cost) =>
            Report.Line($"{what,-46}{unknowns,9}{error,9:P3}{cost?.Processor,12:F3}{cost?.Wall,10:F3}");
    }
}
