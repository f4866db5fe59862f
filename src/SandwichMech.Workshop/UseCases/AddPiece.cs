using System.Globalization;
using SandwichMech.Core.Identification;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Pieces;
using SandwichMech.Workshop.Tables;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A piece as it is typed.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Material">Wood or core; of a sandwich, its core.</param>
/// <param name="Name">The maker's own words.</param>
/// <param name="OuterWood">Wood of a sandwich's outer skin, or "piece 3".</param>
/// <param name="InnerWood">Wood of its inner skin, or "piece 3".</param>
/// <param name="Adhesive">Its adhesive.</param>
public sealed record PieceWords(PieceKind Kind, string Material, string? Name, string? OuterWood, string? InnerWood, string? Adhesive);

/// <summary>What `piece add`, `piece read` and `piece correct` answer.</summary>
/// <param name="Log">File of the log.</param>
/// <param name="Piece">The piece.</param>
/// <param name="Added">The entries that were added.</param>
/// <param name="Figures">What weighing and measuring say now.</param>
/// <param name="ReadBack">How spreads were read, and what was taken without being typed.</param>
/// <param name="Warnings">What is unusual, and what is to be said about the log.</param>
public sealed record PieceChanged(string Log, PieceRow Piece, IReadOnlyList<EntryRow> Added, FiguresRow Figures, IReadOnlyList<string> ReadBack, IReadOnlyList<string> Warnings);

/// <summary>Adds pieces and readings, and corrects them.</summary>
public static class AddPiece
{
    private const int LongestName = 200;

    /// <summary>Adds a piece with its first readings.</summary>
    /// <param name="log">The log.</param>
    /// <param name="tables">Where materials are looked up.</param>
    /// <param name="piece">The piece.</param>
    /// <param name="readings">What was read off it.</param>
    /// <param name="at">When; now if nothing is given.</param>
    /// <returns>What was added.</returns>
    /// <exception cref="InputException">A material is not known or a reading cannot be meant; nothing was written.</exception>
    public static PieceChanged Run(ShopLog log, MaterialTables tables, PieceWords piece, ReadingWords readings, DateTimeOffset? at = null)
    {
        Piece checkedPiece = Checked(piece, tables, 0);
        ReadReadings read = TypedReadings.Read(piece.Kind, readings);
        Piece added = log.AddPiece(
            piece.Kind, checkedPiece.Material, checkedPiece.Name, checkedPiece.OuterWood, checkedPiece.InnerWood, checkedPiece.Adhesive, read.Readings, at);
        return Changed(log, added.Number, log.History(added.Number), read);
    }

    /// <summary>Adds readings to a piece.</summary>
    /// <param name="log">The log.</param>
    /// <param name="number">The piece's number.</param>
    /// <param name="readings">What was read off it.</param>
    /// <param name="at">When; now if nothing is given.</param>
    /// <returns>What was added.</returns>
    /// <exception cref="InputException">There is no such piece, or a reading cannot be meant; nothing was written.</exception>
    public static PieceChanged Read(ShopLog log, int number, ReadingWords readings, DateTimeOffset? at = null)
    {
        Piece piece = log.Piece(number);
        ReadReadings read = TypedReadings.Read(piece.Kind, readings, PieceMaterials.InTime(log.Readings(number)).Select(e => e.Reading!));
        if (read.Readings.Count == 0)
        {
            throw new InputException("piece read", "no reading is given: write for example --weight \"212.4 g\"");
        }

        return Changed(log, number, log.AddReadings(number, read.Readings, at), read);
    }

    /// <summary>Replaces a reading.</summary>
    /// <param name="log">The log.</param>
    /// <param name="number">The piece's number.</param>
    /// <param name="entry">The entry to replace.</param>
    /// <param name="readings">The reading as it should be; one.</param>
    /// <param name="at">When; as before if nothing is given.</param>
    /// <returns>What was added.</returns>
    /// <exception cref="InputException">There is no such entry, or the reading cannot be meant; nothing was written.</exception>
    public static PieceChanged Correct(ShopLog log, int number, long entry, ReadingWords readings, DateTimeOffset? at = null)
    {
        Piece piece = log.Piece(number);
        ReadReadings read = TypedReadings.Read(piece.Kind, readings, PieceMaterials.InTime(log.Readings(number)).Where(e => e.Number != entry).Select(e => e.Reading!));
        return read.Readings is [var right]
            ? Changed(log, number, [log.AddReading(number, right.Reading, right.AsTyped, at, entry)], read)
            : throw new InputException("piece correct", "give the one reading as it should be, for example --weight \"212.4 g\"; or --withdraw to take the entry back; or --material, --name and so on to say anew what the piece is");
    }

