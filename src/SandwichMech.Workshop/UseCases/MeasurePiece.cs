using System.Globalization;
using System.Text.Json.Serialization;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Pieces;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A value with what it may be off by.</summary>
/// <param name="Value">SI, in the unit beside.</param>
/// <param name="Low90">Lower end of the 90 % interval.</param>
/// <param name="High90">Upper end.</param>
public sealed record GiveOrTake([property: JsonPropertyName("value_si")] double Value, [property: JsonPropertyName("low90_si")] double Low90, [property: JsonPropertyName("high90_si")] double High90)
{
    /// <summary>Half the interval in parts of the value.</summary>
    [JsonIgnore] public double Relative => (High90 - Low90) / 2 / Value;

    internal static GiveOrTake Of(Estimate e) => new(e.Value, e.Value * Math.Exp(-Propagation.Z90 * e.Spread), e.Value * Math.Exp(Propagation.Z90 * e.Spread));
}

/// <summary>A property of a piece.</summary>
/// <param name="Name">In words.</param>
/// <param name="Symbol">Of the literature.</param>
/// <param name="Unit">SI unit of the values.</param>
/// <param name="Table">What the table says.</param>
/// <param name="Found">What the readings say.</param>
public sealed record PropertyRow(string Name, string Symbol, string Unit, GiveOrTake Table, GiveOrTake Found);

/// <summary>A reading beside what the piece as found would give.</summary>
/// <param name="Name">What was read.</param>
/// <param name="Unit">SI unit.</param>
/// <param name="Read">As read.</param>
/// <param name="Expected">What the piece as found gives; nothing for a tone that is none of its modes.</param>
/// <param name="Misfit">In standard deviations.</param>
/// <param name="NodalLines">Of a tone's mode, along × across.</param>
/// <param name="Narrows">The property that it tells most about.</param>
/// <param name="FromRelative">Half the 90 % interval of that property without this reading.</param>
/// <param name="ToRelative">With it.</param>
public sealed record ReadingRow(
    string Name, string Unit, [property: JsonPropertyName("read_si")] double Read, [property: JsonPropertyName("expected_si")] double? Expected, double Misfit,
    string? NodalLines, string? Narrows, double? FromRelative, double? ToRelative);

/// <summary>Another way of taking the tones.</summary>
/// <param name="NodalLines">Of each tone's mode, in the order of the tones; nothing where it is none.</param>
/// <param name="Likelihood">Against the way that was taken.</param>
public sealed record OtherWayRow(IReadOnlyList<string?> NodalLines, double Likelihood);

/// <summary>What to read next.</summary>
/// <param name="What">The reading.</param>
/// <param name="Unit">SI unit.</param>
/// <param name="Expected">About what it will be.</param>
/// <param name="Narrows">The property that it would narrow most.</param>
/// <param name="FromRelative">Half its 90 % interval now.</param>
/// <param name="ToRelative">Then.</param>
public sealed record NextRow(string What, string Unit, [property: JsonPropertyName("expected_si")] double Expected, string Narrows, double FromRelative, double ToRelative);

/// <summary>A mode of the piece as found, in air.</summary>
/// <param name="NodalLines">Along × across, where the shape has a plain count.</param>
/// <param name="Frequency">Hz.</param>
public sealed record PieceMode(string? NodalLines, [property: JsonPropertyName("frequency_hz")] double Frequency);

