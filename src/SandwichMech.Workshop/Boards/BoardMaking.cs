using SandwichMech.Core.Building;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>Makes the board from fields that are all right, and says what was taken without being typed.</summary>
internal sealed class BoardMaking
{
    /// <summary>Limits of a thickness that was typed without a spread. Common practice of thickness sanding, no source.</summary>
    private const string DefaultLimits = "± 0.05 mm";

    private static readonly double DefaultDeviation =
        TypedValues.Read($"1 mm {DefaultLimits}", Dimension.Length).Value!.StandardDeviation;

    private readonly ReadFields _fields;
    private readonly Findings _findings;
    private readonly List<string> _unspread = [], _taken = [];

    private BoardMaking(ReadFields fields, Findings findings) => (_fields, _findings) = (fields, findings);

    /// <summary>Makes the board.</summary>
    /// <param name="text">The file's text.</param>
    /// <param name="fields">Its fields, without a mistake.</param>
    /// <param name="findings">Takes what is to be shown back.</param>
    internal static BoardFile Of(string text, ReadFields fields, Findings findings)
    {
        var making = new BoardMaking(fields, findings);
        making.ShowWhatWasReadOtherwise();
        DrawnShape.Show(fields, findings);
        Board board = making.Board();
        var criterion = BoardFields.CriterionOf(making.Given(BoardFields.Criterion).Name!);
        Bead? bead = fields.Typed(BoardFields.BeadMass) is { } mass && fields.Typed(BoardFields.BeadLine) is { } line
            ? new Bead(mass.Value, line.Value)
            : null;
        making.ShowWhatWasTaken();
        if (board.Shape is { } shape && shape.Regions.Any(r => r.Change is GluedBar))
        {
            findings.Show("bridge and braces are in the board's mass; what it saves is counted without them, since a solid top carries its own");
        }

        if (board.Shape?.Regions.Any(r => r.Change is AddedMass) == true)
        {
            findings.Show("added mass is in the board's mass; what it saves is counted without it, since a solid top carries it too");
        }

        return new(findings.Path, text, board, criterion, bead, findings.Warnings, findings.ReadBack) { Tables = fields.Tables };
    }

    private Board Board()
    {
        Skin outer = Skin(BoardFields.Outer);
        MadeShape? made = ShapeMaking.Of(_fields, _fields.Tables, outer.Wood, Given, Thickness, _findings);
        BoardShape? shape = made?.Shape;
        var board = new Board
        {
            Name = Name(),
            Outer = outer,
            Core = new(Material(_fields.Tables.Cores, BoardFields.CoreMaterial), Height(), Angle(BoardFields.Ribbon)),
            Inner = Skin(BoardFields.Inner),
            Adhesive = Adhesive(),
            Size = Size(shape),
            Shape = shape,
            Solid = new(SolidWood(outer.Wood), _fields.Typed(BoardFields.SolidThickness) is null ? null : Thickness(BoardFields.SolidThickness)),
        };
        if (made is not null)
        {
            RegionChecks.Together(board, made.Filed, _findings);
            _findings.ThrowIfWrong();
        }

        return board;
    }

    // The outline's own measures go before typed ones: they agree, or it is said.
    private BoardSize Size(BoardShape? shape)
    {
        double? length = _fields.Typed(BoardFields.Length)?.Value, width = _fields.Typed(BoardFields.Width)?.Value;
        if (shape is null)
        {
            return new(_fields.Typed(BoardFields.Area)!.Value, length, width);
        }

        _findings.Show($"area from the outline, less the hole: {Display.Text(shape.Area, Shown.Area, UnitSystem.Metric)}");
        if (_fields.Drawn is { } drawn)
        {
            return new(shape.Area, drawn.Measures.Length, drawn.Measures.Width);
        }

        return new(shape.Area, length, width ?? Math.Max(_fields.Typed(BoardFields.OutlineLower)!.Value, _fields.Typed(BoardFields.OutlineUpper)!.Value));
    }

    private string Name()
    {
        if (_fields.Reading(BoardFields.BoardName)?.Name is { } name)
        {
            return name;
        }

        string file = Path.GetFileNameWithoutExtension(_findings.Path);
        _taken.Add($"{BoardFields.BoardName.Name} {file}");
        return file;
    }

    private Skin Skin(SkinFields skin) =>
        new(Material(_fields.Tables.Woods, skin.Wood), Thickness(skin.Thickness), Angle(skin.Grain));

    private Estimate Thickness(BoardField field) => Estimate.FromSd(_fields.Typed(field)!.Value, Deviation(field));

