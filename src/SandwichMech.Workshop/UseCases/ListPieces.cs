using SandwichMech.Core.Identification;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Pieces;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A piece in the list.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="Readings">Number of readings in force.</param>
/// <param name="LastAtUtc">When it was last read; nothing where it never was.</param>
/// <param name="Figures">What weighing and measuring say.</param>
public sealed record ListedPiece(PieceRow Piece, int Readings, DateTimeOffset? LastAtUtc, FiguresRow Figures);

/// <summary>What `piece list` answers.</summary>
/// <param name="Log">File of the log.</param>
/// <param name="Pieces">All pieces but withdrawn ones.</param>
/// <param name="Warnings">What is to be said about the log.</param>
public sealed record PiecesResult(string Log, IReadOnlyList<ListedPiece> Pieces, IReadOnlyList<string> Warnings);

/// <summary>Lists the pieces.</summary>
public static class ListPieces
{
    /// <summary>All pieces of the log.</summary>
    /// <param name="log">The log.</param>
    /// <returns>The list.</returns>
    public static PiecesResult Run(ShopLog log) => new(log.File, [.. log.Pieces().Select(p => Listed(log, p))], log.Warnings);

    private static ListedPiece Listed(ShopLog log, Piece piece)
    {
        IReadOnlyList<LogEntry> readings = PieceMaterials.InTime(log.Readings(piece.Number));
        return new(PieceRow.Of(piece), readings.Count, readings.Count > 0 ? readings[^1].At : null, FiguresRow.Of(PieceFigures.Of(readings.Select(e => e.Reading!))));
    }
}
