using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates.Reduced;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Reduced;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Tests.Plates.Reduced;

/// <summary>The kept models: found again, never trusted when not whole, bounded. The builder is counted and makes numbers up: the cache does not look into them.</summary>
[Trait("Check", "exact")]
public sealed class ReducedModelsTests : IDisposable
{
    private static readonly Board Board = BoardFiles.Read(Repository.File("shared", "demo", "outline.toml"), MaterialTables.BuiltIn()).Board;
    private static readonly ReducedOptions Options = new();
    private readonly string _folder = Path.Combine(Path.GetTempPath(), $"sandwichmech-models-{Guid.NewGuid():N}");
    private int _built;

    public void Dispose()
    {
        if (Directory.Exists(_folder)) { Directory.Delete(_folder, recursive: true); }
    }

    [Fact]
    public void A_model_is_built_once_and_found_again_with_all_its_numbers()
    {
        ReducedContent first = Ask(Board).Content, second = Ask(Board).Content;
        Assert.Equal(1, _built);
        Assert.Equal(ReducedFile.Bytes("k", first), ReducedFile.Bytes("k", second));
        Assert.Equal(first.Parts[0].Movements[1], second.Parts[0].Movements[1]);
        Assert.Equal(first.Report, second.Report);
        Assert.Equal(first.Range.Inputs, second.Range.Inputs);
        Assert.Single(Files());
    }

    [Fact]
    public void What_the_range_lets_vary_asks_for_the_same_model_and_all_else_for_another()
    {
        BoardRange range = BoardRange.Usual(Board);
        string key = ReducedKey.Of(Board, range, Options);
        Board thicker = Board with { Outer = Board.Outer with { Thickness = Board.Outer.Thickness.Times(1.1) } };
        Assert.Equal(key, ReducedKey.Of(thicker, range, Options));
        BoardShape shape = Board.Shape!;
        Board[] others =
        [
            Board with { Shape = shape with { Edge = EdgeHold.Clamped } },
            Board with { Shape = shape with { DomeAcross = 0.2 } },
            Board with { Shape = shape with { Holes = [] } },
            Board with { Outer = Board.Outer with { GrainAngle = 0.05 } },
            Board with { Adhesive = Board.Adhesive with { FilmNu = 0.3 } },
        ];
        string[] keys =
        [
            key, .. others.Select(b => ReducedKey.Of(b, range, Options)), ReducedKey.Of(Board, range.With("core height", 1e-3, 3e-3), Options),
            ReducedKey.Of(Board, range, Options with { Modes = 8 }), ReducedKey.Of(Board, range, Options with { Accuracy = 2e-3 }),
        ];
        Assert.Equal(keys.Length, keys.Distinct().Count());
    }

    public static TheoryData<string> Damages => ["cut short", "one bit turned", "longer", "empty", "another format", "another key", "no model at all"];

    [Theory]
    [MemberData(nameof(Damages))]
    public void A_file_that_is_not_whole_or_not_ours_is_built_anew(string damage)
    {
        ReducedContent before = Ask(Board).Content;
        string path = Assert.Single(Files());
        byte[] bytes = File.ReadAllBytes(path);
        switch (damage)
        {
            case "cut short": bytes = bytes[..(bytes.Length / 2)]; break;
            case "one bit turned": bytes[bytes.Length - 100] ^= 4; break;
            case "longer": bytes = [.. bytes, 0]; break;
            case "empty": bytes = []; break;
            case "another format": bytes[4] ^= 2; break;
            case "another key": bytes = ReducedFile.Bytes("another key", before); break;
            default: bytes = [.. Enumerable.Range(0, 1000).Select(i => (byte)i)]; break;
        }

        File.WriteAllBytes(path, bytes);
        Assert.Equal(before.Parts[0].Air, Ask(Board).Content.Parts[0].Air);
        Assert.Equal(2, _built);
        // And is whole again.
        Ask(Board);
        Assert.Equal(2, _built);
    }