/// <summary>What `measure` answers.</summary>
public sealed record MeasureResult
{
    /// <summary>The piece.</summary>
    public required PieceRow Piece { get; init; }
    /// <summary>Readings that were added now.</summary>
    public required IReadOnlyList<EntryRow> Added { get; init; }
    /// <summary>How spreads were read, and what was taken without being typed.</summary>
    public required IReadOnlyList<string> ReadBack { get; init; }
    /// <summary>Its properties, before and after; none while size or thickness is missing.</summary>
    public required IReadOnlyList<PropertyRow> Properties { get; init; }
    /// <summary>Its readings.</summary>
    public required IReadOnlyList<ReadingRow> Readings { get; init; }
    /// <summary>Other ways of taking tones for modes, likeliest first.</summary>
    public required IReadOnlyList<OtherWayRow> OtherWays { get; init; }
    /// <summary>How often the readings of such a piece fit no better than these, 0 to 1; nothing without readings to compare.</summary>
    public required double? Chance { get; init; }
    /// <summary>What to read next, most telling first.</summary>
    public required IReadOnlyList<NextRow> Next { get; init; }
    /// <summary>Modes of the piece as found, in air, where tones were read.</summary>
    public required IReadOnlyList<PieceMode> Modes { get; init; }
    /// <summary>Moisture content that was taken, percent; nothing of a sandwich.</summary>
    public required double? MoisturePercent { get; init; }
    /// <summary>What it may be off by: 9 in 10 lie within so many percent on either side.</summary>
    public required double? MoistureGiveOrTakePercent { get; init; }
    /// <summary>Where it comes from.</summary>
    public required string MoistureFrom { get; init; }
    /// <summary>Moisture content that the properties belong to, percent.</summary>
    public required double? ReferencePercent { get; init; }
    /// <summary>What moisture changes: E_L as read over E_L at the reference.</summary>
    public required double? MoistureFactor { get; init; }
    /// <summary>Density at the moisture content that was taken, kg/m³; nothing of a sandwich.</summary>
    [JsonPropertyName("density_as_read_kg_m3")] public required double? DensityAsRead { get; init; }
    /// <summary>What was assumed, what is unusual.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}

/// <summary>Tests as typed: bending and tap tones.</summary>
/// <param name="Bends">Bending tests.</param>
/// <param name="Taps">Tap tones of one sitting.</param>
public sealed record TestWords(IReadOnlyList<string> Bends, string? Taps);

/// <summary>Measures a piece: takes new readings in, and says what all of them together tell.</summary>
public static class MeasurePiece
{
    /// <summary>Unit of a loss factor.</summary>
    public const string Ratio = "1";

    /// <summary>Measures.</summary>
    /// <param name="log">The log.</param>
    /// <param name="tables">Where materials are looked up.</param>
    /// <param name="number">The piece's number.</param>
    /// <param name="words">New weighing, sizes, moisture.</param>
    /// <param name="tests">New bending tests and tap tones.</param>
    /// <param name="into">A board that names the piece: what to read next is then judged by its mass and modes too.</param>
    /// <returns>What the readings say.</returns>
    /// <exception cref="InputException">There is no such piece, or a reading cannot be meant; nothing was written.</exception>
    /// <exception cref="ComputationException">No piece fits the readings; nothing was written.</exception>
    public static MeasureResult Run(ShopLog log, MaterialTables tables, int number, ReadingWords words, TestWords tests, BoardFile? into = null)
    {
        Piece piece = log.Piece(number);
        Reading[] before = [.. PieceMaterials.InTime(log.Readings(number)).Select(e => e.Reading!)];
        ReadReadings read = TypedReadings.Read(piece.Kind, words, before);
        if (piece.Kind == PieceKind.Core && (tests.Bends.Count > 0 || tests.Taps is not null))
        {
            throw new InputException("measure", "a bare core sheet folds when bent or tapped: glue a strip of sandwich from it, and add that as a piece of the kind sandwich");
        }

        TypedTest[] typed = [.. tests.Bends.Select(TypedTests.Bend), .. tests.Taps is null ? Array.Empty<TypedTest>() : [TypedTests.Taps(tests.Taps)]];
        read = read with { ReadBack = [.. read.ReadBack, .. typed.SelectMany(t => t.ReadBack)] };
        TypedReading[] added = [.. read.Readings, .. typed.Select(t => t.Reading)];
        PieceFigures figures = PieceFigures.Of([.. before, .. added.Select(r => r.Reading)]);
        CheckSpans(added, figures);
        (PieceEvidence? evidence, string? missing) = Evidence(log, tables, piece, [.. before, .. added.Select(r => r.Reading)]);
        if (into is not null && evidence is not null) { evidence = Into(into, piece, evidence); }
        Identified? found = evidence is null ? null : Found(piece, evidence);
        IReadOnlyList<LogEntry> entries = added.Length > 0 ? log.AddReadings(number, added) : [];
        return Result(log, piece, entries, read, evidence, missing, found, figures);
    }

    // The board's mass and modes join what the readings are to tell.
    private static PieceEvidence Into(BoardFile into, Piece piece, PieceEvidence evidence)
    {
        OutlineSolving.ShapeOf(into, "modes of a board", "without --board the piece's own properties are told");
        string name = PieceMaterials.NameOf(piece.Number);
        bool IsPiece(Wood wood) => wood.Name.StartsWith($"{name} (", StringComparison.Ordinal);
        if (piece.Kind != PieceKind.Wood) { throw new InputException("--board", $"{name} is no plate of wood: what a board will be is told from those"); }
        if (!into.Board.Woods.Any(IsPiece)) { throw new InputException("--board", $"{into.Path} does not name {name}: write wood = \"{name}\" where it goes"); }
        return evidence with
        {
            Before = evidence.Before with { Properties = [.. evidence.Before.Properties, .. OutlineSolving.Try(into, "modes", () => PieceInBoard.Properties(into.Board, IsPiece))] },
        };
    }

