using System.Globalization;
using SandwichMech.Core.Identification;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Pieces;

namespace SandwichMech.Workshop.UseCases;

/// <summary>What `piece show` answers.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="Entries">All that the log says of it, corrected and withdrawn entries too.</param>
/// <param name="Figures">What the last weighing and measuring say.</param>
/// <param name="Notes">What is missing for a figure, or leaves it open.</param>
/// <param name="Warnings">What is to be said about the log.</param>
public sealed record PieceResult(PieceRow Piece, IReadOnlyList<EntryRow> Entries, FiguresRow Figures, IReadOnlyList<string> Notes, IReadOnlyList<string> Warnings);

/// <summary>Shows one piece.</summary>
public static class ShowPiece
{
    /// <summary>A piece with all that was read off it.</summary>
    /// <param name="log">The log.</param>
    /// <param name="number">The piece's number.</param>
    /// <returns>The piece.</returns>
    /// <exception cref="InputException">There is no such piece.</exception>
    public static PieceResult Run(ShopLog log, int number)
    {
        Piece piece = log.Piece(number);
        PieceFigures figures = PieceFigures.Of(PieceMaterials.InTime(log.Readings(number)).Select(e => e.Reading!));
        return new(PieceRow.Of(piece), EntryRow.Of(log.History(number)), FiguresRow.Of(figures), Notes(piece, figures), log.Warnings);
    }

    private static List<string> Notes(Piece piece, PieceFigures figures)
    {
        var notes = new List<string>();
        string[] missing = [.. new[]
        {
            figures.Mass is null ? "--weight" : "",
            figures.Length is null ? "--length" : "",
            figures.Width is null ? "--width" : "",
            figures.Thickness is null ? "--thickness" : "",
        }.Where(m => m.Length > 0)];
        if (missing.Length > 0)
        {
            notes.Add(string.Create(CultureInfo.InvariantCulture, $"no density yet: `sandwichmech piece read {piece.Number}` takes what is missing ({string.Join(", ", missing)})"));
        }

        if (figures.Thickness is { Places: 1 })
        {
            notes.Add("one place says nothing of how even the thickness is: measure at several");
        }

        return notes;
    }
}
