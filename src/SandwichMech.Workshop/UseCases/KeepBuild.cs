using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Serialization;
using SandwichMech.Core.Building;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Pieces;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A board of the log.</summary>
public sealed record BoardRow(int Number, string Name, string Started, string? Reached, int Readings);

/// <summary>An entry of a board.</summary>
/// <param name="Entry">Its number.</param>
/// <param name="At">When what it says was read, local time.</param>
/// <param name="Stage">Of readings.</param>
/// <param name="What">What it says.</param>
/// <param name="AsTyped">As typed.</param>
/// <param name="Values">SI.</param>
/// <param name="Unit">Of the values.</param>
/// <param name="CorrectedBy">The entry that replaces or withdraws it.</param>
public sealed record BoardEntryRow(long Entry, string At, string? Stage, string What, string AsTyped, IReadOnlyList<double> Values, string Unit, long? CorrectedBy);

/// <summary>What `log show` answers: the newest boards or all, or one with its entries.</summary>
/// <param name="Log">The log.</param>
/// <param name="Boards">Boards, by number.</param>
/// <param name="Entries">Of one board.</param>
/// <param name="More">How many older boards there are.</param>
public sealed record BuildsResult(string Log, IReadOnlyList<BoardRow> Boards, IReadOnlyList<BoardEntryRow> Entries, int More);

/// <summary>What `log start`, `add`, `correct`, `note` and `attach` answer.</summary>
/// <param name="Board">The board's number.</param>
/// <param name="Name">Its name.</param>
/// <param name="Entries">Numbers of the entries that were written.</param>
/// <param name="Readings">Of those, what each reading means.</param>
/// <param name="Bonds">What the bonds kept, once they were weighed.</param>
/// <param name="Next">What comes next.</param>
public sealed record BuildChanged(
    int Board, string Name, IReadOnlyList<long> Entries, IReadOnlyList<JudgedRow> Readings, IReadOnlyList<BalanceRow> Bonds, string? Next);

/// <summary>What `log check` answers.</summary>
public sealed record CheckResult(string Log, int Pieces, int Boards, long Entries, int Attachments, IReadOnlyList<string> Checked, [property: JsonPropertyName("wrong")] IReadOnlyList<string> Wrong);

/// <summary>Builds in the log: begun, added to, corrected, shown, checked.</summary>
public static class KeepBuild
{
    /// <summary>How many boards `log show` lists without --all.</summary>
    public const int NewestShown = 20;