    private static void CheckSpans(IEnumerable<TypedReading> added, PieceFigures figures)
    {
        foreach (TypedReading typed in added)
        {
            if (typed.Reading is BendingReading b && (b.Across ? figures.Width : figures.Length) is { } size && b.Span.Value > size.Value)
            {
                throw new InputException([new("--bend", null, $"'{typed.AsTyped}'", string.Create(CultureInfo.InvariantCulture,
                    $"has a span of {b.Span.Value * 1e3:F0} mm, and the piece is {size.Value * 1e3:F0} mm {(b.Across ? "wide" : "long")}: check the span, and along or across"))]);
            }
        }
    }

    private static Identified Found(Piece piece, PieceEvidence evidence)
    {
        try
        {
            return Identify.Run(evidence.Before, evidence.Observed, evidence.Candidates);
        }
        catch (InvalidOperationException e)
        {
            throw new ComputationException(string.Create(CultureInfo.InvariantCulture, $"no plate was found that reads like piece {piece.Number}: {e.Message.TrimEnd('.')}; check sizes, thickness and the unit of each reading"), e);
        }
    }

    private static (PieceEvidence?, string?) Evidence(ShopLog log, MaterialTables tables, Piece piece, IReadOnlyList<Reading> readings)
    {
        if (piece.Kind == PieceKind.Wood)
        {
            return MaterialTables.Find(tables.Woods, piece.Material) is { } wood
                ? PieceEvidence.OfWood(wood.Item, readings)
                : throw new InputException("measure", MaterialTables.Unknown(tables.Woods, piece.Material, "wood"));
        }

        if (piece.Kind == PieceKind.Core) { return (null, "nothing more: of a core sheet, weighing and measuring tell the density (`piece show`), a strip of sandwich its shear moduli"); }
        Skin outer = SkinOf(log, tables, piece.OuterWood!, "outer"), inner = SkinOf(log, tables, piece.InnerWood!, "inner");
        CoreMaterial core = MaterialTables.Find(tables.Cores, piece.Material)?.Item ?? throw new InputException("measure", MaterialTables.Unknown(tables.Cores, piece.Material, "core"));
        Adhesive glue = MaterialTables.Find(tables.Adhesives, piece.Adhesive!)?.Item ?? throw new InputException("measure", MaterialTables.Unknown(tables.Adhesives, piece.Adhesive!, "adhesive"));
        return PieceEvidence.OfSandwich(new()
        {
            Name = piece.Name,
            Outer = outer,
            Inner = inner,
            Core = new(core, new(1e-3, 0), 0),
            Adhesive = glue,
            Size = new(1, 1, 1),
            Solid = new(outer.Wood, null),
        }, readings);
    }

    // A skin's thickness cannot be measured once it is glued.
    private static Skin SkinOf(ShopLog log, MaterialTables tables, string named, string which)
    {
        string mend = $"make the {which} skin a piece of its own, measured before it was glued, and name it: piece correct … --{which}-wood \"piece 3\"";
        if (PieceMaterials.Number(named) is not { } number) { throw new InputException("measure", $"the {which} skin's thickness is not known, for '{named}' is a wood of the table: {mend}"); }
        Reading[] readings = [.. PieceMaterials.InTime(log.Readings(number)).Select(e => e.Reading!)];
        if (PieceFigures.Of(readings).Thickness is not { } thickness) { throw new InputException("measure", $"the {which} skin's thickness is not known: `sandwichmech piece read {number} --thickness …`"); }
        PieceMaterial material = PieceMaterials.Of(log, number, tables);
        Wood wood = material.Wood?.Item ?? throw new InputException("measure", material.Problem ?? $"{named} is no wood");
        return new(wood.Tapped(), thickness.Mean, 0);
    }

