using SandwichMech.Core.Choosing;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Pieces;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Choices;

/// <summary>One combination of what comes in kinds, as fields of the board file.</summary>
/// <param name="Fields">Each free field but the skins' thicknesses, with its value.</param>
/// <param name="Variant">The boards of it.</param>
/// <param name="Outer">Thicknesses of the outer skin, in the order of the variant.</param>
/// <param name="Inner">Of the inner skin.</param>
internal sealed record BoardKind(IReadOnlyList<(BoardField Field, string Text)> Fields, ChoiceVariant Variant, IReadOnlyList<FreeValue> Outer, IReadOnlyList<FreeValue> Inner);

/// <summary>Makes all combinations of the free fields: each is the board file with other values, read as any board file is.</summary>
internal static class BoardKinds
{
    private const int MostKinds = 400, MostBoards = 2_000_000;
    private static readonly string[] UsualSteps = ["outer.thickness 0.4 mm to 1.2 mm by 0.05 mm", "inner.thickness 0.4 mm to 1.2 mm by 0.05 mm"];

    /// <summary>Makes them.</summary>
    /// <param name="file">The board as read.</param>
    /// <param name="typed">Free fields as typed; none: both skins on usual steps.</param>
    /// <param name="stock">What is in stock.</param>
    /// <param name="sand">Half width of the skins' limits, m, where it was typed.</param>
    /// <param name="taken">Told what was taken without being typed.</param>
    /// <exception cref="InputException">A field cannot be read, or a combination makes no board.</exception>
    internal static IReadOnlyList<BoardKind> Of(BoardFile file, IReadOnlyList<string> typed, ChoiceStock stock, double? sand, List<string> taken)
    {
        if (typed.Count == 0) { taken.Add($"nothing is said to be free (--free), so both skins are: {UsualSteps[0]["outer.thickness ".Length..]} each"); }
        FreeField[] free = [.. (typed.Count == 0 ? UsualSteps : typed).Select(t => FreeField.Read(t, file.Tables, stock))];
        if (free.GroupBy(f => f.Field).FirstOrDefault(g => g.Count() > 1) is { } twice) { throw new InputException("--free", $"'{twice.Key.Name}' is named twice: put all its values into one"); }
        FreeValue[] outer = Thicknesses(free, BoardFields.Outer.Thickness, file.Board.Outer.Thickness), inner = Thicknesses(free, BoardFields.Inner.Thickness, file.Board.Inner.Thickness);
        // Pieces are looked up and fitted once, not for each combination again.
        file = file with { Tables = free.SelectMany(f => f.Values).Aggregate(file.Tables, (t, v) => PieceMaterials.Number(v.Text) is { } n && t.Pieces is { } log ? t.With(log(n, t)) : t) };
        FreeField[] kinds = [.. free.Where(f => !FreeField.IsSkin(f.Field))];
        double count = kinds.Aggregate(1.0, (n, f) => n * f.Values.Count);
        if (count > MostKinds) { throw new InputException("--free", $"that makes {count:F0} kinds of board; at most {MostKinds}: name fewer values"); }
        if (count * outer.Length * inner.Length > MostBoards) { throw new InputException("--free", $"that makes {count * outer.Length * inner.Length:F0} boards; at most {MostBoards}: choose larger steps"); }
        CheckSanding(sand, outer, inner);
        var shapes = new Dictionary<string, int>();
        var made = new List<BoardKind>();
        foreach ((BoardField Field, string Text)[] fields in Combinations(kinds, file))
        {
            if (Kind(file, fields, shapes, outer, inner, sand) is { } kind) { made.Add(kind); }
        }

        return made.Count > 0 ? made
            : throw new InputException("--free", "no piece in stock is as thick as the thinnest skin that you ask for: allow thinner skins, or name other pieces");
    }

    private static FreeValue[] Thicknesses(FreeField[] free, BoardField field, Estimate own) =>
        free.FirstOrDefault(f => f.Field == field)?.Values.OrderBy(v => v.Value).ToArray() ?? [new(Display.Text(own.Value, Shown.Thickness, UnitSystem.Metric), own.Value)];