    private double Deviation(BoardField field)
    {
        if (_fields.Typed(field)!.StandardDeviation is > 0 and var typed)
        {
            return typed;
        }

        if (!_unspread.Contains(field.Name))
        {
            _unspread.Add(field.Name);
        }

        return DefaultDeviation;
    }

    /// <summary>The core's height as typed, or what the skins leave of the board's thickness, with the spreads of all three.</summary>
    private Estimate Height()
    {
        if (_fields.Typed(BoardFields.CoreHeight) is not null)
        {
            return Thickness(BoardFields.CoreHeight);
        }

        double Of(BoardField field) => _fields.Typed(field)!.Value;
        double height = Of(BoardFields.TotalThickness) - Of(BoardFields.Outer.Thickness) - Of(BoardFields.Inner.Thickness);
        double variance = new[] { BoardFields.TotalThickness, BoardFields.Outer.Thickness, BoardFields.Inner.Thickness }
            .Select(Deviation).Sum(deviation => deviation * deviation);
        _findings.Show($"{BoardFields.CoreHeight.Name}: {Display.Text(height, Shown.Thickness, UnitSystem.Metric)}, what the skins leave of {BoardFields.TotalThickness.Name}");
        return Estimate.FromSd(height, Math.Sqrt(variance));
    }

    private double Angle(BoardField field) => Given(field).Value!.Value;

    private Adhesive Adhesive()
    {
        Adhesive row = Material(_fields.Tables.Adhesives, BoardFields.Product);
        return row with { Mixed = Own(BoardFields.Mixed, row.Mixed), KeptShare = Own(BoardFields.Kept, row.KeptShare) };

        // A figure typed without a spread keeps the relative spread of the adhesive's row: it varies no less for being typed.
        Estimate Own(BoardField field, Estimate ofRow)
        {
            if (_fields.Typed(field) is not { } typed)
            {
                return ofRow;
            }

            if (typed.StandardDeviation > 0)
            {
                return Estimate.FromSd(typed.Value, typed.StandardDeviation);
            }

            _findings.Show($"{field.Name}: no spread typed; that of {row.Name} kept, standard deviation {Display.Text(ofRow.Spread, Shown.Percent, UnitSystem.Metric)} of the value");
            return ofRow with { Value = typed.Value };
        }
    }

    private Wood SolidWood(Wood outer)
    {
        if (_fields.IsGiven(BoardFields.SolidWood))
        {
            return Material(_fields.Tables.Woods, BoardFields.SolidWood);
        }

        _taken.Add($"{BoardFields.SolidWood.Name} {outer.Name}");
        return outer;
    }

    private T Material<T>(IReadOnlyList<Listed<T>> rows, BoardField field) => MaterialTables.Find(rows, Given(field).Name!)!.Item;

    /// <summary>What was read for a field, or its default, which is then listed as taken.</summary>
    private FieldReading Given(BoardField field)
    {
        if (_fields.Reading(field) is { } reading)
        {
            return reading;
        }

        _taken.Add($"{field.Name} {field.Default}");
        return FieldReader.Read(field, field.Default!, _fields.Tables);
    }

    private void ShowWhatWasReadOtherwise()
    {
        foreach (BoardField field in BoardFields.All)
        {
            if (_fields.Reading(field) is not { } reading)
            {
                continue;
            }

            if (field.Kind is NameKind && !string.Equals(reading.Typed?.Trim(), reading.Name, StringComparison.OrdinalIgnoreCase))
            {
                _findings.Show($"{field.Name}: '{TypedText.OneLine(reading.Typed ?? "")}' is read as {reading.Name}{(reading.Piece is { } piece ? $": {piece.Measured}" : "")}");
            }
            else if (field.Kind is TypedKind { TakesSpread: true } && reading.Value?.SpreadReading is { } spread)
            {
                _findings.Show($"{field.Name}: {spread}");
            }
            else if (field.Kind is FolderKind)
            {
                _findings.Show($"{field.Name}: own tables read from {reading.Name}");
            }
        }
    }

    private void ShowWhatWasTaken()
    {
        if (_unspread.Count > 0)
        {
            _findings.Show($"{string.Join(", ", _unspread)}: no spread typed; {DefaultLimits} taken as limits, standard deviation {DefaultDeviation * 1000:F3} mm (common practice, no source)");
        }

        if (_taken.Count > 0)
        {
            _findings.Show($"not given, so taken: {string.Join("; ", _taken)}");
        }
    }
}