    // A program that is stopped while it writes leaves an unfinished file beside: it is never read, and goes after a day.
    [Fact]
    public void An_unfinished_file_is_never_read_and_goes_in_time()
    {
        Ask(Board);
        string path = Assert.Single(Files()), unfinished = path + ".0123.tmp", young = path + ".4567.tmp";
        File.Move(path, unfinished);
        File.WriteAllText(young, "still being written");
        File.SetLastWriteTimeUtc(unfinished, DateTime.UtcNow.AddDays(-2));
        Ask(Board);
        Assert.Equal(2, _built);
        Assert.False(File.Exists(unfinished));
        Assert.True(File.Exists(young));
    }

    [Fact]
    public void What_was_used_longest_ago_goes_when_the_folder_is_full()
    {
        Ask(Modes(3));
        long one = new FileInfo(Assert.Single(Files())).Length;
        var models = new ReducedModels(_folder, 5 * one / 2, Build);
        Age(Files().Single(), 3);
        models.For(Board, null, Modes(4));
        Age(Files().Single(f => File.GetLastWriteTimeUtc(f) > DateTime.UtcNow.AddHours(-1)), 2);
        // The older one is used again, so that the other is the one to go.
        models.For(Board, null, Modes(3));
        Assert.Equal(2, _built);
        models.For(Board, null, Modes(5));
        Assert.Equal((3, 2), (_built, Files().Length));
        models.For(Board, null, Modes(3));
        Assert.Equal(3, _built);
        models.For(Board, null, Modes(4));
        Assert.Equal(4, _built);
        // A single one that is too large stays.
        new ReducedModels(_folder, 1, Build).For(Board, null, Modes(6));
        Assert.Single(Files());

        static void Age(string file, int hours) => File.SetLastWriteTimeUtc(file, DateTime.UtcNow.AddHours(-hours));
    }

    [Fact]
    public void A_folder_that_goes_or_cannot_be_does_no_harm()
    {
        Ask(Board);
        Directory.Delete(_folder, recursive: true);
        Ask(Board);
        Assert.Equal(2, _built);
        Directory.Delete(_folder, recursive: true);
        File.WriteAllText(_folder, "a file in the folder's place");
        try
        {
            Assert.NotNull(Ask(Board));
            Assert.Equal(3, _built);
        }
        finally
        {
            File.Delete(_folder);
        }
    }

    [Fact]
    public void Many_at_once_leave_whole_files_only()
    {
        Parallel.For(0, 24, i => Ask(Modes(3 + i % 3)));
        Assert.Equal(3, Files().Length);
        Assert.Empty(Directory.GetFiles(_folder, "*.tmp"));
        int before = _built;
        for (int i = 0; i < 3; i++) { Ask(Modes(3 + i)); }
        Assert.Equal(before, _built);
    }

    [Fact]
    public void A_board_without_an_outline_has_none() => Assert.Throws<ArgumentException>(() => Ask(Board with { Shape = null }));

    private static ReducedOptions Modes(int count) => Options with { Modes = count };

    private string[] Files() => Directory.GetFiles(_folder, "*.reduced");

    private ReducedPlate Ask(Board board) => new ReducedModels(_folder, build: Build).For(board);

    private ReducedPlate Ask(ReducedOptions options) => new ReducedModels(_folder, build: Build).For(Board, null, options);

    private ReducedPlate Build(Board board, BoardRange range, ReducedOptions options, Action<ReducedProgress>? progress)
    {
        Interlocked.Increment(ref _built);
        float[] some = [.. Enumerable.Range(0, 500).Select(i => MathF.Sin(i))];
        return ReducedPlate.From(new()
        {
            Range = range,
            Modes = options.Modes,
            Accuracy = options.Accuracy,
            ErrorPerTail = 1.5,
            MeshErrors = [1e-4, 2e-4],
            Stations = [new([0, 2], new(0.1, -0.2)), new([], default)],
            Stiffness = [new(0, 3, 3), new(1, 3, 4)],
            Inertia = [new(0, 2, 2)],
            Parts =
            [
                new()
                {
                    Modes = 4, Rigid = 3, Flexible = 40, Tail = 10, StiffnessMatrices = [some, [.. some.Reverse()]], InertiaMatrices = [some], Air = some, Movements = [[], [1, 2, 3]],
                },
            ],
            Report = new(30, 12000, 1e-4, 2e-4),
        }, board);
    }
}
