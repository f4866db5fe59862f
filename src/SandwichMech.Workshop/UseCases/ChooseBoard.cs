using System.Globalization;
using System.Text.Json.Serialization;
using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Choices;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A field of the board file as chosen.</summary>
/// <param name="Field">"outer.thickness".</param>
/// <param name="Value">As it stands, or would stand, in the file.</param>
public sealed record ChosenField(string Field, string Value);

/// <summary>How a board stands to a target.</summary>
/// <param name="Target">"along at least 1 solid".</param>
/// <param name="Unit">Of the figure: "N·m", "kg", "Hz" and so on, "solid" for times the solid top's, empty for a plain number.</param>
/// <param name="Figure">In that unit.</param>
/// <param name="Chance">Chance of this target alone; of an 'equal', to fall within its tolerance.</param>
public sealed record OutcomeRow(string Target, string Unit, Prediction Figure, double Chance);

/// <summary>A board that was looked at.</summary>
/// <param name="Fields">Its free fields.</param>
/// <param name="Mass">kg on the board's area, at the medians.</param>
/// <param name="Chance">Chance that all bounds hold together.</param>
/// <param name="Outcomes">One a target.</param>
/// <param name="Solved">Whether its own plate was solved; false where figures are told from a solved board near it.</param>
/// <param name="Price">In the maker's money, where the stock file tells it of all parts.</param>
/// <param name="Hours">Of work, likewise.</param>
public sealed record ChosenRow(
    IReadOnlyList<ChosenField> Fields,
    [property: JsonPropertyName("mass_kg")] double Mass,
    double Chance,
    IReadOnlyList<OutcomeRow> Outcomes,
    bool Solved,
    double? Price,
    double? Hours);

/// <summary>A board of the front between mass and stiffness.</summary>
/// <param name="Fields">Its free fields.</param>
/// <param name="Mass">kg.</param>
/// <param name="Stiffness">N·m, at the median.</param>
/// <param name="Chance">Chance that all bounds hold together, whatever 'equal' asks for.</param>
/// <param name="LevelChange">How much louder than the chosen board it is by the way of its layup, dB.</param>
public sealed record FrontRow(
    IReadOnlyList<ChosenField> Fields,
    [property: JsonPropertyName("mass_kg")] double Mass,
    [property: JsonPropertyName("bending_stiffness_n_m")] double Stiffness,
    double Chance,
    [property: JsonPropertyName("level_change_db")] double LevelChange);

/// <summary>A target that stands in the way.</summary>
/// <param name="Target">As asked.</param>
/// <param name="Instead">What of it the others allow: "along at least 0.87 solid".</param>
/// <param name="With">With which board.</param>
public sealed record ObstacleRow(string Target, string Instead, ChosenRow With);

/// <summary>What one thickness does.</summary>
/// <param name="Part">"outer skin", "core", "inner skin".</param>
/// <param name="Tolerance">Half width of its limits, m.</param>
/// <param name="Changes">Relative change of each target's figure (of a level, dB) for 0.05 mm more.</param>
/// <param name="Shares">Its share of each figure's variance.</param>
public sealed record ThicknessRow(string Part, [property: JsonPropertyName("tolerance_m")] double Tolerance, IReadOnlyList<double> Changes, IReadOnlyList<double> Shares);

/// <summary>A part to be cut.</summary>
/// <param name="Part">"outer skin".</param>
/// <param name="Material">Of what.</param>
/// <param name="Thickness">m.</param>
/// <param name="Tolerance">Half width of its limits, m.</param>
/// <param name="Mass">kg on the board's area, without margin.</param>
/// <param name="Note">Ribbon, grain; empty where there is nothing to say.</param>
public sealed record CutRow(
    string Part, string Material, [property: JsonPropertyName("thickness_m")] double Thickness, [property: JsonPropertyName("tolerance_m")] double Tolerance,
    [property: JsonPropertyName("mass_kg")] double Mass, string Note);

