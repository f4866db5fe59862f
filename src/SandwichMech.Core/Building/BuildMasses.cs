using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Building;

/// <summary>One part of a mass: what it is of, how much, and how well that is known.</summary>
/// <param name="Name">"outer skin, weighed", "adhesive kept".</param>
/// <param name="Value">kg; negative where it is taken off.</param>
/// <param name="Deviation">Standard deviation, kg.</param>
public sealed record MassPart(string Name, double Value, double Deviation);

/// <summary>What the scale should read.</summary>
/// <param name="Stage">At which stage.</param>
/// <param name="Quantity">Of what.</param>
/// <param name="Reading">kg or m, with intervals and what they mostly come from.</param>
/// <param name="From">What it is put together of; empty where it is one thing.</param>
public sealed record ExpectedReading(BuildStage Stage, BuildQuantity Quantity, Prediction Reading, IReadOnlyList<MassPart> From);

/// <summary>What a bond took in.</summary>
/// <param name="Stage">First or second bond.</param>
/// <param name="Gain">Of the board over its parts on the scale, kg.</param>
/// <param name="WaterLost">By what the witness piece lost, kg; nothing without one.</param>
/// <param name="Kept">Adhesive kept: gain and water lost, kg, with its standard deviation.</param>
/// <param name="Mixed">kg, where it was weighed.</param>
public sealed record BondBalance(BuildStage Stage, double Gain, double? WaterLost, MassPart Kept, double? Mixed)
{
    /// <summary>Kept over mixed; nothing where the mixed mass is not known.</summary>
    public double? Share => Mixed is { } m ? Kept.Value / m : null;
}

/// <summary>The masses of a build: what each stage should weigh, from the model and from all that was weighed before, and what the bonds kept.</summary>
/// <remarks>
/// Mass is kept: a bond adds what is bonded and the adhesive that stays, and loses water; sanding takes wood off. What was weighed goes before the model. Without a witness piece 1 % of the wood's mass in water either way
/// (standard deviation; judgement) is in what a bond is expected to weigh.
/// </remarks>
public sealed class BuildMasses
{
    private const double WaterSpread = 0.01;
    // How much is taken off where nobody measured it, standard deviation, m; and how well what is cut away is known. Judgement.
    private const double UnknownTaken = 0.05e-3, CutSpread = 0.05;
    // What callipers are read to, and how evenly a skin is sanded, standard deviations, m. Judgement.
    private const double ReadTo = 0.02e-3, SandedSpread = 0.02e-3;

    private readonly Lazy<(Board Board, BlankAreas Areas)> _model;
    private readonly Dictionary<(BuildStage, BuildQuantity), BuildReading> _read;

    /// <summary>Makes them.</summary>
    /// <param name="board">The board as wished, or as known so far.</param>
    /// <param name="areas">Its areas.</param>
    /// <param name="readings">Readings in force; of one kind at one stage the last counts.</param>
    public BuildMasses(Board board, BlankAreas areas, IEnumerable<BuildReading> readings)
        : this(new Lazy<(Board, BlankAreas)>((board, areas)), readings)
    {
    }

    /// <summary>Makes them for many boards: where all was weighed, no model is asked.</summary>
    /// <param name="model">Gives the board and its areas.</param>
    /// <param name="readings">Readings in force; of one kind at one stage the last counts.</param>
    public BuildMasses(Lazy<(Board Board, BlankAreas Areas)> model, IEnumerable<BuildReading> readings)
    {
        (_model, _read) = (model, []);
        foreach (BuildReading r in readings) { _read[(r.Stage, r.Quantity)] = r; }
    }

    private Board Wish => _model.Value.Board;

    private BlankAreas Areas => _model.Value.Areas;

