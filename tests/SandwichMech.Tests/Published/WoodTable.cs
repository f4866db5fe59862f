using System.Globalization;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Tests.Published;

/// <summary>The shipped wood table, read without the product's own reader.</summary>
internal static class WoodTable
{
    private static readonly Lazy<IReadOnlyDictionary<string, IReadOnlyDictionary<string, string>>> Rows = new(() => Read("woods.csv"));

    public static IReadOnlyCollection<string> Names => [.. Rows.Value.Keys];

    public static string Text(string wood, string column) => Rows.Value[wood][column];

    public static Wood Wood(string name)
    {
        Estimate Ratio(string column) => Estimate.FromCv(Number(name, column), Number(name, "ratio_cv"));
        return new()
        {
            Name = name,
            Density = Estimate.FromCv(Number(name, "density_kg_m3"), Number(name, "density_cv")),
            EL = Estimate.FromCv(Number(name, "e_l_gpa") * 1e9, Number(name, "e_l_cv")),
            ErOverEl = Ratio("er_el"),
            EtOverEl = Ratio("et_el"),
            GlrOverEl = Ratio("glr_el"),
            GltOverEl = Ratio("glt_el"),
            GrtOverEl = Ratio("grt_el"),
            NuLR = Number(name, "nu_lr"),
            NuLT = Number(name, "nu_lt"),
            NuRT = Number(name, "nu_rt"),
            MoisturePercent = Number(name, "moisture_percent"),
        };
    }

    /// <summary>Rows of a table in shared/materials by the first column, cells by the head of their column. The cells used hold no quotes.</summary>
    public static IReadOnlyDictionary<string, IReadOnlyDictionary<string, string>> Read(string file)
    {
        string[][] cells = [.. File.ReadLines(Repository.File("shared", "materials", file))
            .Where(line => line.Length > 0 && line[0] != '#')
            .Select(line => line.Split(','))];
        return cells.Skip(1).ToDictionary(
            row => row[0],
            IReadOnlyDictionary<string, string> (row) => cells[0].Zip(row).ToDictionary(c => c.First, c => c.Second));
    }

    private static double Number(string wood, string column) => double.Parse(Text(wood, column), CultureInfo.InvariantCulture);
}
