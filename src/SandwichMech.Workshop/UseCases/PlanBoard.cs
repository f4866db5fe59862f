using System.Text.Json.Serialization;
using SandwichMech.Core.Building;
using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Choices;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A build as its log has it.</summary>
/// <param name="Number">The board's number.</param>
/// <param name="Start">What it began with.</param>
/// <param name="Readings">In force, in the order in which they were read.</param>
/// <param name="KeptShares">Kept over mixed of the shop's bonds on other boards, in the order of time.</param>
/// <param name="AsBegun">The board file's text as the build began, before anything was decided.</param>
public sealed record LoggedBuild(int Number, BuildStart Start, IReadOnlyList<BuildReading> Readings, IReadOnlyList<double> KeptShares, string AsBegun);

/// <summary>What is asked of `plan` besides the board.</summary>
public sealed record PlanWish
{
    /// <summary>Thicknesses and woods of the inner skin as free fields of the board file; none: 0.4 to 0.8 mm by 0.05 mm.</summary>
    public IReadOnlyList<string> Free { get; init; } = [];
    /// <summary>Targets; none: those that the build began with.</summary>
    public IReadOnlyList<string> Targets { get; init; } = [];
    /// <summary>Chance with which all have to hold together.</summary>
    public double Sure { get; init; } = ChooseWish.UsualSure;
    /// <summary>How many modes of each finished board are told; each takes a plate.</summary>
    public int Modes { get; init; }
    /// <summary>A stock file, for "in stock".</summary>
    public string? Stock { get; init; }
    /// <summary>Gives the log's pieces that are wood or core, for "in stock".</summary>
    public Func<IReadOnlyList<int>> Pieces { get; init; } = () => [];
    /// <summary>In which words are written.</summary>
    public UnitSystem Units { get; init; }
}

/// <summary>A part of an expected mass.</summary>
public sealed record MassPartRow(string Part, [property: JsonPropertyName("mass_kg")] double Mass, [property: JsonPropertyName("deviation_kg")] double Deviation);

/// <summary>What the scale should read.</summary>
public sealed record ExpectedRow(string Stage, string What, [property: JsonPropertyName("mass_kg")] Prediction Mass, IReadOnlyList<MassPartRow> From);

/// <summary>What the callipers should read.</summary>
public sealed record CalliperRow(string Stage, string What, [property: JsonPropertyName("thickness_m")] Prediction Thickness);

/// <summary>What is to be taken off let-in wood.</summary>
/// <param name="Proud">How far it stands above the core, m; negative where it lies below.</param>
/// <param name="Deviation">Standard deviation of that, m.</param>
/// <param name="Mass">What the board weighs less when it is level, kg.</param>
public sealed record LevellingRow([property: JsonPropertyName("proud_m")] double Proud, [property: JsonPropertyName("deviation_m")] double Deviation, [property: JsonPropertyName("mass_kg")] double Mass);

/// <summary>A reading and its verdict.</summary>
/// <param name="Stage">When.</param>
/// <param name="What">What.</param>
/// <param name="Unit">SI.</param>
/// <param name="Value">Mean of its values.</param>
/// <param name="Values">All of them.</param>
/// <param name="Expected">What was expected; nothing where nothing could be.</param>
/// <param name="Verdict">"go", "look again" or "stop".</param>
/// <param name="Reason">Why.</param>
public sealed record JudgedRow(string Stage, string What, string Unit, double Value, IReadOnlyList<double> Values, Prediction? Expected, string Verdict, string Reason);

/// <summary>What a bond took in.</summary>
public sealed record BalanceRow(
    string Bond,
    [property: JsonPropertyName("gain_kg")] double Gain,
    [property: JsonPropertyName("water_lost_kg")] double? WaterLost,
    [property: JsonPropertyName("kept_kg")] double Kept,
    [property: JsonPropertyName("kept_deviation_kg")] double Deviation,
    [property: JsonPropertyName("mixed_kg")] double? Mixed,
    double? KeptShare);

/// <summary>What taps on the board at a stage said.</summary>
/// <param name="Stage">The stage.</param>
/// <param name="Chance">How often the tones of such a board fit no better, 0 to 1.</param>
/// <param name="Properties">Its properties before and after.</param>
/// <param name="Tones">Each reading, and which mode it was taken for.</param>
/// <param name="Notes">What is doubtful.</param>
public sealed record StageTapsRow(string Stage, double Chance, IReadOnlyList<PropertyRow> Properties, IReadOnlyList<ReadingRow> Tones, IReadOnlyList<string> Notes);

