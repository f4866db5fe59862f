using System.Globalization;
using System.Text.Json.Serialization;
using SandwichMech.Core.Materials;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.Units;
using Spread = SandwichMech.Core.Uncertainty.Estimate;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A wood in a line.</summary>
public sealed record WoodRow(
    string Name,
    [property: JsonPropertyName("density_kg_m3")] Spread Density,
    [property: JsonPropertyName("e_l_pa")] Spread EL,
    [property: JsonPropertyName("e_r_pa")] double ER,
    [property: JsonPropertyName("g_lr_pa")] double Glr,
    string Use,
    string Source);

/// <summary>A core in a line.</summary>
public sealed record CoreRow(
    string Name,
    string Kind,
    [property: JsonPropertyName("density_kg_m3")] Spread Density,
    [property: JsonPropertyName("shear_ribbon_pa")] Spread ShearRibbon,
    [property: JsonPropertyName("shear_across_pa")] Spread ShearAcross,
    [property: JsonPropertyName("heights_m")] IReadOnlyList<double> Heights,
    string Source);

/// <summary>An adhesive in a line.</summary>
public sealed record AdhesiveRow(
    string Name,
    [property: JsonPropertyName("mixed_kg_m2")] Spread Mixed,
    Spread KeptShare,
    string? PartsByMass,
    string Source);

/// <summary>What `materials` answers.</summary>
public sealed record MaterialsResult(IReadOnlyList<WoodRow> Woods, IReadOnlyList<CoreRow> Cores, IReadOnlyList<AdhesiveRow> Adhesives);

/// <summary>One value of a material: SI, its spread as the standard deviation of its logarithm, and how people look at it.</summary>
public sealed record MaterialValue(string Name, double Value, string SiUnit, double Spread, [property: JsonIgnore] Shown? Kind);

/// <summary>What `materials show` answers.</summary>
public sealed record MaterialDetail(
    string Name, IReadOnlyList<string> Also, string Use, IReadOnlyList<MaterialValue> Values, string Source, string Note, string Table);

/// <summary>Lists and shows the materials.</summary>
public static class ShowMaterials
{
    /// <summary>All materials, a line each.</summary>
    /// <param name="tables">The tables.</param>
    /// <returns>The lines.</returns>
    public static MaterialsResult List(MaterialTables tables) => new(
        [.. tables.Woods.Select(w => new WoodRow(w.Name, w.Item.Density, w.Item.EL, w.Item.ER, w.Item.Glr, w.Use, w.Source))],
        [.. tables.Cores.Select(c => new CoreRow(c.Name, c.Item.Kind, c.Item.Density, c.Item.ShearRibbon, c.Item.ShearAcross, c.Item.Heights, c.Source))],
        [.. tables.Adhesives.Select(a => new AdhesiveRow(a.Name, a.Item.Mixed, a.Item.KeptShare, Parts(a.Item), a.Source))]);

    /// <summary>The names of all materials.</summary>
    /// <param name="tables">The tables.</param>
    /// <returns>Names, without the other names.</returns>
    public static IEnumerable<string> Names(MaterialTables tables) =>
        [.. tables.Woods.Select(w => w.Name), .. tables.Cores.Select(c => c.Name), .. tables.Adhesives.Select(a => a.Name)];

    /// <summary>One material with all its values.</summary>
    /// <param name="tables">The tables.</param>
    /// <param name="name">Name or other name.</param>
    /// <returns>The material.</returns>
    /// <exception cref="InputException">No material has that name; the nearest is named.</exception>
    public static MaterialDetail Show(MaterialTables tables, string name)
    {
        if (MaterialTables.Find(tables.Woods, name) is { } wood)
        {
            return Detail(wood, Values(wood.Item));
        }

        if (MaterialTables.Find(tables.Cores, name) is { } core)
        {
            return Detail(core, Values(core.Item));
        }

        if (MaterialTables.Find(tables.Adhesives, name) is { } adhesive)
        {
            return Detail(adhesive, Values(adhesive.Item));
        }

        string? near = Nearest.Name(name, [.. tables.Woods.SelectMany(All), .. tables.Cores.SelectMany(All), .. tables.Adhesives.SelectMany(All)]);
        throw new InputException("materials show", $"no material '{name}' is known{(near is null ? "" : $"; did you mean '{near}'?")} (`sandwichmech materials` lists them)");

        static IEnumerable<string> All<T>(Listed<T> row) => row.Also.Prepend(row.Name);
    }

    private static MaterialDetail Detail<T>(Listed<T> row, IEnumerable<MaterialValue?> values) =>
        new(row.Name, row.Also, row.Use, [.. values.OfType<MaterialValue>()], row.Source, row.Note, row.Table);