    /// <summary>What the callipers should read at a stage.</summary>
    /// <param name="stage">The stage.</param>
    /// <returns>Skins and core before they are bonded, the inner skin and the board at the second bond, the board from then on; empty where nothing can be said.</returns>
    public IReadOnlyList<ExpectedReading> Thicknesses(BuildStage stage) => stage switch
    {
        BuildStage.Skins =>
        [
            Callipers(stage, BuildQuantity.OuterThickness, "outer skin as wished", Wish.Outer.Thickness),
            Callipers(stage, BuildQuantity.CoreHeight, "core as wished", Wish.Core.Height),
            Callipers(stage, BuildQuantity.InnerThickness, "inner skin as wished", Wish.Inner.Thickness),
        ],
        BuildStage.SecondBond => [Callipers(stage, BuildQuantity.InnerThickness, "inner skin as wished", Wish.Inner.Thickness), Whole],
        BuildStage.Sanded when Read(BuildStage.SecondBond, BuildQuantity.BoardThickness) is { } thick && Read(stage, BuildQuantity.BoardMass) is { } light && Read(BuildStage.SecondBond, BuildQuantity.BoardMass) is { } heavy =>
            [Sum(stage, BuildQuantity.BoardThickness, [thick with { Name = "board before sanding" }, new("by what it weighs less", (light.Value - heavy.Value) / (Wish.Outer.Wood.Density.Value * Areas.Blank), light.Deviation / (Wish.Outer.Wood.Density.Value * Areas.Blank) + SandedSpread)])],
        _ => [],
    };

    /// <summary>How far let-in wood stands proud of the core, and what taking that off takes off the scale.</summary>
    /// <returns>Height with its standard deviation, m, and mass, kg; nothing where either height was not read or no wood is let in.</returns>
    public (double Proud, double Deviation, double Mass)? Levelling =>
        LetInWood is { } wood && Read(BuildStage.Skins, BuildQuantity.LetInHeight) is { } high && Read(BuildStage.Skins, BuildQuantity.CoreHeight) is { } core
            ? (high.Value - core.Value, Root(high.Deviation, core.Deviation), Math.Max(0, high.Value - core.Value) * wood.Density.Value * Areas.LetIn) : null;

    // The board as thick as its parts: as read, or as wished; in the bag honeycomb sinks into the film by less than callipers show.
    private ExpectedReading Whole
    {
        get
        {
            MassPart Part(BuildQuantity quantity, Estimate wish, string name) =>
                (Read(BuildStage.SecondBond, quantity) ?? Read(BuildStage.Skins, quantity)) is { } read ? read with { Name = name } : new(name, wish.Value, wish.Value * wish.Spread);
            double film = Wish.Adhesive.FilmThickness;
            return Sum(BuildStage.SecondBond, BuildQuantity.BoardThickness,
            [
                Part(BuildQuantity.OuterThickness, Wish.Outer.Thickness, "outer skin"), Part(BuildQuantity.CoreHeight, Wish.Core.Height, "core"),
                Part(BuildQuantity.InnerThickness, Wish.Inner.Thickness, "inner skin"), new("two bond lines", 2 * film, film),
            ]);
        }
    }

    private static ExpectedReading Callipers(BuildStage stage, BuildQuantity quantity, string name, Estimate thickness) =>
        Sum(stage, quantity, [new(name, thickness.Value, Root(thickness.Value * thickness.Spread, ReadTo))]);

    /// <summary>What the scale should read at a stage.</summary>
    /// <param name="stage">The stage.</param>
    /// <returns>Mass of the parts before the first bond, of the board from then on; empty where nothing can be said.</returns>
    public IReadOnlyList<ExpectedReading> Expected(BuildStage stage) => stage == BuildStage.Skins
        ? [.. new[] { (BuildQuantity.OuterMass, ModelOf(Wish.Outer, "outer skin")), (BuildQuantity.CoreMass, CoreModel), (BuildQuantity.LetInMass, LetInModel), (BuildQuantity.InnerMass, ModelOf(Wish.Inner, "inner skin")) }
            .Where(p => p.Item2.Value > 0).Select(p => Sum(stage, p.Item1, [p.Item2]))]
        : BoardMass(stage) is { } parts ? [Sum(stage, BuildQuantity.BoardMass, parts)] : [];