/// <summary>What `plan` answers.</summary>
public sealed record PlanResult
{
    /// <summary>The board's number in the log.</summary>
    public required int Number { get; init; }
    /// <summary>Its name.</summary>
    public required string Board { get; init; }
    /// <summary>The last stage that anything was read at; nothing before the first.</summary>
    public required string? Reached { get; init; }
    /// <summary>The stage that comes next; nothing after the last.</summary>
    public required string? Next { get; init; }
    /// <summary>What to weigh and measure at it.</summary>
    public required IReadOnlyList<string> ToRead { get; init; }
    /// <summary>What the scale should read there.</summary>
    public required IReadOnlyList<ExpectedRow> Expected { get; init; }
    /// <summary>What the callipers should read there.</summary>
    public required IReadOnlyList<CalliperRow> Callipers { get; init; }
    /// <summary>Tones that the board should have there, in Hz, lowest first; where modes were asked for.</summary>
    public required IReadOnlyList<Prediction> Tones { get; init; }
    /// <summary>What to level, where that comes next.</summary>
    public required LevellingRow? Levelling { get; init; }
    /// <summary>All readings with their verdicts.</summary>
    public required IReadOnlyList<JudgedRow> Readings { get; init; }
    /// <summary>What the bonds kept.</summary>
    public required IReadOnlyList<BalanceRow> Bonds { get; init; }
    /// <summary>Its mass through all stages, as weighed and as expected.</summary>
    public required IReadOnlyList<CourseRow> Course { get; init; }
    /// <summary>What stands otherwise in its board file now than in the log, which the build goes by.</summary>
    public required IReadOnlyList<FileChangeRow> FileChanges { get; init; }
    /// <summary>What taps on it said.</summary>
    public required IReadOnlyList<StageTapsRow> Taps { get; init; }
    /// <summary>Whether the inner skin is still open.</summary>
    public required bool IsOpen { get; init; }
    /// <summary>What the board has to reach.</summary>
    public required IReadOnlyList<string> Targets { get; init; }
    /// <summary>The inner skins that are open; the finished board alone where none is.</summary>
    public required IReadOnlyList<InnerRow> Inner { get; init; }
    /// <summary>Number in that list, from 0, of the lightest that meets all as surely as asked, or of the likeliest.</summary>
    public required int? Best { get; init; }
    /// <summary>What 0.05 mm more of the inner skin does.</summary>
    public required IReadOnlyList<StepRow> EachStep { get; init; }
    /// <summary>What may still be taken off the outer skin; nothing before the second bond, and once bars are on.</summary>
    public required SandingRoom? Sanding { get; init; }
    /// <summary>Chance that was asked.</summary>
    public required double Sure { get; init; }
    /// <summary>What was taken, and what it rests on.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
    /// <summary>What to take care of at the next stage.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }
}

/// <summary>Plans what is left of a build from all that was read so far.</summary>
public static class PlanBoard
{
    private const string UsualInner = "inner.thickness 0.4 mm to 0.8 mm by 0.05 mm";

