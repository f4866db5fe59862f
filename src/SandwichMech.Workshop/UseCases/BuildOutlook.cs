using System.Text.Json.Serialization;
using SandwichMech.Core.Building;
using SandwichMech.Core.Choosing;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Limits;
using SandwichMech.Core.Plates;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Choices;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A finished board that a choice would make: an inner skin, or so much sanded off.</summary>
/// <param name="Fields">What is chosen.</param>
/// <param name="Mass">kg of the board, cut out.</param>
/// <param name="Chance">Chance to meet all targets together.</param>
/// <param name="Outcomes">One a target.</param>
/// <param name="Figures">Stiffness along and across, and modes where they were asked for.</param>
public sealed record InnerRow(
    IReadOnlyList<ChosenField> Fields, [property: JsonPropertyName("mass_kg")] double Mass, double Chance, IReadOnlyList<OutcomeRow> Outcomes, IReadOnlyList<OutcomeRow> Figures);

/// <summary>What 0.05 mm more of a skin does.</summary>
/// <param name="Figure">"mass", "along", "mode 1".</param>
/// <param name="Change">Relative.</param>
public sealed record StepRow(string Figure, double Change);

/// <summary>The board with something taken off its outer skin after the second bond.</summary>
/// <param name="TakenOff">m; 0: as it is.</param>
/// <param name="Left">Outer skin that is left, m.</param>
/// <param name="Thinnest">The same where it is thinnest, by its own measured places and how well they are read, m.</param>
/// <param name="SkinRatio">Stiffness in its plane of the outer skin over that of the inner one, along: 1 where the layup is symmetric.</param>
/// <param name="BowAcross">What it bows across its width when it comes to dry air, free, m; nothing where its shrinkage or its width is not known.</param>
/// <param name="Board">The finished board.</param>
public sealed record SandingRow(
    [property: JsonPropertyName("taken_off_m")] double TakenOff,
    [property: JsonPropertyName("left_m")] double Left,
    [property: JsonPropertyName("thinnest_m")] double Thinnest,
    double SkinRatio,
    [property: JsonPropertyName("bow_across_m")] double? BowAcross,
    InnerRow Board);

/// <summary>What may still be taken off the outer skin.</summary>
/// <param name="Rows">By 0.05 mm, from nothing on.</param>
/// <param name="Most">The most with which all targets hold as surely as asked; nothing where not even now.</param>
/// <param name="Each">What each 0.05 mm does, from the first two rows.</param>
public sealed record SandingRoom(IReadOnlyList<SandingRow> Rows, [property: JsonPropertyName("most_m")] double? Most, IReadOnlyList<StepRow> Each);

/// <summary>The finished boards that what is still open would make.</summary>
internal sealed class BuildOutlook(BoardFile file, Board known, IReadOnlyList<ChoiceTarget> targets, UnitSystem units, double sure, Action<string, double>? progress)
{
    // A skin is not sanded to less than this share of what it is.
    private const double LeastLeft = 0.45;
    private const int MostSteps = 6, SandingModes = 3;
    // What is surely below the mean at the thinnest of several places.
    private const double OneSided = 1.645;

    /// <summary>Boards of all woods and thicknesses given.</summary>
    internal IReadOnlyList<InnerRow> Inner(IReadOnlyList<(string Text, Board Board)> woods, IReadOnlyList<FreeValue> thicknesses, int modes)
    {
        double[] inner = thicknesses.Count > 0 ? [.. thicknesses.Select(t => t.Value!.Value)] : [known.Inner.Thickness.Value];
        IReadOnlyList<ChosenBoard> boards = Each([.. woods.Select(w => new ChoiceVariant(w.Board, 0, [known.Outer.Thickness.Value], inner))], modes);
        return [.. boards.Select(b => Row(b,
        [
            .. woods.Count > 1 ? [new(BoardFields.Inner.Wood.Name, woods[b.At.Variant].Text)] : Array.Empty<ChosenField>(),
            new(BoardFields.Inner.Thickness.Name, thicknesses.Count > 0 ? thicknesses[b.At.Inner].Text : Display.Text(known.Inner.Thickness.Value, Shown.Thickness, units)),
        ]))];
    }

