using System.Reflection;
using SandwichMech.Core.Materials;
using SandwichMech.Workshop.Pieces;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Tables;

/// <summary>A row of a table: the material, its other names, and where its values come from.</summary>
/// <typeparam name="T">Wood, core or adhesive.</typeparam>
/// <param name="Item">The material.</param>
/// <param name="Name">Its name.</param>
/// <param name="Also">Other names it is found by.</param>
/// <param name="Use">What it is used for, or its kind.</param>
/// <param name="Source">Source keys, explained in SOURCES.md, or 'from memory', or 'common practice, no source'.</param>
/// <param name="Note">What else to know.</param>
/// <param name="Table">The table that it was read from.</param>
public sealed record Listed<T>(
    T Item, string Name, IReadOnlyList<string> Also, string Use, string Source, string Note, string Table);

/// <summary>The shop's woods, cores and adhesives: the tables that come with the tool, overridden and extended by the maker's own.</summary>
/// <param name="Woods">Woods.</param>
/// <param name="Cores">Core sheets.</param>
/// <param name="Adhesives">Adhesives.</param>
public sealed record MaterialTables(
    IReadOnlyList<Listed<Wood>> Woods, IReadOnlyList<Listed<CoreMaterial>> Cores, IReadOnlyList<Listed<Adhesive>> Adhesives)
{
    /// <summary>Where "piece 14" is looked up; nothing where no log is at hand.</summary>
    public PieceLookup? Pieces { get; init; }

    private const string WoodsFile = "woods.csv", CoresFile = "cores.csv", AdhesivesFile = "adhesives.csv";

    /// <summary>The tables that come with the tool.</summary>
    /// <returns>All rows.</returns>
    public static MaterialTables BuiltIn()
    {
        var problems = new List<Problem>();
        MaterialTables tables = new(
            TableRows.Read(Embedded(WoodsFile), WoodsFile, problems).Select(r => r.Wood()).OfType<Listed<Wood>>().ToList(),
            TableRows.Read(Embedded(CoresFile), CoresFile, problems).Select(r => r.Core()).OfType<Listed<CoreMaterial>>().ToList(),
            TableRows.Read(Embedded(AdhesivesFile), AdhesivesFile, problems).Select(r => r.Adhesive()).OfType<Listed<Adhesive>>().ToList());
        return problems.Count == 0 ? tables : throw new InputException(problems);

        static TextReader Embedded(string name) =>
            new StreamReader(Assembly.GetExecutingAssembly().GetManifestResourceStream($"materials/{name}")!);
    }

    /// <summary>These tables with the maker's own rows: a row of a known name replaces it, any other is added.</summary>
    /// <param name="folder">A folder with any of woods.csv, cores.csv, adhesives.csv, in the columns of the tables that come with the tool.</param>
    /// <returns>The tables together.</returns>
    /// <exception cref="InputException">The folder or its tables cannot be read; every mistake is named.</exception>
    public MaterialTables With(string folder)
    {
        if (!Directory.Exists(folder))
        {
            throw new InputException(folder, "no such folder: give the folder that holds your own woods.csv, cores.csv or adhesives.csv");
        }

        string[] files = [WoodsFile, CoresFile, AdhesivesFile];
        if (!files.Any(f => File.Exists(Path.Combine(folder, f))))
        {
            throw new InputException(folder, "holds none of woods.csv, cores.csv, adhesives.csv; `sandwichmech materials table woods` prints one to start from");
        }

        var problems = new List<Problem>();
        MaterialTables together = new(
            Merge(Woods, Own(WoodsFile, r => r.Wood())),
            Merge(Cores, Own(CoresFile, r => r.Core())),
            Merge(Adhesives, Own(AdhesivesFile, r => r.Adhesive())))
        {
            Pieces = Pieces,
        };
        return problems.Count == 0 ? together : throw new InputException(problems);

        List<Listed<T>> Own<T>(string file, Func<TableRows, Listed<T>?> read)
        {
            string path = Path.Combine(folder, file);
            if (!File.Exists(path))
            {
                return [];
            }

            using TextReader reader = new StreamReader(path);
            return [.. TableRows.Read(reader, path, problems).Select(read).OfType<Listed<T>>()];
        }
    }

    /// <summary>These tables with a piece of the log as a further material.</summary>
    /// <param name="piece">The piece.</param>
    /// <returns>The tables; the same where they have it already.</returns>
    public MaterialTables With(PieceMaterial piece) =>
        piece.Wood is { } wood && Find(Woods, wood.Name) is null ? this with { Woods = [.. Woods, wood] }
        : piece.Core is { } core && Find(Cores, core.Name) is null ? this with { Cores = [.. Cores, core] }
        : this;

    /// <summary>A table that comes with the tool, as text, for a maker to start his own from.</summary>
    /// <param name="name">woods, cores or adhesives.</param>
    /// <returns>CSV.</returns>
    public static string Text(string name)
    {
        using var reader = new StreamReader(Assembly.GetExecutingAssembly().GetManifestResourceStream($"materials/{name}.csv")!);
        return reader.ReadToEnd();
    }

    /// <summary>Finds a material by name or by one of its other names, case and spacing apart.</summary>
    /// <typeparam name="T">Wood, core or adhesive.</typeparam>
    /// <param name="rows">Where to look.</param>
    /// <param name="typed">What was typed.</param>
    /// <returns>The row, or nothing.</returns>
    public static Listed<T>? Find<T>(IReadOnlyList<Listed<T>> rows, string typed)
    {
        string key = Key(typed);
        return rows.FirstOrDefault(r => Key(r.Name) == key) ?? rows.FirstOrDefault(r => r.Also.Any(a => Key(a) == key));

        static string Key(string s) => string.Join(' ', s.ToLowerInvariant().Split(' ', StringSplitOptions.RemoveEmptyEntries));
    }

    /// <summary>One line that says a material is not known, with the nearest names.</summary>
    /// <typeparam name="T">Wood, core or adhesive.</typeparam>
    /// <param name="rows">What is known.</param>
    /// <param name="typed">What was typed.</param>
    /// <param name="what">"wood", "core" or "adhesive".</param>
    /// <returns>The message.</returns>
    public static string Unknown<T>(IReadOnlyList<Listed<T>> rows, string typed, string what)
    {
        string? near = Nearest.Name(typed, rows.SelectMany(r => r.Also.Prepend(r.Name)));
        return $"no {what} '{typed}' is known"
            + (near is null ? "" : $"; did you mean '{near}'?")
            + $" (`sandwichmech materials` lists them; your own table goes in with --materials FOLDER)";
    }

    private static List<Listed<T>> Merge<T>(IReadOnlyList<Listed<T>> known, List<Listed<T>> own) =>
        [.. known.Where(k => !own.Any(o => string.Equals(o.Name, k.Name, StringComparison.OrdinalIgnoreCase))), .. own];
}