    /// <summary>Plans.</summary>
    /// <param name="build">The build.</param>
    /// <param name="tables">Where its materials are looked up.</param>
    /// <param name="wish">What is asked.</param>
    /// <param name="progress">Told in words what is done, and its share.</param>
    /// <returns>What comes next, what to expect, and what the open choice would make.</returns>
    /// <exception cref="InputException">The build's board file can no longer be read, or a target cannot be used.</exception>
    public static PlanResult Run(LoggedBuild build, MaterialTables tables, PlanWish wish, Action<string, double>? progress = null)
    {
        (BoardFile file, Board wished, BlankAreas areas, KnownBuild built) = Known(build, tables, progress);
        Board known = built.Board;
        var masses = new BuildMasses(wished, areas, build.Readings);
        BuildStage? reached = build.Readings.Count == 0 ? null : build.Readings.Max(r => r.Stage);
        BuildStage? next = reached is null ? BuildStage.Skins : reached < BuildStage.Strung ? reached + 1 : null;
        bool open = reached is null or < BuildStage.SecondBond;
        var notes = new List<string>();
        if (build.KeptShares.Count >= KeptShares.Fewest) { notes.Add($"the share of adhesive that is kept is your shop's own, from {(build.KeptShares.Count >= ShopBonds.Most ? "the last " : "")}{build.KeptShares.Count} bonds"); }
        if (known.Shape is null && build.Readings.Any(r => r.Quantity == BuildQuantity.Tones)) { notes.Add("its tap tones are kept and not used: without an outline in the board file its modes are not known"); }
        IReadOnlyList<string> typed = wish.Targets.Count > 0 ? wish.Targets : build.Start.Targets.Count > 0 ? build.Start.Targets : file.Board.Solid.Thickness is null ? [] : ["along at least solid"];
        if (wish.Targets.Count == 0 && build.Start.Targets.Count == 0 && typed.Count > 0) { notes.Add("no target given: as stiff along as the solid top of the board file"); }
        ChoiceTarget[] targets = [.. typed.Select(TypedTarget.Read)];
        if (wish.Free.FirstOrDefault(f => !f.TrimStart().StartsWith("inner.", StringComparison.Ordinal)) is { } bonded)
        {
            throw new InputException("--free", $"'{bonded}': of a build only the inner skin is still open: write inner.thickness or inner.wood");
        }

        var outlook = new BuildOutlook(file, known, targets, wish.Units, wish.Sure, progress);
        (IReadOnlyList<InnerRow> inner, IReadOnlyList<StepRow> each) = Inner(outlook, file, known, open, wish, notes);
        bool sandable = reached is BuildStage.SecondBond or BuildStage.Sanded or BuildStage.CutOut;
        return new()
        {
            Number = build.Number,
            Board = build.Start.Name,
            Reached = reached is { } r ? BuildWords.Of(r) : null,
            Next = next is { } n ? BuildWords.Of(n) : null,
            ToRead = next is { } read ? BuildWords.ToRead(read) : [],
            Expected = next is { } e ? [.. masses.Expected(e).Select(Row)] : [],
            Callipers = next is { } c2 ? [.. masses.Thicknesses(c2).Select(t => new CalliperRow(BuildWords.Of(t.Stage), BuildWords.Of(t.Quantity), t.Reading))] : [],
            Tones = next is { } t2 ? Tones(file, known, wished, areas, build, t2, wish.Modes) : [],
            Levelling = next == BuildStage.Levelled && masses.Levelling is { } proud ? new(proud.Proud, proud.Deviation, proud.Mass) : null,
            Readings = Judged(wished, areas, build.Readings),
            Bonds = [.. new[] { BuildStage.FirstBond, BuildStage.SecondBond }.Select(masses.Balance).OfType<BondBalance>().Select(Row)],
            Course = BuildCourse.Of(wished, areas, build.Readings),
            FileChanges = BuildDecisions.Since(build, reached),
            Taps = [.. built.Taps.Select(t => new StageTapsRow(BuildWords.Of(t.Stage), t.Found.Chance, [.. t.Found.Properties.Select(FoundRows.Of)], [.. t.Found.Readings.Select(FoundRows.Of)], [.. FoundRows.Doubts(t.Found, "board")]))],
            IsOpen = open,
            Targets = [.. targets.Select(t => TypedTarget.Words(t, wish.Units))],
            Inner = inner,
            Best = Best(inner, wish.Sure),
            EachStep = each,
            Sanding = sandable ? outlook.Sanding(build.Readings.LastOrDefault(x => x.Quantity == BuildQuantity.OuterThickness)) : null,
            Sure = wish.Sure,
            Notes = notes,
            Cautions = next is { } c ? BuildWords.Cautions(c) : [],
        };
    }

    /// <summary>The board of a build as wished and decided, and as known from all that was read.</summary>
    internal static (BoardFile File, Board Wished, BlankAreas Areas, KnownBuild Built) Known(LoggedBuild build, MaterialTables tables, Action<string, double>? progress = null)
    {
        BoardFile file = Wished(build, tables);
        Board wished = file.Board;
        var areas = BlankAreas.Of(wished, build.Start.Margin);
        return (file, wished, areas, OutlineSolving.Try(file, "modes", () => BuildEvidence.Of(wished, areas, build.Start.Margin, build.Readings, progress)));
    }

    /// <summary>The board of a build as wished and decided, with the share of adhesive that the shop's own bonds keep.</summary>
    internal static BoardFile Wished(LoggedBuild build, MaterialTables tables)
    {
        BoardFile file = BoardFiles.Parse(build.Start.File, build.Start.Text, tables);
        return file with { Board = file.Board with { Adhesive = file.Board.Adhesive with { KeptShare = KeptShares.Next(build.KeptShares, file.Board.Adhesive.KeptShare) } } };
    }