    /// <summary>Begins a build.</summary>
    /// <param name="log">The log.</param>
    /// <param name="path">The board file.</param>
    /// <param name="tables">Where its materials are looked up.</param>
    /// <param name="margin">Of the blank, m.</param>
    /// <param name="targets">What the board has to reach, as typed.</param>
    /// <returns>The board's number.</returns>
    public static BuildChanged Start(ShopLog log, string path, MaterialTables tables, double margin, IReadOnlyList<string> targets)
    {
        BoardFile file = BoardFiles.Read(path, tables);
        foreach (string target in targets) { CheckTarget(target); }
        if (margin > 0 && file.Board is { Shape: null, Size: not { Length: not null, Width: not null } })
        {
            throw new InputException("--margin", "needs the board's length and width, or its outline: add size.length and size.width to the board file, or leave --margin out");
        }

        string hash = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(file.Text)));
        LoggedBoard board = log.StartBoard(new(file.Board.Name, path, file.Text, hash, margin, targets));
        Predict(log, board, tables, BuildStage.Skins);
        return Changed(log, board, tables, []);
    }

    /// <summary>Sees whether a target can be meant.</summary>
    /// <param name="typed">As typed.</param>
    /// <exception cref="InputException">It cannot.</exception>
    public static void CheckTarget(string typed) => _ = Choices.TypedTarget.Read(typed);

    /// <summary>Adds readings of a stage: all of them or none.</summary>
    /// <param name="log">The log.</param>
    /// <param name="number">The board.</param>
    /// <param name="stage">As typed.</param>
    /// <param name="readings">As typed.</param>
    /// <param name="tables">Where materials are looked up.</param>
    /// <param name="at">When they were read.</param>
    /// <returns>What each means.</returns>
    public static BuildChanged Add(ShopLog log, int number, string stage, IReadOnlyList<string> readings, MaterialTables tables, DateTimeOffset? at = null)
    {
        LoggedBoard board = Decided(log, number);
        BuildStage when = TypedBuild.Stage(stage);
        if (readings.Count == 0) { throw new InputException("reading", $"nothing to write down: {string.Join("; ", BuildWords.ToRead(when))}"); }
        TypedBuildReading[] typed = [.. readings.SelectMany(r => TypedBuild.Read(when, r))];
        CheckOrder(log, number, when, typed);
        CheckSupports(board, when, typed, tables);
        IReadOnlyList<LogEntry> entries = log.AddBuild(number, typed, at);
        // What is not read yet of this stage too: an inner skin that was weighed tells what the bond will weigh.
        Predict(log, board, tables, when);
        if (when < BuildStage.Strung) { Predict(log, board, tables, when + 1); }
        return Changed(log, board, tables, [.. entries.Select(e => e.Number)]);
    }

    /// <summary>Puts an entry right, or takes it back.</summary>
    /// <param name="log">The log.</param>
    /// <param name="number">The board.</param>
    /// <param name="entry">The entry.</param>
    /// <param name="reading">What it should have been; nothing to take it back.</param>
    /// <param name="why">Why.</param>
    /// <param name="tables">Where materials are looked up.</param>
    /// <returns>What it means now.</returns>
    public static BuildChanged Correct(ShopLog log, int number, long entry, string? reading, string why, MaterialTables tables)
    {
        LoggedBoard board = Decided(log, number);
        if (reading is null)
        {
            return new(number, board.Start.Name, [log.WithdrawOfBoard(number, entry, why).Number], [], [], null);
        }

        BuildStage stage = log.BoardEntries(number).FirstOrDefault(e => e.Number == entry)?.Built?.Stage
            ?? throw new InputException("entry", string.Create(CultureInfo.InvariantCulture, $"board {number} has no reading of the number {entry}: `sandwichmech log show {number}` lists them"));
        TypedBuildReading typed = TypedBuild.Read(stage, reading) is [var one] ? one : throw new InputException("reading", $"'{reading}' is two readings: correct one at a time, as \"witness 127.2 g\"");
        LogEntry written = log.CorrectBuild(number, entry, typed);
        return Changed(log, board, tables, [written.Number]);
    }

    /// <summary>Keeps what was decided while it was open: from then on the board is planned so.</summary>
    /// <param name="log">The log.</param>
    /// <param name="number">The board.</param>
    /// <param name="fields">Each a field of the board file and its value, as "inner.thickness 0.55 mm".</param>
    /// <param name="tables">Where materials are looked up.</param>
    /// <returns>The entries.</returns>
    /// <exception cref="InputException">A field is bonded already, or its value cannot be read.</exception>
    public static BuildChanged Decide(ShopLog log, int number, IReadOnlyList<string> fields, MaterialTables tables)
    {
        LoggedBoard board = Decided(log, number);
        BuildStage? reached = log.BuildReadings(number).Select(e => (BuildStage?)e.Built!.Stage).Max();
        string text = board.Start.Text;
        foreach (string typed in fields)
        {
            (BoardField field, string value) = BuildDecisions.Read(typed);
            if (!BuildDecisions.IsOpen(field, reached)) { throw BuildDecisions.Closed(field, reached); }
            if (FieldReader.Read(field, value, tables).Problem is { } problem) { throw new InputException(field.Name, $"{problem}; nothing was written"); }
            text = BoardText.WithValue(text, field.Table.Name, field.Key, value);
        }

        // The whole board has to be possible with it.
        _ = BoardFiles.Parse(board.Start.File, text, tables);
        IReadOnlyList<LogEntry> entries = log.AddDecisions(number, fields);
        if (reached < BuildStage.Strung) { Predict(log, Decided(log, number), tables, reached.Value + 1); }
        return Changed(log, Decided(log, number), tables, [.. entries.Select(e => e.Number)]);
    }

    /// <summary>The newest boards or all of them, or one with its entries.</summary>
    /// <param name="log">The log.</param>
    /// <param name="number">A board; nothing for many.</param>
    /// <param name="all">All boards, not only the newest.</param>
    /// <returns>Rows.</returns>
    public static BuildsResult Show(ShopLog log, int? number, bool all = false)
    {
        IReadOnlyList<LoggedBoard> boards = number is { } n ? [log.Board(n)] : all ? log.Boards() : log.NewestBoards(NewestShown);
        return new(log.File, [.. boards.Select(b => Row(log, b))], [.. (number is { } one ? log.BoardEntries(one) : []).Select(Row)],
            number is null && !all ? log.CountBoards() - boards.Count : 0);
    }

    /// <summary>A build as its log has it.</summary>
    /// <param name="log">The log.</param>
    /// <param name="number">The board.</param>
    /// <param name="tables">Where materials are looked up.</param>
    /// <returns>The build, with the shares that the shop's other bonds kept.</returns>
    public static LoggedBuild Build(ShopLog log, int number, MaterialTables tables)
    {
        LoggedBoard board = Decided(log, number);
        return new(number, board.Start, Readings(log, number), ShopBonds.Shares(log, tables, number), log.Board(number).Start.Text);
    }

    /// <summary>A build as a board file: as decided, and known from all that was read.</summary>
    /// <param name="log">The log.</param>
    /// <param name="number">The board.</param>
    /// <param name="tables">Where materials are looked up.</param>
    /// <returns>What takes a board file takes it.</returns>
    public static BoardFile Known(ShopLog log, int number, MaterialTables tables)
    {
        LoggedBuild build = Build(log, number, tables);
        (BoardFile file, _, _, KnownBuild known) = PlanBoard.Known(build, tables);
        string until = build.Readings.Count == 0 ? "nothing was read of it yet" : $"as known after '{BuildWords.Of(build.Readings.Max(r => r.Stage))}'";
        return file with { Board = known.Board, ReadBack = [string.Create(CultureInfo.InvariantCulture, $"board {number} of the log, {until}"), .. file.ReadBack] };
    }

    /// <summary>A build as it is to be bonded: as decided, with the share that the shop's own bonds keep, and its blank's margin.</summary>
    /// <param name="log">The log.</param>
    /// <param name="number">The board.</param>
    /// <param name="tables">Where materials are looked up.</param>
    /// <returns>The board file, and the margin, m.</returns>
    public static (BoardFile File, double Margin) ToBond(ShopLog log, int number, MaterialTables tables)
    {
        LoggedBuild build = Build(log, number, tables);
        return (PlanBoard.Wished(build, tables), build.Start.Margin);
    }

    /// <summary>Proves that the log is whole.</summary>
    /// <param name="log">The log.</param>
    /// <param name="progress">Told what is being checked, and the share of that which is done.</param>
    /// <returns>What was checked, and what is wrong.</returns>
    public static CheckResult Check(ShopLog log, Action<string, double>? progress = null)
    {
        if (!File.Exists(log.File)) { throw new InputException(log.File, "there is no log yet, so there is nothing to check: `sandwichmech piece add` or `sandwichmech log start` begins one"); }
        var wrong = new List<string>();
        progress?.Invoke("pages of the database", 0);
        Ask("PRAGMA integrity_check", answers => answers.Where(a => a != "ok"));
        progress?.Invoke("pages of the database", 1);
        All("SELECT \"table\" || ' row ' || rowid || ' points at nothing' FROM pragma_foreign_key_check");
        All("SELECT 'piece ' || number || ' has no entry' FROM pieces WHERE number NOT IN (SELECT piece FROM entries WHERE piece IS NOT NULL)");
        All("SELECT 'board ' || number || ' has no entry' FROM boards WHERE number NOT IN (SELECT board FROM entries WHERE board IS NOT NULL)");
        progress?.Invoke("pointers and guards", 0.5);
        Ask("SELECT name FROM sqlite_master WHERE type = 'trigger' ORDER BY name", there => LogFile.Triggers.Except(there).Select(t => $"the guard {t} is missing: entries could be changed"));
        Ask(LogFile.MakersOf, there => there.Except(LogFile.Makers()).Select(m => $"{m.Split(' ')[0]} is not as this version makes it"));
        All("SELECT 'entry ' || number || ' is missing before it' FROM (SELECT number, lag(number, 1, 0) OVER (ORDER BY number) AS before FROM entries) WHERE number <> before + 1");
        All("SELECT 'entry ' || number || ' was written before the one before it' FROM (SELECT number, recorded_utc, lag(recorded_utc) OVER (ORDER BY number) AS before FROM entries) WHERE recorded_utc < before");
        long entries = 0;
        int attachments = 0;
        (int pieces, int boards) = (0, 0);
        Try(() =>
        {
            (pieces, boards) = (log.AllPieces().Count, log.AllBoards().Count);
            long all = Math.Max(1, log.Entries());
            log.Each(
                e =>
                {
                    if (++entries % ReportEvery == 0) { progress?.Invoke("entries", Math.Min(1, (double)entries / all)); }
                    if (e.Attached is not { } file) { return; }
                    attachments++;
                    string kept = log.AttachmentPath(file.Sha256);
                    if (!File.Exists(kept)) { wrong.Add($"{file.Name} (entry {e.Number}) is not there: {kept}"); }
                    else if (!AttachedFiles.IsWhole(kept, file.Sha256)) { wrong.Add($"{file.Name} (entry {e.Number}) was changed since: {kept}"); }
                },
                problem =>
                {
                    entries++;
                    wrong.Add(problem);
                });
        });
        return new(log.File, pieces, boards, entries, attachments,
            ["the database page by page", "every pointer between entries, pieces and boards", "the guards that keep it append-only", "numbers without gaps, times in order", "every entry reads as what it says it is, and as it was written, by its sum", "every attached file, by its hash"],
            [.. wrong.Distinct()]);

        void All(string sql) => Ask(sql, answers => answers);

        void Ask(string sql, Func<IReadOnlyList<string>, IEnumerable<string>> faults) => Try(() => wrong.AddRange(faults(log.Ask(sql))));

        // A question that trips over damage is an answer too, and the next one is still asked.
        void Try(Action ask)
        {
            try
            {
                ask();
            }
            catch (Exception e) when (e is InputException or IOException)
            {
                wrong.Add(e is InputException { Problems: [var first, ..] } ? first.ToString() : e.Message);
            }
        }
    }

    private const int ReportEvery = 10_000;

    // The board as it began, with all that was decided since.
    internal static LoggedBoard Decided(ShopLog log, int number) => Decided(log.Board(number), log.BoardEntries(number));

    internal static LoggedBoard Decided(LoggedBoard board, IReadOnlyList<LogEntry> entries)
    {
        string text = entries.Where(e => e.Kind == EntryKind.Decision && e.CorrectedBy is null).Select(e => BuildDecisions.Read(e.AsTyped))
            .Aggregate(board.Start.Text, (t, d) => BoardText.WithValue(t, d.Field.Table.Name, d.Field.Key, d.Value));
        return board with { Start = board.Start with { Text = text } };
    }

    private static BuildReading[] Readings(ShopLog log, int number) => [.. log.BuildReadings(number).Select(e => e.Built!)];

    // The board file is read only where something was not weighed: of a hundred bonds that would take seconds.
    internal static BuildMasses Masses(LoggedBoard board, IReadOnlyList<BuildReading> readings, MaterialTables tables) => new(
        new Lazy<(Core.Layups.Board, BlankAreas)>(() =>
        {
            BoardFile file = BoardFiles.Parse(board.Start.File, board.Start.Text, tables);
            return (file.Board, BlankAreas.Of(file.Board, board.Start.Margin));
        }),
        readings);

    // What is expected next is kept as it was said, with the version that said it.
    private static void Predict(ShopLog log, LoggedBoard board, MaterialTables tables, BuildStage stage)
    {
        string version = typeof(KeepBuild).Assembly.GetName().Version?.ToString(3) ?? "";
        IReadOnlyList<LogEntry> entries = log.BoardEntries(board.Number);
        BuildReading[] read = [.. ShopLog.InForceReadings(entries).Select(e => e.Built!)];
        BuildMasses masses = Masses(board, read, tables);
        GivenPrediction[] given = [.. masses.Expected(stage).Concat(masses.Thicknesses(stage))
            .Where(e => !read.Any(r => r.Stage == stage && r.Quantity == e.Quantity))
            .Select(e => new GivenPrediction(e.Stage, BuildWords.Of(e.Quantity), BuildWords.Unit(e.Quantity), e.Reading.Value, e.Reading.Low90, e.Reading.High90, version))
            .Where(g => entries.LastOrDefault(e => e.Given is { } said && said.Stage == g.Stage && said.Figure == g.Figure)?.Given != g)];
        if (given.Length > 0) { log.AddPredictions(board.Number, given); }
    }

    private static void CheckOrder(ShopLog log, int number, BuildStage stage, TypedBuildReading[] typed)
    {
        // The inner skin is the last choice: it is weighed and measured when it is made.
        bool inner = typed.All(t => t.Reading.Quantity is BuildQuantity.InnerMass or BuildQuantity.InnerThickness);
        if (log.BuildReadings(number).Select(e => (BuildStage?)e.Built!.Stage).Max() is { } reached && stage < reached - 1 && !(inner && reached < BuildStage.SecondBond))
        {
            throw new InputException(string.Create(CultureInfo.InvariantCulture, $"board {number}"), $"'{BuildWords.Of(stage)}' comes before '{BuildWords.Of(reached)}', which was read already, and nothing was written: give the stage that it was read at, or `sandwichmech log correct` what is wrong");
        }
    }

    private static void CheckSupports(LoggedBoard board, BuildStage stage, IEnumerable<TypedBuildReading> typed, MaterialTables tables)
    {
        TypedBuildReading[] bent = [.. typed.Where(t => t.Reading.Bending is not null)];
        if (bent.Length == 0) { return; }
        BoardFile file = BoardFiles.Parse(board.Start.File, board.Start.Text, tables);
        if (file.Board.Shape is null) { throw new InputException("reading", $"'{bent[0].AsTyped}': a board's bending needs its outline, which its board file does not give; nothing was written"); }
        Core.Outlines.Box blank = OutlineSolving.Try(file, "outline", () => BoardOnBench.At(file.Board, stage, board.Start.Margin)).Shape!.Outline.Bounds();
        foreach (TypedBuildReading t in bent)
        {
            double size = t.Reading.Bending!.Across ? blank.MaxY - blank.MinY : blank.MaxX - blank.MinX;
            if (t.Reading.Bending.Span.Value >= size)
            {
                throw new InputException("reading", $"'{t.AsTyped}': the supports lie farther apart than the board is {(t.Reading.Bending.Across ? "wide" : "long")}, {Units.Display.Text(size, Units.Shown.Length, Units.UnitSystem.Metric)}; nothing was written");
            }
        }
    }

    private static BuildChanged Changed(ShopLog log, LoggedBoard board, MaterialTables tables, IReadOnlyList<long> entries)
    {
        IReadOnlyList<LogEntry> inForce = log.BuildReadings(board.Number);
        BuildReading[] readings = [.. inForce.Select(e => e.Built!)];
        BoardFile file = BoardFiles.Parse(board.Start.File, board.Start.Text, tables);
        var areas = BlankAreas.Of(file.Board, board.Start.Margin);
        IReadOnlyList<JudgedRow> judged = PlanBoard.Judged(file.Board, areas, readings);
        var masses = new BuildMasses(file.Board, areas, readings);
        return new(board.Number, board.Start.Name, entries, [.. judged.Where((_, i) => entries.Contains(inForce[i].Number))],
            [.. new[] { BuildStage.FirstBond, BuildStage.SecondBond }.Select(masses.Balance).OfType<BondBalance>().Select(PlanBoard.Row)],
            readings.Length == 0 ? BuildWords.Of(BuildStage.Skins) : readings.Max(r => r.Stage) is var reached && reached < BuildStage.Strung ? BuildWords.Of(reached + 1) : null);
    }

    private static BoardRow Row(ShopLog log, LoggedBoard b)
    {
        IReadOnlyList<StageCount> stages = log.CountStages(b.Number);
        return new(b.Number, b.Start.Name, Local(b.At), stages.Count == 0 ? null : BuildWords.Of(stages.Max(s => s.Stage)), stages.Sum(s => s.Readings));
    }

    private static BoardEntryRow Row(LogEntry e) => new(
        e.Number, Local(e.At), e.Built is { } b ? BuildWords.Of(b.Stage) : e.Given is { } g ? BuildWords.Of(g.Stage) : null,
        e.Built is { } r ? BuildWords.Of(r.Quantity) : e.Given is { } p ? $"expected: {p.Figure}" : e.Attached is { } a ? $"file {a.Name}" : e.Start is { } s ? $"begun with {s.File}" : e.Kind == EntryKind.Decision ? "decided" : e.Kind,
        e.AsTyped, e.Built?.Values ?? (e.Given is { } v ? [v.Low90, v.Value, v.High90] : []), e.Built is { } u ? BuildWords.Unit(u.Quantity) : e.Given?.Unit ?? "", e.CorrectedBy);

    internal static string Local(DateTimeOffset time) => time.ToLocalTime().ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