    private static IEnumerable<MaterialValue?> Values(Wood w) =>
    [
        Of("density", w.Density, "kg/m³", Shown.Density),
        Of("E_L", w.EL, "Pa", Shown.Modulus),
        Of("E_R/E_L", w.ErOverEl, "1", null),
        Of("E_T/E_L", w.EtOverEl, "1", null),
        Of("G_LR/E_L", w.GlrOverEl, "1", null),
        Of("G_LT/E_L", w.GltOverEl, "1", null),
        Of("G_RT/E_L", w.GrtOverEl, "1", null),
        Of("ν_LR", new(w.NuLR, 0), "1", null),
        Of("ν_LT", Exact(w.NuLT), "1", null),
        Of("ν_RT", Exact(w.NuRT), "1", null),
        Of("loss factor along", w.LossAlong, "1", null),
        Of("loss factor across", w.LossAcross, "1", null),
        Of("shrinkage green to dry, radial", w.ShrinkageRadial, "1", Shown.Percent),
        Of("shrinkage green to dry, tangential", w.ShrinkageTangential, "1", Shown.Percent),
        Of("bending strength along the grain", w.BendingStrength, "Pa", Shown.Stress),
        Of("compression along the grain", w.CompressionAlong, "Pa", Shown.Stress),
        Of("compression across the grain", w.CompressionAcross, "Pa", Shown.Stress),
        Of("tension across the grain", w.TensionAcross, "Pa", Shown.Stress),
        Of("moisture content, % of dry mass", new(w.MoisturePercent, 0), "%", null),
        Of("E_R", new(w.ER, 0), "Pa", Shown.Modulus),
        Of("G_LR", new(w.Glr, 0), "Pa", Shown.Modulus),
    ];

    private static IEnumerable<MaterialValue?> Values(CoreMaterial c) =>
    [
        Of("density", c.Density, "kg/m³", Shown.Density),
        Of("cell size", Exact(c.CellSize), "m", Shown.Thickness),
        Of("G in ribbon direction", c.ShearRibbon, "Pa", Shown.Stress),
        Of("G across the ribbon", c.ShearAcross, "Pa", Shown.Stress),
        Of("compression strength, typical", Exact(c.CompressionStrength), "Pa", Shown.Stress),
        Of("compression strength, least", Exact(c.CompressionStrengthMinimum), "Pa", Shown.Stress),
        Of("compression strength of the bare sheet, typical", c.BareStrength, "Pa", Shown.Stress),
        Of("compression strength of the bare sheet, least", Exact(c.BareStrengthMinimum), "Pa", Shown.Stress),
        Of("shear strength in ribbon direction", c.ShearStrengthRibbon, "Pa", Shown.Stress),
        Of("shear strength across the ribbon", c.ShearStrengthAcross, "Pa", Shown.Stress),
        Of("compression modulus", c.CompressionModulus, "Pa", Shown.Stress),
        Of("Young's modulus in its plane", new(c.InPlaneModulus, 0), "Pa", Shown.Stress),
        .. c.Heights.Select(h => Of("sold height", new(h, 0), "m", Shown.Thickness)),
    ];

    private static IEnumerable<MaterialValue?> Values(Adhesive a) =>
    [
        Of("mixed per bond line", a.Mixed, "kg/m²", Shown.ArealDensity),
        Of("share kept", a.KeptShare, "1", Shown.Percent),
        Of("of it film on the skin", a.FilmShare, "1", Shown.Percent),
        Of("density, cured", a.Density, "kg/m³", Shown.Density),
        Of("Young's modulus of the film", a.FilmModulus, "Pa", Shown.Modulus),
        Of("resin, parts by mass", Exact(a.ResinParts), "1", null),
        Of("hardener, parts by mass", Exact(a.HardenerParts), "1", null),
        Of("density of resin", Exact(a.ResinDensity), "kg/m³", Shown.Density),
        Of("density of hardener", Exact(a.HardenerDensity), "kg/m³", Shown.Density),
        Of("working time, min", Exact(a.WorkingTime / 60), "min", null),
    ];

    private static MaterialValue? Of(string name, Spread? value, string unit, Shown? kind) =>
        value is { } v ? new(name, v.Value, unit, v.Spread, kind) : null;

    private static Spread? Exact(double? value) => value is { } v ? new(v, 0) : null;

    private static string? Parts(Adhesive a) => a is { ResinParts: { } r, HardenerParts: { } h }
        ? string.Create(CultureInfo.InvariantCulture, $"{r:G4} : {h:G4}")
        : null;
}