    /// <summary>What 0.05 mm more does, between two boards that differ in a skin's thickness alone.</summary>
    internal static IReadOnlyList<StepRow> Step(InnerRow thin, InnerRow thick, double apart)
    {
        double Per(double a, double b) => Math.Pow(b / a, Tolerances.Step / apart) - 1;
        return [new("mass", Per(thin.Mass, thick.Mass)), .. thin.Figures.Zip(thick.Figures, (a, b) => new StepRow(a.Target, Per(a.Figure.Value, b.Figure.Value)))];
    }

    /// <summary>The board with more and more taken off its outer skin.</summary>
    /// <param name="outer">The outer skin's thickness as it was measured before it was bonded; nothing where it was not.</param>
    internal SandingRoom Sanding(BuildReading? outer)
    {
        double now = known.Outer.Thickness.Value;
        int steps = Math.Clamp((int)Math.Floor(now * (1 - LeastLeft) / Tolerances.Step), 1, MostSteps);
        double[] left = [.. Enumerable.Range(0, steps + 1).Select(i => now - (steps - i) * Tolerances.Step)];
        ChosenBoard[] boards = [.. Each([new(known, 0, left, [known.Inner.Thickness.Value])], SandingModes).Reverse()];
        double below = Below(outer);
        SandingRow[] rows = [.. boards.Select(b => new SandingRow(
            now - b.Board.Outer.Thickness.Value, b.Board.Outer.Thickness.Value, Math.Max(0, b.Board.Outer.Thickness.Value - below), InPlane(b.Board.Outer) / InPlane(b.Board.Inner), Bow(b.Board),
            Row(b, [new(BoardFields.Outer.Thickness.Name, Display.Text(b.Board.Outer.Thickness.Value, Shown.Thickness, units))])))];
        SandingRow? most = rows.TakeWhile(r => r.Board.Chance >= sure && r.Thinnest > 0).LastOrDefault();
        return new(rows, most?.TakenOff, Step(rows[0].Board, rows[1].Board, rows[1].TakenOff));
    }

    // How far the thinnest place lies below the mean: as measured, and no better than the skin is known.
    private double Below(BuildReading? outer)
    {
        double reading = OneSided * known.Outer.Thickness.Spread * known.Outer.Thickness.Value;
        return outer is { Values.Count: > 1 } ? MeanThickness.Of(new ThicknessReading(outer.Values, outer.Deviation)) is var m ? Math.Max(m.Mean.Value - m.Least, 0) + reading : reading : reading;
    }

    private static double InPlane(Skin skin) => Board.SolidPlate(skin.Wood, skin.Thickness.Value).A.M11;

    private static double? Bow(Board board)
    {
        if (HumidityWarp.Unknown(board).Count > 0) { return null; }
        double content = Core.Materials.Moisture.Equilibrium(MarginsBoard.UsualHumidity, MarginsBoard.Temperature);
        return HumidityWarp.At(board.UnderWeight(), new(content, content), MarginsBoard.Dry, MarginsBoard.Temperature).BowAcross?.Value;
    }

    private IReadOnlyList<ChosenBoard> Each(ChoiceVariant[] variants, int modes)
    {
        var plate = new PlateWish(
            shape => OutlineSolving.Bridge(shape) is { } foot ? new(PlatePush.Deflect, foot.Border[0]) : null,
            board => MarginsBoard.Limits(file with { Board = board }), new ChooseWish().Accuracy);
        return OutlineSolving.Try(file, "boards", () => Choose.Each(new() { Variants = variants, Targets = [.. targets, .. Standing(modes)], Sure = 0, Plate = plate }, progress));
    }

    // Told of every board, whether a target speaks of it or not.
    private IEnumerable<ChoiceTarget> Standing(int modes) =>
    [
        new(ChoiceFigure.StiffnessAlong), new(ChoiceFigure.StiffnessAcross),
        .. known.Shape is null ? [] : Enumerable.Range(1, modes).Select(m => new ChoiceTarget(ChoiceFigure.Mode) { Mode = m }),
    ];

    private InnerRow Row(ChosenBoard b, IReadOnlyList<ChosenField> fields) => new(
        fields, b.Mass, b.Chance,
        [.. b.Outcomes.Take(targets.Count).Select(o => new OutcomeRow(TypedTarget.Words(o.Target, units), TypedTarget.Unit(o.Target), o.Figure, o.Chance))],
        [.. b.Outcomes.Skip(targets.Count).Select(o => new OutcomeRow(TypedTarget.Name(o.Target), TypedTarget.Unit(o.Target), o.Figure, o.Chance))]);
}