/// <summary>What `choose` answers.</summary>
public sealed record ChooseResult
{
    /// <summary>The board's name.</summary>
    public required string Board { get; init; }
    /// <summary>What was asked for.</summary>
    public required IReadOnlyList<string> Targets { get; init; }
    /// <summary>Chance with which all bounds have to hold together.</summary>
    public required double Sure { get; init; }
    /// <summary>How the answer is meant.</summary>
    public required string Means { get; init; }
    /// <summary>Boards that there were to choose among.</summary>
    public required int Boards { get; init; }
    /// <summary>Plates that were solved for it.</summary>
    public required int Solves { get; init; }
    /// <summary>Seed of the draws.</summary>
    public required int Seed { get; init; }
    /// <summary>The lightest board that meets all; nothing where none does.</summary>
    public required ChosenRow? Best { get; init; }
    /// <summary>Layers to be cut for it; empty without one.</summary>
    public required IReadOnlyList<CutRow> CutList { get; init; }
    /// <summary>The lightest of other kinds.</summary>
    public required IReadOnlyList<ChosenRow> Others { get; init; }
    /// <summary>What is traded for mass: "bending stiffness along".</summary>
    public required string Traded { get; init; }
    /// <summary>That of the chosen board, N·m; nothing without one.</summary>
    [JsonPropertyName("chosen_bending_stiffness_n_m")] public required double? ChosenStiffness { get; init; }
    /// <summary>That of the solid top, N·m, and its mass, kg; nothing without a thickness.</summary>
    [JsonPropertyName("solid_bending_stiffness_n_m")] public required double? SolidStiffness { get; init; }
    /// <summary>Mass of the solid top, kg.</summary>
    [JsonPropertyName("solid_mass_kg")] public required double? SolidMass { get; init; }
    /// <summary>Boards than which none is both lighter and stiffer.</summary>
    public required IReadOnlyList<FrontRow> Front { get; init; }
    /// <summary>Which thickness matters how much.</summary>
    public required IReadOnlyList<ThicknessRow> Thicknesses { get; init; }
    /// <summary>Widest sanding limits of both skins that the targets allow, m; 0 where not even exact skins are sure enough; nothing where none of those looked at matters, or without a board.</summary>
    [JsonPropertyName("sanding_allowed_m")] public required double? SandingAllowed { get; init; }
    /// <summary>Sanding limits were looked at up to here, m; nothing without a board.</summary>
    [JsonPropertyName("sanding_looked_at_m")] public required double? SandingLooked { get; init; }
    /// <summary>Chance with exact skins; nothing without a board.</summary>
    public required double? ChanceIfExact { get; init; }
    /// <summary>Where none meets all: what would have to give way, the least first.</summary>
    public required IReadOnlyList<ObstacleRow> Obstacles { get; init; }
    /// <summary>Where none meets all: the board that is likeliest to.</summary>
    public required ChosenRow? Nearest { get; init; }
    /// <summary>The board file that took the choice; nothing where it was not asked to.</summary>
    public string? Adopted { get; init; }
    /// <summary>What is unusual in the board file.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
    /// <summary>What was taken without being typed.</summary>
    public required IReadOnlyList<string> ReadBack { get; init; }
}

/// <summary>What is asked of `choose`.</summary>
public sealed record ChooseWish
{
    /// <summary>Targets as typed.</summary>
    public IReadOnlyList<string> Targets { get; init; } = [];
    /// <summary>Free fields as typed.</summary>
    public IReadOnlyList<string> Free { get; init; } = [];
    /// <summary>Chance with which all bounds have to hold together.</summary>
    public double Sure { get; init; } = UsualSure;
    /// <summary>Half width of both skins' limits, m.</summary>
    public double? Sand { get; init; }
    /// <summary>A stock file.</summary>
    public string? Stock { get; init; }
    /// <summary>Numbers of the log's pieces.</summary>
    public Func<IReadOnlyList<int>> Pieces { get; init; } = () => [];
    /// <summary>What other kinds are ranked by.</summary>
    public ChoiceRank Rank { get; init; }
    /// <summary>Seed of the draws.</summary>
    public int Seed { get; init; }
    /// <summary>Numerical error of frequencies.</summary>
    public double Accuracy { get; init; } = 3e-3;
    /// <summary>In which words are written.</summary>
    public UnitSystem Units { get; init; }

