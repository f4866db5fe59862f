using System.Globalization;
using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;

namespace SandwichMech.Workshop.UseCases;

/// <summary>The solid tops that equal a board: by its layup alone, on its outline where it has one, by a strip or a rectangle where not.</summary>
internal sealed class SolidsOnOutline(BoardFile file, IPredicting<BoardFigures> figures)
{
    /// <summary>Modes looked at to find the one that is the board's first.</summary>
    private const int Modes = 3;

    /// <summary>What stiffness at the bridge was looked at on.</summary>
    internal const string OnBridge = "sinking of the bridge on the outline";

    /// <summary>Wanted numerical error of the frequencies.</summary>
    internal const double Accuracy = 3e-3;

    private readonly List<string> _notes = [];
    private readonly Lazy<OutlineCriterion?> _first = new(() => OutlineSolving.Try(file, "modes", () => FirstMode(file.Board)));
    private readonly Lazy<OutlineCriterion?> _bridge = new(() => OutlineSolving.Try(file, "deflections", () => AtBridge(file.Board, withError: true)));

    /// <summary>The figures of a board; where no solid top can equal it, it is said.</summary>
    /// <exception cref="InputException">No solid top equals it.</exception>
    internal static IPredicting<BoardFigures> Figures(BoardFile file, Board board, Draws? draws = null)
    {
        try
        {
            return draws is null ? BoardFigures.WithSpread(board) : BoardFigures.Drawn(board, draws);
        }
        catch (NoSolidException e)
        {
            throw Refusal(file, e);
        }
    }

    internal static InputException Refusal(BoardFile file, NoSolidException e) =>
        new(file.Path, $"{BoardFields.SolidWood.Name}: {e.Message.TrimEnd('.')}; write another wood, or see whether a thickness or the unit of one is a slip");

    /// <summary>Whether a criterion is met on the board's outline.</summary>
    /// <exception cref="InputException">The outline cannot be meshed.</exception>
    internal OutlineCriterion? On(StiffnessCriterion criterion) =>
        file.Board.Shape is null || !StiffnessMeasure.NeedsRectangle(criterion) ? null
        : criterion == StiffnessCriterion.FirstMode ? _first.Value
        : _bridge.Value;

    /// <summary>The solid top that equals the board by a criterion.</summary>
    /// <exception cref="InputException">None does.</exception>
    internal SolidRow Row(StiffnessCriterion criterion)
    {
        if (On(criterion) is not { } on)
        {
            return EstimateBoard.Solid(figures, file.Board, criterion, By(criterion));
        }

        SolidOnOutline solid = OutlineSolving.Try(file, "solid top", () => EqualOnOutline.Solid(on)) ?? throw Refusal(file, new(file.Board.Solid.Wood.Name));
        if (solid.Mode is > 0 and var mode)
        {
            _notes.Add(string.Create(CultureInfo.InvariantCulture, $"the mode that is the board's first by its shape is the solid top's number {mode + 1}: the two woods order their modes otherwise"));
        }

        return new(BoardFields.NameOf(criterion), file.Board.Solid.Wood.Name, By(criterion), solid.Thickness, solid.Mass, solid.Saved, solid.SavedShare);
    }

    /// <summary>The board's skins that equal the named solid top by a criterion.</summary>
    internal MatchingSkins? Skins(StiffnessCriterion criterion) =>
        On(criterion) is { } on ? OutlineSolving.Try(file, "skins", () => EqualOnOutline.Skins(on)) : EqualStiffness.Skins(criterion, file.Board);

    /// <summary>Stiffness under the bridge on a board's outline, with its numerical error where that is to be said; nothing where no bridge stands there or nothing holds the edge.</summary>
    internal static OutlineCriterion? AtBridge(Board board, bool withError = false)
    {
        BoardShape shape = board.Shape!;
        if (OutlineSolving.Bridge(shape) is not { } bridge || (shape.Edge == EdgeHold.Free && shape.Stretches.Count == 0)) { return null; }
        try
        {
            return OutlineCriterion.AtBridge(board, shape.Edge, bridge.Border[0], withError);
        }
        catch (UnsupportedPlateException)
        {
            return null;
        }
    }

    /// <summary>Why a board's mid-span deflection is a strip's although it has an outline.</summary>
    internal static string WhyStrip(BoardShape shape) => OutlineSolving.Bridge(shape) is null
        ? "the board file places no bridge ([bridge] or [bridge_patch])"
        : "its edge is free and bears no load (see [edge])";

    /// <summary>What was used for the criteria that need more than the layup, one line each.</summary>
    internal IReadOnlyList<string> Means(IReadOnlyList<StiffnessCriterion> criteria)
    {
        if (!criteria.Any(StiffnessMeasure.NeedsRectangle)) { return []; }
        if (file.Board.Shape is not { } shape)
        {
            return ["first mode and mid-span deflection are those of the rectangle with the board's area and proportions, hinged, and of a strip as long as it: an outline in the board file makes both the board's own"];
        }

        string edge = OutlineSolving.EdgeWords(shape);
        OutlineCriterion first = On(StiffnessCriterion.FirstMode)!;
        return
        [
            string.Create(CultureInfo.InvariantCulture, $"first mode: {Math.Exp(first.Own.Log):F1} Hz on the board's outline, edge {edge}, in air, numerical error at most {first.Error * 100:F2} %; the solid top on the same outline, its mode of the same shape"),
            .. _notes,
            On(StiffnessCriterion.MidSpanDeflection) is { } bridge
                ? string.Create(CultureInfo.InvariantCulture, $"mid-span deflection: the sinking of the bridge's foot on the board's outline, edge {edge}: {Math.Exp(bridge.Own.Log) / 1000:F1} N/mm, numerical error at most {bridge.Error * 100:F2} %; the solid top on the same outline")
                : $"mid-span deflection: of a strip along the grain under a line load, since {WhyStrip(shape)}",
            .. shape.IsHeld(EdgeHold.Rim, shape.Edge) ? [OutlineSolving.RimMeans] : (string[])[],
        ];
    }

    /// <summary>What a criterion was looked at on.</summary>
    internal static string By(StiffnessCriterion criterion, bool onOutline) => criterion switch
    {
        StiffnessCriterion.FirstMode => onOutline ? "first mode on the outline, in air" : "hinged rectangle",
        StiffnessCriterion.MidSpanDeflection => onOutline ? OnBridge : "strip along the grain",
        _ => "layup",
    };

    private string By(StiffnessCriterion criterion) => By(criterion, On(criterion) is not null);

    private static OutlineCriterion? FirstMode(Board board)
    {
        OutlineFrame frame = OutlineFrame.For(board, Modes, Accuracy);
        return OutlineCriterion.FirstMode(frame, board, frame.Own);
    }
}
