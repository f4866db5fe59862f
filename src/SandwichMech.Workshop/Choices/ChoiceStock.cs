using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Pieces;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Choices;

/// <summary>A row of the stock file.</summary>
/// <param name="Material">A wood, a core, or a piece of the log, by the tables' own name.</param>
/// <param name="Height">Of a core sheet, m; nothing where the row is of any height or of a wood.</param>
/// <param name="HeightText">The same as typed.</param>
/// <param name="Price">In the maker's own money, where it stands there.</param>
/// <param name="Hours">Of work, where they stand there.</param>
internal sealed record StockRow(string Material, double? Height, string? HeightText, double? Price, double? Hours);

/// <summary>What the shop has: the log's pieces and the rows of a stock file.</summary>
/// <param name="Pieces">Gives the numbers of the log's pieces that are wood or core.</param>
/// <param name="Rows">Rows of the file.</param>
/// <param name="Tables">Where names are looked up.</param>
internal sealed record ChoiceStock(Func<IReadOnlyList<int>> Pieces, IReadOnlyList<StockRow> Rows, MaterialTables Tables)
{
    private const int LargestFile = 1_000_000;
    private const string Columns = "material,height,price,hours";

    /// <summary>Reads a stock file.</summary>
    /// <param name="path">CSV with the columns material, height, price, hours; all but the first may be left out.</param>
    /// <param name="tables">Where names are looked up.</param>
    /// <exception cref="InputException">It cannot be read; every mistake is named.</exception>
    internal static IReadOnlyList<StockRow> Read(string path, MaterialTables tables)
    {
        string text = System.Text.Encoding.UTF8.GetString(GivenFile.Bytes(path, "stock file", LargestFile)).TrimStart('\uFEFF');
        var problems = new List<Problem>();
        using var parser = new CsvParser(new StringReader(text), new CsvConfiguration(CultureInfo.InvariantCulture) { AllowComments = true, TrimOptions = TrimOptions.Trim, BadDataFound = null });
        string[] header = parser.Read() ? [.. parser.Record!.Select(c => c.ToLowerInvariant())] : [];
        if (!header.Contains("material")) { throw new InputException([new(path, 1, null, $"the first line has to name the columns: {Columns}")]); }
        if (header.FirstOrDefault(h => !Columns.Split(',').Contains(h)) is { } unknown) { throw new InputException([new(path, 1, unknown, $"is no column of a stock file: {Columns} are")]); }
        var rows = new List<StockRow>();
        while (parser.Read())
        {
            string[] cells = parser.Record!;
            int line = parser.RawRow;
            string Cell(string name) => Array.IndexOf(header, name) is >= 0 and var i && i < cells.Length ? cells[i] : "";
            FieldReading wood = FieldReader.Read(BoardFields.Outer.Wood, Cell("material"), tables), core = FieldReader.Read(BoardFields.CoreMaterial, Cell("material"), tables);
            if (wood.Problem is not null && core.Problem is not null)
            {
                problems.Add(new(path, line, "material", $"'{Cell("material")}' is neither a wood nor a core that is known (`sandwichmech materials` lists them)"));
                continue;
            }

            double? height = null;
            if (Cell("height") is { Length: > 0 } typed)
            {
                FieldReading read = FieldReader.Read(BoardFields.CoreHeight, typed, tables);
                if (read.Problem is { } problem) { problems.Add(new(path, line, "height", problem)); }
                height = read.Value?.Value;
            }

            rows.Add(new(PieceMaterials.Number(Cell("material")) is { } piece ? PieceMaterials.NameOf(piece) : wood.Name ?? core.Name!, height, height is null ? null : Cell("height"), Plain("price"), Plain("hours")));

            double? Plain(string column)
            {
                if (Cell(column) is not { Length: > 0 } cell) { return null; }
                ReadResult read = TypedValues.Read(cell, Dimension.Ratio, "1");
                if (read.Value is { Value: >= 0 } value) { return value.Value; }
                problems.Add(new(path, line, column, read.Problem ?? $"'{cell}' is less than 0"));
                return null;
            }
        }

        return problems.Count > 0 ? throw new InputException(problems)
            : rows.Count > 0 ? rows : throw new InputException(path, "holds no row below its first line: write a material in each, or leave --stock out");
    }

    /// <summary>All materials of a kind that are in stock.</summary>
    internal IReadOnlyList<FreeValue> Of(MaterialKind kind, string typed)
    {
        BoardField field = kind == MaterialKind.Core ? BoardFields.CoreMaterial : BoardFields.Outer.Wood;
        string[] names = [.. Pieces().Select(PieceMaterials.NameOf).Concat(Rows.Select(r => r.Material)).Where(n => FieldReader.Read(field, n, Tables).Problem is null).Distinct()];
        return names.Length > 0 ? [.. names.Select(n => new FreeValue(n, null))]
            : throw FreeField.Refuse(typed, $"nothing of this kind is in stock: `sandwichmech piece add {(kind == MaterialKind.Core ? "core" : "wood")} …` puts a piece into the log, --stock FILE names what else there is");
    }

    /// <summary>Price and hours of a material; nothing where no row tells.</summary>
    internal StockRow? Row(string material, double? height = null)
    {
        // The file calls a piece "piece 3", the tables "piece 3 (Sitka spruce)".
        bool Is(StockRow r) => string.Equals(r.Material, material, StringComparison.OrdinalIgnoreCase) || (PieceMaterials.Number(r.Material) is not null && material.StartsWith(r.Material + " (", StringComparison.OrdinalIgnoreCase));
        return Rows.FirstOrDefault(r => Is(r) && r.Height is { } h && height is { } wanted && Math.Abs(h - wanted) < 1e-6) ?? Rows.FirstOrDefault(r => Is(r) && r.Height is null);
    }
}