    /// <summary>What a bond kept; nothing while the board was not weighed after it.</summary>
    /// <param name="stage">First or second bond.</param>
    /// <returns>The balance.</returns>
    public BondBalance? Balance(BuildStage stage)
    {
        if (Read(stage, BuildQuantity.BoardMass) is not { } after || Before(stage) is not { } before) { return null; }
        double gain = after.Value - before.Sum(p => p.Value);
        double wood = Wood(stage);
        double? lost = LostShare(stage) * wood;
        double deviation = Math.Sqrt(after.Deviation * after.Deviation + before.Sum(p => p.Deviation * p.Deviation) + Math.Pow(WaterDeviation(stage, wood), 2));
        return new(stage, gain, lost, new("adhesive kept", gain + (lost ?? 0), deviation), Read(stage, BuildQuantity.AdhesiveMixed)?.Value);
    }

    /// <summary>Adhesive that a bond keeps: as weighed, or as expected of what was mixed.</summary>
    /// <param name="stage">First or second bond.</param>
    /// <returns>kg on the blank.</returns>
    public MassPart Kept(BuildStage stage)
    {
        if (Balance(stage) is { } weighed) { return weighed.Kept; }
        Adhesive a = Wish.Adhesive;
        (double mixed, double spread) = Read(stage, BuildQuantity.AdhesiveMixed) is { } m ? (m.Value, a.KeptShare.Spread)
            : (a.Mixed.Value * Areas.Blank, Math.Sqrt(a.KeptShare.Spread * a.KeptShare.Spread + a.Mixed.Spread * a.Mixed.Spread));
        double kept = mixed * a.KeptShare.Value;
        return new("adhesive kept", kept, kept * spread);
    }

    private MassPart[]? BoardMass(BuildStage stage) => stage switch
    {
        BuildStage.FirstBond or BuildStage.SecondBond => Before(stage) is { } before ? [.. before, WithoutBalance(stage), Water(stage)] : null,
        BuildStage.Levelled => Latest(BuildStage.FirstBond) is { } bonded ? [bonded, Proud] : null,
        BuildStage.Sanded => Latest(BuildStage.SecondBond) is { } bonded ? [bonded, SandedOff] : null,
        BuildStage.CutOut => Latest(BuildStage.Sanded) is { } blank ? [CutOutOf(blank)] : null,
        BuildStage.Braced => Latest(BuildStage.CutOut) is { } cut ? [cut, Bars] : null,
        BuildStage.OnRim or BuildStage.Strung => null,
        BuildStage.Lacquered => Latest(BuildStage.Braced) is { } bare && Read(BuildStage.Lacquered, BuildQuantity.FinishMass) is { } finish ? [bare, finish] : null,
        _ => Latest(stage - 1) is { } before ? [before] : null,
    };

    // What was bonded, on the scale before the bond.
    private MassPart[]? Before(BuildStage stage) => stage == BuildStage.FirstBond
        ? [.. new[] { Part(BuildQuantity.OuterMass, () => ModelOf(Wish.Outer, "outer skin")), Part(BuildQuantity.CoreMass, () => CoreModel), Part(BuildQuantity.LetInMass, () => LetInModel) }.Where(p => p.Value > 0)]
        : Latest(BuildStage.Levelled) is { } half ? [half, Part(BuildQuantity.InnerMass, () => ModelOf(Wish.Inner, "inner skin"))] : null;

