using SandwichMech.Core.Outlines;

namespace SandwichMech.Workshop.Boards;

/// <summary>Holes beside the soundhole: ports, jack holes, a second soundhole.</summary>
internal static class ExtraHoles
{
    private static readonly BoardTable Table = new("extra_hole", "A further hole, through skins and core.") { IsList = true };
    private static readonly PlaceFields Place = new(Table, "10 mm", "20 mm", "425 mm", "70 mm");

    /// <summary>The fields, in the order of the file.</summary>
    internal static IReadOnlyList<BoardField> Fields { get; } = Place.All;

    /// <summary>Those whose examples exclude those of others.</summary>
    internal static IReadOnlyList<BoardField> Excluded => Place.Excluded;

    /// <summary>Reports holes that are not well given, or that reach the outline or another hole; gives those that are right.</summary>
    internal static IReadOnlyList<Curve> Check(ReadFields board, Curve? outline, Curve? soundhole, Findings findings)
    {
        List<Curve> before = soundhole is null ? [] : [soundhole];
        int own = before.Count;
        foreach (ReadFields item in board.Items(Table))
        {
            if (!Place.Check(item, board, findings) || outline is null) { continue; }
            BoardField place = Place.Place(item);
            foreach (Curve hole in Place.Curves(item, board))
            {
                if (!outline.Contains(hole.At(0)) || Crossings.Between(hole, outline).Count > 0)
                {
                    findings.Report(item.LineOrNull(place), place.Name, "there the hole reaches the outline: move it, or make it smaller");
                    break;
                }

                if (before.Any(b => Crossings.Between(hole, b).Count > 0 || b.Contains(hole.At(0)) || hole.Contains(b.At(0))))
                {
                    findings.Report(item.LineOrNull(place), place.Name, "there the hole reaches another hole: move it, or make it smaller");
                    break;
                }

                before.Add(hole);
            }
        }

        return before[own..];
    }

    /// <summary>The holes.</summary>
    internal static IEnumerable<Curve> Of(ReadFields board) => board.Items(Table).SelectMany(item => Place.Curves(item, board));
}