    /// <summary>Readings of a build, each judged by those of the stages before it and by the others of its own.</summary>
    internal static IReadOnlyList<JudgedRow> Judged(Board board, BlankAreas areas, IReadOnlyList<BuildReading> readings) => [.. readings.Select((r, i) =>
    {
        BuildReading[] before = [.. readings.Where((other, j) => j != i && other.Stage <= r.Stage)];
        JudgedReading j = BuildVerdicts.Of(new(board, areas, before), before, r);
        return new JudgedRow(BuildWords.Of(r.Stage), BuildWords.Of(r.Quantity), BuildWords.Unit(r.Quantity), r.Mean, r.Values, j.Expected, BuildWords.Of(j.Verdict), j.Reason);
    })];

    // The inner skins that are open, and what 0.05 mm of them does.
    private static (IReadOnlyList<InnerRow> Rows, IReadOnlyList<StepRow> Each) Inner(BuildOutlook outlook, BoardFile file, Board known, bool open, PlanWish wish, List<string> notes)
    {
        BoardFile with = file with { Board = known };
        IReadOnlyList<string> free = !open ? [] : wish.Free.Count > 0 ? wish.Free : [UsualInner];
        FreeField[] fields = [.. free.Select(f => FreeField.Read(f, file.Tables, new(wish.Pieces, wish.Stock is { } path ? ChoiceStock.Read(path, file.Tables) : [], file.Tables)))];
        FreeValue[] thicknesses = fields.FirstOrDefault(f => f.Field == BoardFields.Inner.Thickness)?.Values.ToArray() ?? [];
        if (open && wish.Free.Count == 0) { notes.Add($"inner skins of {UsualInner["inner.thickness ".Length..]} looked at; --free names others"); }
        (string Text, Board Board)[] woods = fields.FirstOrDefault(f => f.Field == BoardFields.Inner.Wood) is { } wood ? [.. wood.Values.Select(v => (v.Text, InWood(with, v.Text)))] : [("", known)];
        IReadOnlyList<InnerRow> rows = outlook.Inner(woods, thicknesses, wish.Modes);
        return (rows, thicknesses.Length > 1 ? BuildOutlook.Step(rows[0], rows[thicknesses.Length - 1], thicknesses[^1].Value!.Value - thicknesses[0].Value!.Value) : []);
    }

    // The board as it will lie on the bench then.
    private static IReadOnlyList<Prediction> Tones(BoardFile file, Board known, Board wished, BlankAreas areas, LoggedBuild build, BuildStage next, int count)
    {
        if (count == 0 || known.Shape is null || next < BuildStage.FirstBond) { return []; }
        Board then = next < BuildStage.SecondBond ? known with { Adhesive = BuiltBoard.FirstBond(wished, areas, build.Readings) } : known;
        return OutlineSolving.Try(file, "modes", () =>
        {
            Board bench = BoardOnBench.At(then, next, build.Start.Margin).ForModes();
            var frame = OutlineFrame.For(bench, count, new ChooseWish().Accuracy);
            return (IReadOnlyList<Prediction>)[.. frame.Frequencies(bench, frame.Own).Take(count)];
        });
    }

    private static Board InWood(BoardFile file, string wood)
    {
        Board other = BoardFiles.Parse(file.Path, BoardText.WithValue(file.Text, BoardFields.Inner.Wood.Table.Name, BoardFields.Inner.Wood.Key, wood), file.Tables).Board;
        return file.Board with { Inner = file.Board.Inner with { Wood = other.Inner.Wood } };
    }

    private static int? Best(IReadOnlyList<InnerRow> rows, double sure)
    {
        if (rows.Count == 0) { return null; }
        IEnumerable<int> all = Enumerable.Range(0, rows.Count), enough = all.Where(i => rows[i].Chance >= sure);
        return enough.Any() ? enough.MinBy(i => rows[i].Mass) : all.MaxBy(i => rows[i].Chance);
    }

    private static ExpectedRow Row(ExpectedReading e) => new(BuildWords.Of(e.Stage), BuildWords.Of(e.Quantity), e.Reading, [.. e.From.Select(p => new MassPartRow(p.Name, p.Value, p.Deviation))]);

    internal static BalanceRow Row(BondBalance b) => new(BuildWords.Of(b.Stage), b.Gain, b.WaterLost, b.Kept.Value, b.Kept.Deviation, b.Mixed, b.Share);
}