    // What of a bond's parts gives off water: skins and wood let in, of this less what was levelled off; not the core, and not cured adhesive.
    private double Wood(BuildStage stage)
    {
        double first = Part(BuildQuantity.OuterMass, () => ModelOf(Wish.Outer, "")).Value + Part(BuildQuantity.LetInMass, () => LetInModel).Value;
        if (stage == BuildStage.FirstBond) { return first; }
        double levelled = (Latest(BuildStage.Levelled)?.Value - Latest(BuildStage.FirstBond)?.Value) ?? 0;
        return first + Math.Min(0, levelled) + Part(BuildQuantity.InnerMass, () => ModelOf(Wish.Inner, "")).Value;
    }

    // Of the bond's own expectation its own weighing is no part.
    private MassPart WithoutBalance(BuildStage stage)
    {
        var without = new BuildMasses(_model, _read.Values.Where(r => r.Stage < stage || (r.Stage == stage && r.Quantity != BuildQuantity.BoardMass)));
        return without.Kept(stage);
    }

    // The board as last weighed up to a stage, or as the model has it.
    private MassPart? Latest(BuildStage stage)
    {
        if (Read(stage, BuildQuantity.BoardMass) is { } weighed) { return weighed; }
        if (BoardMass(stage) is not { } parts) { return null; }
        return new("board as expected", parts.Sum(p => p.Value), Math.Sqrt(parts.Sum(p => p.Deviation * p.Deviation)));
    }

    // The inner skin is chosen last, and may be weighed as late as that.
    private MassPart Part(BuildQuantity quantity, Func<MassPart> model) => Read(BuildStage.SecondBond, quantity) ?? Read(BuildStage.Skins, quantity) ?? model();

    private MassPart? Read(BuildStage stage, BuildQuantity quantity) => _read.TryGetValue((stage, quantity), out BuildReading? r) ? new($"{NameOf(quantity)}, weighed", r.Mean, r.Deviation) : null;

    private MassPart ModelOf(Skin skin, string name)
    {
        double mass = skin.Wood.Density.Value * skin.Thickness.Value * Areas.Blank;
        return new(name, mass, mass * Root(skin.Wood.Density.Spread, skin.Thickness.Spread));
    }

    private MassPart CoreModel
    {
        get
        {
            double mass = Wish.Core.Material.Density.Value * Wish.Core.Height.Value * Areas.Core;
            return new("core", mass, mass * Root(Wish.Core.Material.Density.Spread, Wish.Core.Height.Spread));
        }
    }

    private MassPart LetInModel => LetInWood is { } wood && Areas.LetIn > 0
        ? new("let-in wood", wood.Density.Value * Wish.Core.Height.Value * Areas.LetIn, wood.Density.Value * Wish.Core.Height.Value * Areas.LetIn * Root(wood.Density.Spread, Wish.Core.Height.Spread))
        : new("let-in wood", 0, 0);

    // Where several woods are let in, the first stands for all: their densities differ by less than they are known to.
    private Wood? LetInWood => Wish.Shape?.Regions.Select(r => r.Change).OfType<LetInWood>().FirstOrDefault()?.Wood;

    // How far let-in wood stands proud of the core, and comes off when it is levelled.
    private MassPart Proud
    {
        get
        {
            if (LetInWood is not { } wood) { return new("wood levelled off", 0, 0); }
            if (Read(BuildStage.Skins, BuildQuantity.LetInHeight) is not { } high) { return new("wood levelled off", 0, wood.Density.Value * Areas.LetIn * UnknownTaken); }
            MassPart core = Read(BuildStage.Skins, BuildQuantity.CoreHeight) ?? new("", Wish.Core.Height.Value, Wish.Core.Height.Value * Wish.Core.Height.Spread);
            double per = wood.Density.Value * Areas.LetIn, height = Math.Max(0, high.Value - core.Value);
            return new("wood levelled off", -per * height, per * Math.Sqrt(high.Deviation * high.Deviation + core.Deviation * core.Deviation));
        }
    }