    /// <summary>Says anew what a piece is.</summary>
    /// <param name="log">The log.</param>
    /// <param name="tables">Where materials are looked up.</param>
    /// <param name="number">The piece's number.</param>
    /// <param name="entry">The entry that says it so far.</param>
    /// <param name="words">What is to change; the rest stays. The kind is the piece's own.</param>
    /// <returns>What was added.</returns>
    /// <exception cref="InputException">There is no such entry, or a material is not known; nothing was written.</exception>
    public static PieceChanged Describe(ShopLog log, MaterialTables tables, int number, long entry, Func<PieceWords, PieceWords> words)
    {
        Piece piece = log.Piece(number);
        long said = log.History(number).Last(e => e.Text is not null).Number;
        if (entry != said)
        {
            throw new InputException("piece correct", string.Create(CultureInfo.InvariantCulture, $"what piece {number} is stands in entry {said}, not in {entry}: `sandwichmech piece show {number}` lists the entries"));
        }

        Piece right = Checked(words(new(piece.Kind, piece.Material, piece.Name, piece.OuterWood, piece.InnerWood, piece.Adhesive)), tables, number);
        return Changed(log, number, [log.Describe(right)], new([], [], []));
    }

    /// <summary>Takes an entry back.</summary>
    /// <param name="log">The log.</param>
    /// <param name="number">The piece's number.</param>
    /// <param name="entry">The entry; the one that says what the piece is takes the piece with it.</param>
    /// <param name="why">Why, may be empty.</param>
    /// <returns>What was added.</returns>
    /// <exception cref="InputException">There is no such entry in force.</exception>
    public static PieceChanged Withdraw(ShopLog log, int number, long entry, string why)
    {
        Piece piece = log.Piece(number);
        LogEntry withdrawn = log.Withdraw(number, entry, why);
        PieceFigures figures = Figures(log.History(number));
        return new(log.File, PieceRow.Of(piece), EntryRow.Of([withdrawn]), FiguresRow.Of(figures), [], log.Warnings);
    }

    private static PieceChanged Changed(ShopLog log, int number, IReadOnlyList<LogEntry> added, ReadReadings read) => new(
        log.File, PieceRow.Of(log.Piece(number)), EntryRow.Of(added), FiguresRow.Of(Figures(log.History(number))), read.ReadBack, [.. read.Warnings, .. log.Warnings]);

    private static PieceFigures Figures(IEnumerable<LogEntry> history) =>
        PieceFigures.Of(PieceMaterials.InTime(history.Where(e => e.CorrectedBy is null)).Select(e => e.Reading).OfType<Reading>());

    private static Piece Checked(PieceWords words, MaterialTables tables, int number)
    {
        var problems = new List<Problem>();
        string name = words.Name?.Trim() ?? "";
        if (name.Length > LongestName || name.Any(char.IsControl))
        {
            Wrong("--name", $"write one line of at most {LongestName} characters");
        }

        string material = words.Kind == PieceKind.Wood
            ? Known(tables.Woods, words.Material, "wood", "--material", "give the species, as \"Sitka spruce\"")
            : Known(tables.Cores, words.Material, "core", "--material", words.Kind == PieceKind.Core ? "give the kind of sheet" : "give the sandwich's core");
        bool isSandwich = words.Kind == PieceKind.Sandwich;
        foreach ((string option, string? given) in new[] { ("--outer-wood", words.OuterWood), ("--inner-wood", words.InnerWood), ("--adhesive", words.Adhesive) })
        {
            if (isSandwich && string.IsNullOrWhiteSpace(given))
            {
                Wrong(option, $"a sandwich needs it: write for example {option} {(option == "--adhesive" ? "\"" + (tables.Adhesives.Count > 0 ? tables.Adhesives[0].Name : "epoxy") + "\"" : "\"Sitka spruce\" or \"piece 3\"")}");
            }
            else if (!isSandwich && given is not null)
            {
                Wrong(option, $"only a sandwich has it, and this is {(words.Kind == PieceKind.Wood ? "wood" : "a core sheet")}: leave it out, or add a sandwich");
            }
        }

        string? Skin(string option, string? given) => !isSandwich || string.IsNullOrWhiteSpace(given) ? null
            : PieceMaterials.Number(given) is { } piece ? SkinPiece(option, piece)
            : Known(tables.Woods, given, "wood", option, "");
        string? outer = Skin("--outer-wood", words.OuterWood), inner = Skin("--inner-wood", words.InnerWood);
        string? adhesive = !isSandwich || string.IsNullOrWhiteSpace(words.Adhesive) ? null : Known(tables.Adhesives, words.Adhesive, "adhesive", "--adhesive", "");
        return problems.Count == 0
            ? new(number, words.Kind, material, name) { OuterWood = outer, InnerWood = inner, Adhesive = adhesive }
            : throw new InputException(problems);

        string Known<T>(IReadOnlyList<Listed<T>> rows, string typed, string what, string option, string hint)
        {
            if (string.IsNullOrWhiteSpace(typed))
            {
                Wrong(option, $"nothing is written here: {hint}");
            }
            else if (MaterialTables.Find(rows, typed) is { } row)
            {
                return row.Name;
            }
            else
            {
                Wrong(option, MaterialTables.Unknown(rows, typed, what));
            }

            return typed;
        }

        string SkinPiece(string option, int piece)
        {
            PieceMaterial found = tables.Pieces?.Invoke(piece, tables) ?? new(null, null, "there is no log here to find pieces in");
            if (found.Wood is null)
            {
                Wrong(option, found.Problem ?? $"{found.Name} is a core; a wood is wanted");
            }

            return string.Create(CultureInfo.InvariantCulture, $"piece {piece}");
        }

        void Wrong(string option, string message) => problems.Add(new(option, null, null, message));
    }
}