    /// <summary>Chance unless another is wanted.</summary>
    public const double UsualSure = 0.9;
}

/// <summary>What kinds of board are ranked by.</summary>
public enum ChoiceRank
{
    /// <summary>Mass.</summary>
    Mass,
    /// <summary>Price of all parts.</summary>
    Price,
    /// <summary>Hours of all parts.</summary>
    Hours,
}

/// <summary>Chooses the lightest board that meets its targets.</summary>
public static class ChooseBoard
{
    /// <summary>Chooses.</summary>
    /// <param name="file">The board as read: all that is not free is as it says.</param>
    /// <param name="wish">Targets and what is free.</param>
    /// <param name="progress">Told in words what is done, and its share.</param>
    /// <returns>The best board, or what stands in the way.</returns>
    /// <exception cref="InputException">Targets or free fields that cannot be used.</exception>
    public static ChooseResult Run(BoardFile file, ChooseWish wish, Action<string, double>? progress = null)
    {
        var taken = new List<string>();
        var stock = new ChoiceStock(wish.Pieces, wish.Stock is { } path ? ChoiceStock.Read(path, file.Tables) : [], file.Tables);
        ChoiceTarget[] targets = [.. Typed(file, wish, taken).Select(TypedTarget.Read)];
        IReadOnlyList<BoardKind> kinds = BoardKinds.Of(file, wish.Free, stock, wish.Sand, taken);
        ChoiceChecks.Of(file, targets, kinds, wish.Units);
        var plate = new PlateWish(
            shape => OutlineSolving.Bridge(shape) is { } foot ? new(PlatePush.Deflect, foot.Border[0]) : null,
            board => MarginsBoard.Limits(file with { Board = board }), wish.Accuracy);
        Choice choice = OutlineSolving.Try(file, "boards", () => Choose.Among(
            new() { Variants = [.. kinds.Select(k => k.Variant)], Targets = targets, Sure = wish.Sure, Seed = wish.Seed, Plate = plate }, progress));
        ChoiceFigure traded = Choose.Traded(targets);
        Laminate? solid = file.Board.Solid.Thickness is { } h ? Board.SolidPlate(file.Board.UnderWeight().Solid.Wood, h.Value) : null;
        return new()
        {
            Board = file.Board.Name,
            Targets = [.. targets.Select(t => TypedTarget.Words(t, wish.Units))],
            Sure = wish.Sure,
            Means = Means(wish, targets),
            Boards = choice.Boards,
            Solves = choice.Solves,
            Seed = wish.Seed,
            Best = choice.Best is { } best ? Row(best) : null,
            CutList = choice.Best is { } cut ? Cut(cut.Board) : [],
            Others = Ranked([.. choice.Others.Select(Row)], wish.Rank),
            Traded = TypedTarget.Means(new(traded)),
            ChosenStiffness = choice.Best is { } c ? Choose.Traded(c.Board.UnderWeight().Laminate(), traded) : null,
            SolidStiffness = solid is null ? null : Choose.Traded(solid, traded),
            SolidMass = solid?.ArealMass * file.Board.Size.Area,
            Front = [.. choice.Front.Select(p => new FrontRow(Fields(p.Board), p.Mass, p.Stiffness, p.Chance, p.Level))],
            Thicknesses = [.. choice.Tolerances?.Thicknesses.Select(t => new ThicknessRow(t.Name.Replace(" thickness", "", StringComparison.Ordinal).Replace(" height", "", StringComparison.Ordinal), t.Tolerance, t.Changes, t.Shares)) ?? []],
            SandingAllowed = choice.Tolerances?.Allowed,
            SandingLooked = choice.Tolerances?.Looked,
            ChanceIfExact = choice.Tolerances?.ChanceIfExact,
            Obstacles = [.. choice.Obstacles.Select(o => new ObstacleRow(TypedTarget.Words(targets[o.Target], wish.Units), Instead(targets[o.Target], o, wish.Units), Row(o.With)))],
            Nearest = choice.Nearest is { } near ? Row(near) : null,
            Warnings = [.. file.Warnings.Select(w => w.ToString())],
            ReadBack = [.. taken, .. file.ReadBack],
        };

        ChosenField[] Fields(ChosenBoard b)
        {
            BoardKind kind = kinds[b.At.Variant];
            return
            [
                .. kind.Fields.Select(f => new ChosenField(f.Field.Name, f.Text)),
                .. IsFree(BoardFields.Outer.Thickness) ? [new(BoardFields.Outer.Thickness.Name, kind.Outer[b.At.Outer].Text)] : Array.Empty<ChosenField>(),
                .. IsFree(BoardFields.Inner.Thickness) ? [new(BoardFields.Inner.Thickness.Name, kind.Inner[b.At.Inner].Text)] : Array.Empty<ChosenField>(),
            ];
        }

        bool IsFree(BoardField field) => wish.Free.Count == 0 || wish.Free.Any(f => f.TrimStart().StartsWith(field.Name + " ", StringComparison.Ordinal));

        ChosenRow Row(ChosenBoard b)
        {
            StockRow?[] rows = [stock.Row(b.Board.Outer.Wood.Name), stock.Row(b.Board.Inner.Wood.Name), stock.Row(b.Board.Core.Material.Name, b.Board.Core.Height.Value)];
            return new(Fields(b), b.Mass, b.Chance, [.. b.Outcomes.Select(o => new OutcomeRow(TypedTarget.Words(o.Target, wish.Units), TypedTarget.Unit(o.Target), o.Figure, o.Chance))], b.Solved,
                rows.All(r => r?.Price is not null) ? rows.Sum(r => r!.Price) : null, rows.All(r => r?.Hours is not null) ? rows.Sum(r => r!.Hours) : null);
        }
    }