    private MassPart SandedOff
    {
        get
        {
            if (Read(BuildStage.SecondBond, BuildQuantity.BoardThickness) is not { } before || Read(BuildStage.Sanded, BuildQuantity.BoardThickness) is not { } after) { return new("wood sanded off", 0, Wish.Outer.Wood.Density.Value * Areas.Blank * UnknownTaken); }
            double per = Wish.Outer.Wood.Density.Value * Areas.Blank;
            return new("wood sanded off", -per * Math.Max(0, before.Value - after.Value), per * Math.Sqrt(before.Deviation * before.Deviation + after.Deviation * after.Deviation));
        }
    }

    private MassPart CutOutOf(MassPart blank)
    {
        // What is cut away weighs as the model has it, scaled to how heavy the blank came out.
        double board = Wish.MassWithoutBars(Wish.Laminate());
        double model = Model(Areas.Blank, Areas.LetIn), share = board / model;
        return new("blank less margin and hole", blank.Value * share, Root(blank.Deviation * share, CutSpread * blank.Value * (1 - share)));
    }

    private double Model(double area, double letIn)
    {
        double skins = (Wish.Outer.Wood.Density.Value * Wish.Outer.Thickness.Value + Wish.Inner.Wood.Density.Value * Wish.Inner.Thickness.Value) * area;
        double inner = LetInWood is { } wood ? wood.Density.Value * Wish.Core.Height.Value * letIn : 0;
        return skins + inner + Wish.Core.Material.Density.Value * Wish.Core.Height.Value * (area - letIn) + 2 * Wish.Adhesive.Kept * area;
    }

    private MassPart Bars
    {
        get
        {
            Laminate l = Wish.Laminate();
            double mass = Wish.Mass(l) - Wish.MassWithoutBars(l);
            return new("bridge, braces and added mass", mass, 0.1 * mass);
        }
    }

    // Of a bond: the witness as it went into the bag, which may have been weighed with the skins or after the bond before.
    private (MassPart Before, MassPart After)? Witness(BuildStage stage)
    {
        if (Read(stage, BuildQuantity.WitnessAfter) is not { } after) { return null; }
        MassPart? before = Read(stage, BuildQuantity.WitnessBefore) ?? (stage == BuildStage.SecondBond ? Read(BuildStage.FirstBond, BuildQuantity.WitnessAfter) : null) ?? Read(BuildStage.Skins, BuildQuantity.WitnessBefore);
        return before is { Value: > 0 } b ? (b, after) : null;
    }

    private double? LostShare(BuildStage stage) => Witness(stage) is var (before, after) ? (before.Value - after.Value) / before.Value : null;

    private MassPart Water(BuildStage stage)
    {
        double wood = Wood(stage);
        return new("water", -(LostShare(stage) ?? 0) * wood, WaterDeviation(stage, wood));
    }

    private double WaterDeviation(BuildStage stage, double wood) =>
        Witness(stage) is var (before, after) ? wood / before.Value * Root(before.Deviation, after.Deviation) : WaterSpread * wood;

    private static ExpectedReading Sum(BuildStage stage, BuildQuantity quantity, MassPart[] parts)
    {
        double value = parts.Sum(p => p.Value);
        return new(stage, quantity, Propagation.Predict(value, [.. parts.Select(p => p.Name)], [.. parts.Select(p => p.Deviation)], (z, sd) => value + z * sd), parts.Length > 1 ? parts : []);
    }

    private static double Root(double a, double b) => Math.Sqrt(a * a + b * b);

    internal static string NameOf(BuildQuantity quantity) => quantity switch
    {
        BuildQuantity.OuterMass => "outer skin",
        BuildQuantity.CoreMass => "core",
        BuildQuantity.LetInMass => "let-in wood",
        BuildQuantity.InnerMass => "inner skin",
        BuildQuantity.BoardMass => "board",
        BuildQuantity.AdhesiveMixed => "adhesive mixed",
        BuildQuantity.FinishMass => "finish",
        _ => quantity.ToString(),
    };
}