    private static void CheckSanding(double? sand, IReadOnlyList<FreeValue> outer, IReadOnlyList<FreeValue> inner)
    {
        FreeValue thinnest = outer.Concat(inner).MinBy(v => v.Value)!;
        if (sand >= thinnest.Value) { throw new InputException("--sand", $"is wider than the thinnest skin of {thinnest.Text}: type the limits that you sand to, as \"± 0.05 mm\""); }
    }

    private static IEnumerable<(BoardField Field, string Text)[]> Combinations(FreeField[] kinds, BoardFile file)
    {
        IEnumerable<(BoardField Field, string Text)[]> all = [[]];
        foreach (FreeField f in kinds)
        {
            all = [.. all.SelectMany(before => f.Values.Select(v => ((BoardField, string)[])[.. before, (f.Field, v.Text)]))];
        }

        // A core sheet of the log is as high as it is, so that of other heights with it only one stays.
        return all.Select(fields => OfPiece(fields, file)).DistinctBy(fields => string.Join('\n', fields.Select(f => f.Text)));
    }

    private static (BoardField Field, string Text)[] OfPiece((BoardField Field, string Text)[] fields, BoardFile file)
    {
        string? core = fields.Where(f => f.Field == BoardFields.CoreMaterial).Select(f => f.Text).FirstOrDefault();
        if (core is null || PieceMaterials.Number(core) is null) { return fields; }
        double height = ThicknessOf(core, file.Tables)
            ?? throw new InputException("--free", $"{core} is a core sheet whose height was not measured: `sandwichmech piece read` it first, or leave it out");
        string text = Display.Text(height, Shown.Thickness, UnitSystem.Metric);
        return [.. fields.Where(f => f.Field != BoardFields.CoreHeight), (BoardFields.CoreHeight, text)];
    }

    private static double? ThicknessOf(string material, MaterialTables tables) => PieceMaterials.Number(material) is { } number ? tables.Pieces?.Invoke(number, tables).Thickness : null;

    private static BoardKind? Kind(
        BoardFile file, (BoardField Field, string Text)[] fields, Dictionary<string, int> shapes, IReadOnlyList<FreeValue> outer, IReadOnlyList<FreeValue> inner, double? sand)
    {
        Board board = file.Board;
        if (fields.Length > 0)
        {
            string text = fields.Aggregate(file.Text, (t, f) => BoardText.WithValue(t, f.Field.Table.Name, f.Field.Key, f.Text));
            try
            {
                // The solid top stays the one it was, whatever the skins are of.
                board = BoardFiles.Parse(file.Path, text, file.Tables).Board with { Solid = file.Board.Solid };
            }
            catch (InputException e)
            {
                throw new InputException([.. e.Problems.Select(p => p with { Where = "--free", Line = null, Message = $"{p.Message} (with {string.Join(", ", fields.Select(f => $"{f.Field.Name} {f.Text}"))})" })]);
            }
        }

        if (sand is { } limits)
        {
            board = board with
            {
                Outer = board.Outer with { Thickness = Estimate.FromSd(board.Outer.Thickness.Value, limits / Math.Sqrt(3)) },
                Inner = board.Inner with { Thickness = Estimate.FromSd(board.Inner.Thickness.Value, limits / Math.Sqrt(3)) },
            };
        }

        string shape = string.Join('\n', fields.Where(f => new FreeField(f.Field, []).ChangesShape).Select(f => f.Text));
        if (!shapes.TryGetValue(shape, out int number)) { shapes[shape] = number = shapes.Count; }
        FreeValue[] outers = NoThicker(outer, BoardFields.Outer.Wood), inners = NoThicker(inner, BoardFields.Inner.Wood);
        return outers.Length == 0 || inners.Length == 0 ? null
            : new(fields, new(board, number, [.. outers.Select(v => v.Value!.Value)], [.. inners.Select(v => v.Value!.Value)]), outers, inners);

        // A skin is sanded down from its piece.
        FreeValue[] NoThicker(IReadOnlyList<FreeValue> values, BoardField wood)
        {
            string? name = fields.Where(f => f.Field == wood).Select(f => f.Text).FirstOrDefault();
            double? most = name is null ? null : ThicknessOf(name, file.Tables);
            return [.. values.Where(v => most is null || v.Value <= most * (1 + 1e-9))];
        }
    }
}