    /// <summary>Writes a choice into its board file; comments, layout and all else stay, the spread typed behind a thickness too.</summary>
    /// <param name="file">The board file.</param>
    /// <param name="result">The choice.</param>
    /// <param name="sand">The skins' limits as typed, "± 0.05 mm"; nothing: those of the file stay.</param>
    /// <returns>The result, adopted.</returns>
    /// <exception cref="InputException">Nothing was chosen, or the file cannot be written.</exception>
    public static ChooseResult Adopt(BoardFile file, ChooseResult result, string? sand)
    {
        if (result.Best is not { } best) { throw new InputException("--adopt", "no board meets all targets, so nothing was written: loosen what stands in the way, or leave --adopt out to see it"); }
        string text = best.Fields.Aggregate(file.Text, (t, f) =>
        {
            BoardField field = BoardFields.Named(f.Field)!;
            string? spread = FreeField.IsSkin(field) && sand is not null ? sand : field.Kind is TypedKind { TakesSpread: true } ? BoardText.SpreadOf(t, field) : null;
            return BoardText.WithValue(t, field.Table.Name, field.Key, spread is null ? f.Value : $"{f.Value} {spread}");
        });
        BoardFiles.Replace(file.Path, text);
        return result with { Adopted = file.Path };
    }

    /// <summary>A figure of an outcome in the units that are shown.</summary>
    /// <param name="unit">Its unit (<see cref="OutcomeRow.Unit"/>).</param>
    /// <param name="value">The figure.</param>
    /// <param name="units">Metric or inch.</param>
    /// <returns>The number and its unit.</returns>
    public static (string Number, string Unit) Figure(string unit, double value, UnitSystem units) => TypedTarget.Shown(unit, value, units);

