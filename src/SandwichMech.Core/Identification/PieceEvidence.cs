using System.Globalization;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Identification;

/// <summary>A piece and its readings as the fit takes them.</summary>
/// <param name="Before">What is known beforehand.</param>
/// <param name="Observed">The readings.</param>
/// <param name="Candidates">What could be read next.</param>
/// <param name="MoisturePercent">Moisture taken for the piece; nothing of a sandwich.</param>
/// <param name="MoistureFrom">Where that comes from.</param>
/// <param name="Notes">What was assumed.</param>
public sealed record PieceEvidence(
    PieceBefore Before, IReadOnlyList<Observation> Observed, IReadOnlyList<Observation> Candidates, Estimate? MoisturePercent, string MoistureFrom, IReadOnlyList<string> Notes)
{
    // Without a meter and without the room's air: wood indoors, percent. Common practice, no source.
    private const double UsualMoisture = 8.5, UnknownMoisture = 2;
    // Of a meter; of the table of equilibrium, hysteresis and a household hygrometer. Judgement, no source.
    private const double ByMeter = 1, ByAir = 1;
    private const double RoomTemperature = 20;
    // Short spans shear, long ones sag by themselves.
    private const double SpanShare = 0.8, CandidateLoad = 0.5, CandidateSpread = 0.015;
    private const double FewestSpansInThickness = 15;
    // Of a board bent over two supports: its parts do not share a width as plane sections do, and it curves across more freely in its middle than at its sides.
    private const double BeamModel = 0.04;

    /// <summary>A piece of wood.</summary>
    /// <param name="wood">The wood by the table.</param>
    /// <param name="readings">Its readings in force, in the order of time.</param>
    /// <returns>The evidence, or what is missing for it.</returns>
    public static (PieceEvidence? Evidence, string? Missing) OfWood(Wood wood, IReadOnlyList<Reading> readings)
    {
        PieceFigures figures = PieceFigures.Of(readings);
        if (Missing(figures) is { } missing) { return (null, missing); }
        (double length, double width, Estimate thickness, double sizes) = Sizes(figures);
        (Estimate moisture, string from) = MoistureOf(readings.OfType<MoistureReading>().LastOrDefault());
        var start = new WoodSample(length, width, wood.Tapped(), thickness.Value, moisture.Value);
        var notes = new List<string>();
        (Observation[] observed, Observation[] candidates) = Compared(readings, start, sizes, notes);
        return (new(
            new(start, SampleInputs.OfWood(start.Wood, thickness.Spread, moisture.Value * moisture.Spread), SampleInputs.WoodProperties, sizes),
            observed, candidates, moisture, from, notes), null);
    }

    /// <summary>A sandwich.</summary>
    /// <param name="layup">Its layup: skins with their thickness, core with its material; the core's height is what the skins leave of the whole.</param>
    /// <param name="readings">Its readings in force, in the order of time.</param>
    /// <returns>The evidence, or what is missing for it.</returns>
    public static (PieceEvidence? Evidence, string? Missing) OfSandwich(Board layup, IReadOnlyList<Reading> readings)
    {
        PieceFigures figures = PieceFigures.Of(readings);
        if (Missing(figures) is { } missing) { return (null, missing); }
        (double length, double width, Estimate thickness, double sizes) = Sizes(figures);
        double films = 2 * layup.Adhesive.FilmThickness, skins = layup.Outer.Thickness.Value + layup.Inner.Thickness.Value, core = thickness.Value - skins - films;
        if (core < 0.2e-3) { return (null, "a thickness larger than that of its two skins with glue: check both"); }
        double deviation = Math.Sqrt(Math.Pow(thickness.Value * thickness.Spread, 2)
            + Math.Pow(layup.Outer.Thickness.Value * layup.Outer.Thickness.Spread, 2) + Math.Pow(layup.Inner.Thickness.Value * layup.Inner.Thickness.Spread, 2));
        Board board = layup with { Core = layup.Core with { Height = Estimate.FromSd(core, deviation) }, Size = new(length * width, length, width) };
        var notes = new List<string>();
        var start = new SandwichSample(length, width, board);
        (Observation[] observed, Observation[] candidates) = Compared(readings, start, sizes, notes);
        return (new(new(start, SampleInputs.OfSandwich(board), SampleInputs.SandwichProperties, sizes), observed, candidates, null, "", notes), null);
    }

    /// <summary>A board on its outline, tapped as its edge is held.</summary>
    /// <param name="board">The board; its shape is given.</param>
    /// <param name="readings">Its weight, bending tests and tap tones.</param>
    /// <returns>The evidence.</returns>
    public static PieceEvidence OfBoard(Board board, IReadOnlyList<Reading> readings)
    {
        var start = new BoardSample(board.Tapped());
        Observation[] observed = [.. readings.SelectMany(r => r is BendingReading b ? [Bent(board, b)] : Observations.Of(r, 0))];
        Observation[] candidates = [.. readings.OfType<Weighing>().Any() ? Array.Empty<Observation>() : [Observations.Of(new Weighing(new(1, 1e-3)), 0).Single() with { Name = "its weight" }]];
        return new(new(start, SampleInputs.OfBoard(start.Board), SampleInputs.BoardProperties(start.Board), 0), observed, candidates, null, "", []);
    }

    // As a beam whose section changes: see what a reading of a strip is wrong by, and this besides.
    private static Observation Bent(Board board, BendingReading test)
    {
        BoardSlices slices = BoardSlices.Of(board.Shape!, test) ?? throw new InvalidOperationException("The supports do not both lie under the board.");
        Observation strip = Observations.Of(test, BeamModel).Single();
        return strip with { Of = s => slices.Deflected(((BoardSample)s).Board.UnderWeight()).Total };
    }

    private static (Observation[] Observed, Observation[] Candidates) Compared(IReadOnlyList<Reading> readings, Sample start, double sizes, List<string> notes)
    {
        var observed = new List<Observation>();
        double thickness = start.Layup(underWeight: true).Thickness;
        foreach (BendingReading b in readings.OfType<BendingReading>())
        {
            observed.AddRange(Observations.Of(b, sizes));
            if (b.Span.Value < FewestSpansInThickness * thickness) { notes.Add(Say($"a span of {b.Span.Value * 1e3:F0} mm is short for this thickness: shear takes a large part of the deflection")); }
            if (b.Deflection.Value > b.Span.Value / 40) { notes.Add(Say($"{b.Deflection.Value * 1e3:F1} mm over {b.Span.Value * 1e3:F0} mm is much: a lighter load keeps the piece to what the theory describes")); }
        }

        if (readings.OfType<Weighing>().LastOrDefault() is { } weight) { observed.AddRange(Observations.Of(weight, sizes)); }
        if (readings.OfType<TapReading>().LastOrDefault() is { } taps) { observed.AddRange(Observations.Of(taps, sizes)); }
        if (Math.Max(start.Length, start.Width) < 20 * thickness) { notes.Add("the piece is thick for its size: plate theory describes it less well"); }
        Observation[] candidates =
        [
            .. new[] { (Across: false, Of: start.Length), (Across: true, Of: start.Width) }
                .Where(c => !readings.OfType<BendingReading>().Any(b => b.Across == c.Across))
                .Select(c => Bend(c.Across, c.Of)),
            .. readings.OfType<Weighing>().Any() ? Array.Empty<Observation>() : [Observations.Of(new Weighing(new(1, 1e-3)), sizes).Single() with { Name = "its weight" }],
        ];
        return ([.. observed], candidates);

        Observation Bend(bool across, double of)
        {
            BendingReading test = new(across, new(SpanShare * of, 1e-3), 0, new(CandidateLoad, 1e-4), new(1, CandidateSpread), 0);
            string name = Say($"bending {(across ? "across" : "along")} the grain, span {SpanShare * of * 1e3:F0} mm, load {CandidateLoad * 1e3:F0} g");
            return Observations.Of(test, sizes).Single() with { Name = name };
        }
    }

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static (Estimate, string) MoistureOf(MoistureReading? reading) => reading switch
    {
        { Content: { } content } => (Estimate.FromSd(content, ByMeter), "by the meter"),
        { Humidity: { } humidity } => (Estimate.FromSd(Moisture.Equilibrium(humidity, reading.Temperature ?? RoomTemperature), ByAir), "by the room's air"),
        _ => (Estimate.FromSd(UsualMoisture, UnknownMoisture), "not read; as wood indoors commonly is"),
    };

    private static (double Length, double Width, Estimate Thickness, double Sizes) Sizes(PieceFigures f) =>
        (f.Length!.Value.Value, f.Width!.Value.Value, f.Thickness!.Mean, Math.Sqrt(Math.Pow(f.Length.Value.Spread, 2) + Math.Pow(f.Width.Value.Spread, 2)));

    private static string? Missing(PieceFigures f)
    {
        string[] missing = [.. new[] { f.Length is null ? "length" : "", f.Width is null ? "width" : "", f.Thickness is null ? "thickness" : "" }.Where(m => m.Length > 0)];
        return missing.Length == 0 ? null : string.Join(", ", missing);
    }
}