    private static MeasureResult Result(
        ShopLog log, Piece piece, IReadOnlyList<LogEntry> entries, ReadReadings read, PieceEvidence? evidence, string? missing, Identified? found, PieceFigures figures)
    {
        var notes = new List<string>(read.Warnings);
        if (missing is not null) { notes.Add($"{(missing.StartsWith("nothing", StringComparison.Ordinal) ? "" : "still missing: ")}{missing}"); }
        notes.AddRange(evidence?.Notes ?? []);
        double? chance = found is null || found.Readings.Count == 0 ? null : found.Chance;
        if (found is not null) { notes.AddRange(FoundRows.Doubts(found, "piece")); }
        if (found is not null && piece.Kind == PieceKind.Wood)
        {
            notes.Add(string.Create(CultureInfo.InvariantCulture, $"stiffness is as a tap finds it, the table's too: {100 * (Wood.TappedOverBent - 1):F1} % (5 to 10 %) more than a weight that lies for seconds finds and than `materials` lists"));
        }

        if (found is not null && Uneven(figures) is { } uneven) { notes.Add(uneven); }
        Wood? best = (found?.Best as WoodSample)?.Wood;
        return new()
        {
            Piece = PieceRow.Of(piece),
            Added = EntryRow.Of(entries),
            ReadBack = read.ReadBack,
            Properties =
            [
                .. found?.Properties.Select(FoundRows.Of) ?? [],
                .. found?.Losses.Select(l => new PropertyRow(l.Name, l.Symbol, Ratio, GiveOrTake.Of(l.Table), GiveOrTake.Of(l.Found))) ?? [],
            ],
            Readings = [.. found?.Readings.Select(FoundRows.Of) ?? []],
            OtherWays = [.. found?.OtherWays.Select(FoundRows.Of) ?? []],
            Chance = chance,
            Next = [.. found?.Next.Select(FoundRows.Of) ?? []],
            Modes = [.. found?.Modes.Select(m => new PieceMode(FoundRows.Lines(m.Mode.Lines), m.Mode.Frequency)) ?? []],
            MoisturePercent = (found?.Best as WoodSample)?.MoisturePercent,
            MoistureGiveOrTakePercent = evidence?.MoisturePercent is { } moisture ? Propagation.Z90 * moisture.Value * moisture.Spread : null,
            MoistureFrom = evidence?.MoistureFrom ?? "",
            ReferencePercent = best?.MoisturePercent,
            MoistureFactor = best is null ? null : Moisture.At(best, ((WoodSample)found!.Best).MoisturePercent).EL.Value / best.EL.Value,
            DensityAsRead = best is null ? null : Moisture.At(best, ((WoodSample)found!.Best).MoisturePercent).Density.Value,
            Notes = [.. notes, .. log.Warnings],
        };
    }

    // The fit takes an even plate. Stiffness goes with the mean of h³ and mass with that of h: of an even scatter s the two differ by 3 s² (second order of a Taylor series).
    private static string? Uneven(PieceFigures figures)
    {
        const double Much = 0.03;
        return figures.Thickness is { OverPlaces: { } sd } thickness && sd / thickness.Mean.Value is > Much and var share
            ? string.Create(CultureInfo.InvariantCulture, $"its thickness differs by {100 * share:F0} % (sd) from place to place, and it is taken as even: as bent all over, that makes it about {300 * share * share:F1} % stiffer than its mean thickness says; thinner at one end or at the middle, it reads otherwise by several times as much")
            : null;
    }

    /// <summary>A property's value in words.</summary>
    /// <param name="value">SI.</param>
    /// <param name="unit">SI unit, as the results name it.</param>
    /// <param name="symbol">Of the property.</param>
    /// <param name="units">Metric or inch.</param>
    /// <returns>As "13.6 GPa"; of a loss factor the number alone.</returns>
    public static string Text(double value, string unit, string symbol, UnitSystem units) =>
        unit == Ratio ? value.ToString("0.0000", CultureInfo.InvariantCulture) : Display.Text(value, ShownAs(unit, symbol), units);

    /// <summary>How a value of such a unit is shown.</summary>
    /// <param name="unit">SI unit, as the results name it.</param>
    /// <param name="symbol">Of a property: a core's moduli are small.</param>
    /// <returns>The kind of figure.</returns>
    public static Shown ShownAs(string unit, string symbol = "") => unit switch
    {
        "kg/m³" => Shown.Density,
        "kg/m²" => Shown.ArealDensity,
        "N·m" => Shown.BendingStiffness,
        "kg" => Shown.Mass,
        "m" => Shown.Thickness,
        "Hz" => Shown.Frequency,
        _ => symbol.StartsWith("G ", StringComparison.Ordinal) ? Shown.Stress : Shown.Modulus,
    };
}