    /// <summary>Reads the limits that skins are sanded to.</summary>
    /// <param name="typed">"± 0.05 mm".</param>
    /// <returns>Half their width, m.</returns>
    /// <exception cref="InputException">They cannot be read.</exception>
    public static double Limits(string typed)
    {
        const string howTo = "write the limits that you sand to, as \"± 0.05 mm\" or \"± 2 thou\"";
        if (!typed.TrimStart().StartsWith('±') && !typed.TrimStart().StartsWith('+')) { throw new InputException("--sand", $"'{typed}' does not begin with ±: {howTo}"); }
        ReadResult read = TypedValues.Read($"1 m {typed}", Dimension.Length);
        return read.Value is { StandardDeviation: > 0 } value ? value.StandardDeviation * Math.Sqrt(3) : throw new InputException("--sand", $"'{typed}': {howTo}");
    }

    private static IReadOnlyList<string> Typed(BoardFile file, ChooseWish wish, List<string> taken)
    {
        if (wish.Targets.Count > 0) { return wish.Targets; }
        if (file.Board.Solid.Thickness is null) { throw new InputException("--target", $"says what the board has to reach; {TypedTarget.HowToWrite}"); }
        taken.Add("no target given: as stiff along as the solid top of the board file ('along at least solid')");
        return ["along at least solid"];
    }

    private static string Means(ChooseWish wish, ChoiceTarget[] targets) => string.Create(CultureInfo.InvariantCulture,
        $"the lightest board whose bounds all hold together with a chance of at least {wish.Sure * 100:0.#} % under the spreads of materials, adhesive and thickness{(targets.Any(t => t.NeedsPlate) ? " and of the model" : "")}")
        + (targets.Any(t => t.Aim is not null) ? "; 'equal' holds at the median, and the chance beside it is that of falling within its tolerance" : "");

    private static IReadOnlyList<ChosenRow> Ranked(IReadOnlyList<ChosenRow> rows, ChoiceRank rank) => rank switch
    {
        ChoiceRank.Price => [.. rows.OrderBy(r => r.Price ?? double.MaxValue)],
        ChoiceRank.Hours => [.. rows.OrderBy(r => r.Hours ?? double.MaxValue)],
        _ => rows,
    };

    private static string Instead(ChoiceTarget target, Obstacle o, UnitSystem units) => TypedTarget.Words(
        target.Aim is not null ? target with { Aim = o.Bound } : o.IsLeast ? target with { Least = o.Bound, Most = target.Most } : target with { Most = o.Bound, Least = target.Least }, units);

    private static CutRow[] Cut(Board board)
    {
        double area = board.Size.Area;
        CutRow Skin(string part, Skin s) => new(part, s.Wood.Name, s.Thickness.Value, Limits(s.Thickness), s.Wood.Density.Value * s.Thickness.Value * area, s.GrainAngle == 0 ? "" : $"grain {Display.Text(s.GrainAngle, Shown.Angle, UnitSystem.Metric)} to the length");
        CoreSheet core = board.Core;
        return
        [
            Skin("outer skin", board.Outer),
            new("core", core.Material.Name, core.Height.Value, Limits(core.Height), core.Material.Density.Value * core.Height.Value * area,
                core.Material.Kind != "honeycomb" ? "" : core.RibbonAngle == 0 ? "ribbon along" : Math.Abs(core.RibbonAngle - Math.PI / 2) < 1e-9 ? "ribbon across" : $"ribbon {Display.Text(core.RibbonAngle, Shown.Angle, UnitSystem.Metric)}"),
            Skin("inner skin", board.Inner),
        ];

        static double Limits(Estimate e) => Math.Sqrt(3) * e.Spread * e.Value;
    }
}
