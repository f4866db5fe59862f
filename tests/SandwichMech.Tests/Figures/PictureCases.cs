using System.Collections.Concurrent;
using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Figures;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Tests.Pictures;

/// <summary>Boards that are easy and hard to draw, and every picture of each.</summary>
internal static class PictureCases
{
    internal const string Demo = "demo", Foam = "foam", LongNames = "long names", Heavier = "heavier than the solid", Thick = "thick, against balsa", Certain = "no spread, no size";

    internal static readonly string[] Boards = [Demo, Foam, LongNames, Heavier, Thick, Certain];

    internal static readonly string[] Kinds = ["estimate", "sources", "compare", "sweep of one", "sweep of two"];

    private static readonly MaterialTables Tables = MaterialTables.BuiltIn();
    private static readonly ConcurrentDictionary<string, BoardFile> Files = new();
    private static readonly ConcurrentDictionary<(string, string), object> Results = new();

    internal static TheoryData<string, string, UnitSystem> All(IEnumerable<string> boards)
    {
        var data = new TheoryData<string, string, UnitSystem>();
        foreach (string board in boards)
        {
            foreach (string kind in Kinds)
            {
                data.Add(board, kind, UnitSystem.Metric);
                data.Add(board, kind, UnitSystem.Inch);
            }
        }

        return data;
    }

    internal static TheoryData<string, UnitSystem> AllBoards() => Each(Boards);

    internal static TheoryData<string, UnitSystem> Each(IEnumerable<string> boards)
    {
        var data = new TheoryData<string, UnitSystem>();
        foreach (string board in boards)
        {
            data.Add(board, UnitSystem.Metric);
            data.Add(board, UnitSystem.Inch);
        }

        return data;
    }

    internal static Picture Draw(string board, string kind, UnitSystem units) => kind switch
    {
        "estimate" => BoardPictures.Estimate(Estimate(board), units),
        "sources" => BoardPictures.Sources(Estimate(board), units),
        "compare" => BoardPictures.Compare(Compare(board), units),
        "sweep of one" => BoardPictures.Sweep(SweepOne(board), units),
        _ => BoardPictures.Sweep(SweepTwo(board), units),
    };

    internal static EstimateResult Estimate(string board) => Once(board, "estimate", f => EstimateBoard.Run(f));

    internal static CompareResult Compare(string board) => Once(board, "compare", f => CompareBoard.Run(f));

    internal static SweepResult SweepOne(string board) =>
        Once(board, "one", f => SweepBoard.Run(f, [new("core", [.. Enumerable.Range(0, 9).Select(i => 1.5e-3 + i * 0.2e-3)])]));

    internal static SweepResult SweepSkins(string board) =>
        Once(board, "skins", f => SweepBoard.Run(f, [new("skins", [.. Enumerable.Range(4, 7).Select(i => i * 1e-4)])]));

    internal static SweepResult SweepTwo(string board) => Once(board, "two", f => SweepBoard.Run(
        f, [new("skins", [0.5e-3, 0.65e-3, 0.8e-3]), new("core", [.. Enumerable.Range(0, 10).Select(i => 1.4e-3 + i * 0.15e-3)])]));

    internal static BoardFile File(string board) => Files.GetOrAdd(board, b => b switch
    {
        Demo => Read("board.toml"),
        Foam => Read("board-foam.toml"),
        LongNames => With(Read("board.toml"), StiffnessCriterion.GeometricMean, x => x with
        {
            Name = "a board whose maker gave it a name as long as the file lets him, <with> \"signs\" & a tail to be cut off",
            Outer = x.Outer with { Wood = x.Outer.Wood with { Name = "spruce from the attic of an old house, billet 14, very fine grain" } },
            Inner = x.Inner with { Wood = x.Inner.Wood with { Name = "cedar split by hand & dried for eleven years, the darkest of the three" } },
            Core = x.Core with { Material = x.Core.Material with { Name = "honeycomb of a kind that nobody has heard of, cells of five millimetres" } },
            Adhesive = x.Adhesive with { Name = "an adhesive that comes with a long story and a longer name" },
            Solid = x.Solid with { Wood = x.Solid.Wood with { Name = "spruce of unknown age with a wide grain and a knot at the lower end" } },
        }),
        Heavier => With(Read("board.toml"), StiffnessCriterion.Along, x => x with
        {
            Core = x.Core with { Height = new(0.6e-3, 0.03) },
            Outer = x.Outer with { Thickness = new(0.4e-3, 0.05) },
            Inner = x.Inner with { Thickness = new(0.9e-3, 0.05) },
            Solid = x.Solid with { Thickness = new(3.2e-3, 0.02) },
        }),
        Thick => With(Read("board.toml"), StiffnessCriterion.Across, x => x with
        {
            Core = x.Core with { Height = new(5e-3, 0.03) },
            Outer = x.Outer with { Thickness = new(1.3e-3, 0.05) },
            Solid = new(MaterialTables.Find(Tables.Woods, "balsa")!.Item, null),
        }),
        _ => With(Read("board.toml"), StiffnessCriterion.Along, x => Sure(x) with { Size = x.Size with { Length = null, Width = null } }),
    });

    private static T Once<T>(string board, string kind, Func<BoardFile, T> run) where T : class =>
        (T)Results.GetOrAdd((board, kind), _ => run(File(board)));

    private static BoardFile Read(string demo) => BoardFiles.Read(Repository.File("shared", "demo", demo), Tables);

    private static BoardFile With(BoardFile file, StiffnessCriterion criterion, Func<Board, Board> change) =>
        file with { Criterion = criterion, Board = change(file.Board) };

    /// <summary>A board with nothing uncertain about its thicknesses, woods, core and adhesive.</summary>
    private static Board Sure(Board b)
    {
        static Core.Uncertainty.Estimate Sure(Core.Uncertainty.Estimate e) => e with { Spread = 0 };
        static Core.Materials.Wood Wood(Core.Materials.Wood w) => w with
        {
            Density = Sure(w.Density),
            EL = Sure(w.EL),
            ErOverEl = Sure(w.ErOverEl),
            EtOverEl = Sure(w.EtOverEl),
            GlrOverEl = Sure(w.GlrOverEl),
            GltOverEl = Sure(w.GltOverEl),
            GrtOverEl = Sure(w.GrtOverEl),
        };
        Core.Materials.CoreMaterial m = b.Core.Material;
        Core.Materials.Adhesive a = b.Adhesive;
        return b with
        {
            Outer = b.Outer with { Wood = Wood(b.Outer.Wood), Thickness = Sure(b.Outer.Thickness) },
            Inner = b.Inner with { Wood = Wood(b.Inner.Wood), Thickness = Sure(b.Inner.Thickness) },
            Core = b.Core with
            {
                Height = Sure(b.Core.Height),
                Material = m with { Density = Sure(m.Density), ShearRibbon = Sure(m.ShearRibbon), ShearAcross = Sure(m.ShearAcross) },
            },
            Adhesive = a with
            {
                Density = Sure(a.Density),
                Mixed = Sure(a.Mixed),
                KeptShare = Sure(a.KeptShare),
                FilmShare = Sure(a.FilmShare),
                FilmModulus = Sure(a.FilmModulus),
            },
            Solid = new(Wood(b.Solid.Wood), b.Solid.Thickness is { } h ? Sure(h) : null),
        };
    }
}
