using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;
using SandwichMech.Core.Materials;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Tables;

/// <summary>One row of a material table, read by column name; the unit of a number stands in its column's name.</summary>
/// <remarks>The low-level CSV parser is used, not its record mapping: mapping compiles code at start and costs more than all reading.</remarks>
internal sealed class TableRows
{
    private const double Mega = 1e6, Giga = 1e9, Milli = 1e-3, Percent = 1e-2, Minute = 60, Hour = 3600, Freezing = 273.15;
    private readonly string _file;
    private readonly int _line;
    private readonly IReadOnlyDictionary<string, string> _cells;
    private readonly List<Problem> _problems;

    private TableRows(string file, int line, IReadOnlyDictionary<string, string> cells, List<Problem> problems) =>
        (_file, _line, _cells, _problems) = (file, line, cells, problems);

    internal static List<TableRows> Read(TextReader reader, string file, List<Problem> problems)
    {
        using var parser = new CsvParser(reader, new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            AllowComments = true,
            TrimOptions = TrimOptions.Trim,
            BadDataFound = null,
        });
        var rows = new List<TableRows>();
        var seen = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        string[]? header = null;
        while (parser.Read())
        {
            string[] record = parser.Record!;
            int line = parser.RawRow;
            if (header is null)
            {
                header = record;
                continue;
            }

            if (record.Length != header.Length)
            {
                problems.Add(new(file, line, null, $"has {record.Length} cells where the header has {header.Length}: check the commas, and put a text that holds a comma in quotes"));
                continue;
            }

            var row = new TableRows(file, line, Cells(header, record), problems);
            string name = row.Text("name");
            if (name.Length == 0)
            {
                row.Report("name", "is empty: every material needs a name");
            }
            else if (!seen.TryAdd(name, line))
            {
                row.Report("name", $"'{name}' is already in line {seen[name]}: give each material a name of its own");
            }

            rows.Add(row);
        }

        return rows;
    }

    private static Dictionary<string, string> Cells(string[] header, string[] record)
    {
        var cells = new Dictionary<string, string>(header.Length);
        for (int i = 0; i < header.Length; i++)
        {
            cells.TryAdd(header[i], record[i]);
        }

        return cells;
    }

    internal Listed<Wood>? Wood()
    {
        Estimate? density = Estimate("density_kg_m3", "density_cv", 1, 30, 1500);
        Estimate? el = Estimate("e_l_gpa", "e_l_cv", Giga, 0.1, 60);
        Estimate? Ratio(string column) => Estimate(column, "ratio_cv", 1, 0.0005, 1.5);
        (Estimate? er, Estimate? et, Estimate? glr, Estimate? glt, Estimate? grt) =
            (Ratio("er_el"), Ratio("et_el"), Ratio("glr_el"), Ratio("glt_el"), Ratio("grt_el"));
        double? nu = Number("nu_lr", 0, 1.2), moisture = Number("moisture_percent", 0, 30);
        if (density is null || el is null || er is null || et is null || glr is null || glt is null || grt is null || nu is null || moisture is null)
        {
            return null;
        }

        if (nu * nu * er.Value.Value >= 1)
        {
            Report("nu_lr", "is too large for er_el: no material can have ν_LR² · E_R/E_L of 1 or more");
            return null;
        }

        return Listed(new Wood
        {
            Name = Text("name"),
            Density = density.Value,
            EL = el.Value,
            ErOverEl = er.Value,
            EtOverEl = et.Value,
            GlrOverEl = glr.Value,
            GltOverEl = glt.Value,
            GrtOverEl = grt.Value,
            NuLR = nu.Value,
            NuLT = Optional("nu_lt", 0, 1.2),
            NuRT = Optional("nu_rt", 0, 1.2),
            MoisturePercent = moisture.Value,
            LossAlong = OptionalEstimate("loss_l", "loss_cv", 1, 0.0005, 0.5),
            LossAcross = OptionalEstimate("loss_r", "loss_cv", 1, 0.0005, 0.5),
            ShrinkageRadial = OptionalEstimate("shrinkage_r_percent", "shrinkage_cv", Percent, 0.1, 30),
            ShrinkageTangential = OptionalEstimate("shrinkage_t_percent", "shrinkage_cv", Percent, 0.1, 30),
            BendingStrength = OptionalEstimate("bending_strength_mpa", "bending_strength_cv", Mega, 1, 400),
            CompressionAcross = OptionalEstimate("compression_across_mpa", "compression_across_cv", Mega, 0.1, 100),
            CompressionAlong = OptionalEstimate("compression_along_mpa", "compression_along_cv", Mega, 1, 400),
            TensionAcross = OptionalEstimate("tension_across_mpa", "tension_across_cv", Mega, 0.1, 100),
        }, Text("use"));
    }

    internal Listed<CoreMaterial>? Core()
    {
        Estimate? density = Estimate("density_kg_m3", "density_cv", 1, 5, 800);
        Estimate? ribbon = Estimate("shear_ribbon_mpa", "shear_cv", Mega, 0.5, 2000);
        Estimate? across = Estimate("shear_across_mpa", "shear_cv", Mega, 0.5, 2000);
        double? inPlane = Number("in_plane_modulus_mpa", 0, 20000);
        return density is null || ribbon is null || across is null || inPlane is null ? null : Listed(new CoreMaterial
        {
            Name = Text("name"),
            Kind = Text("kind"),
            CellSize = Optional("cell_mm", 0.5, 50) * Milli,
            Density = density.Value,
            ShearRibbon = ribbon.Value,
            ShearAcross = across.Value,
            CompressionStrength = Optional("compression_strength_mpa", 0.01, 200) * Mega,
            CompressionStrengthMinimum = Optional("compression_strength_min_mpa", 0.01, 200) * Mega,
            BareStrength = OptionalEstimate("bare_strength_mpa", "compression_cv", Mega, 0.01, 200),
            BareStrengthMinimum = Optional("bare_strength_min_mpa", 0.01, 200) * Mega,
            ShearStrengthRibbon = OptionalEstimate("shear_strength_ribbon_mpa", "shear_strength_cv", Mega, 0.01, 100),
            ShearStrengthAcross = OptionalEstimate("shear_strength_across_mpa", "shear_strength_cv", Mega, 0.01, 100),
            CompressionModulus = OptionalEstimate("compression_modulus_mpa", "compression_cv", Mega, 1, 30000),
            InPlaneModulus = inPlane.Value * Mega,
            Heights = HeightsOf(Text("heights_mm")),
        }, Text("kind"));
    }

    private double[] HeightsOf(string cell)
    {
        string[] parts = cell.Split(';', StringSplitOptions.RemoveEmptyEntries);
        var heights = new double[parts.Length];
        int count = 0;
        foreach (string part in parts)
        {
            if (Parse("heights_mm", part, 0.1, 100) is { } mm)
            {
                heights[count++] = mm * Milli;
            }
        }

        return heights[..count];
    }

    internal Listed<Adhesive>? Adhesive()
    {
        Estimate? density = Estimate("density_kg_m3", "density_cv", 1, 500, 2500);
        Estimate? mixed = Estimate("mixed_g_m2", "mixed_cv", Milli, 5, 2000);
        Estimate? kept = Estimate("kept_share", "kept_share_cv", 1, 0.01, 1);
        Estimate? film = Estimate("film_share", "film_share_cv", 1, 0.01, 1);
        Estimate? modulus = Estimate("film_modulus_gpa", "film_modulus_cv", Giga, 0.01, 30);
        double? nu = Number("film_nu", 0, 0.499);
        return density is null || mixed is null || kept is null || film is null || modulus is null || nu is null ? null : Listed(new Adhesive
        {
            Name = Text("name"),
            Density = density.Value,
            Mixed = mixed.Value,
            KeptShare = kept.Value,
            FilmShare = film.Value,
            FilmModulus = modulus.Value,
            FilmNu = nu.Value,
            ResinParts = Optional("resin_parts_by_mass", 0.1, 1000),
            HardenerParts = Optional("hardener_parts_by_mass", 0.1, 1000),
            ResinDensity = Optional("resin_density_kg_m3", 500, 2500),
            HardenerDensity = Optional("hardener_density_kg_m3", 500, 2500),
            WorkingTime = Optional("working_time_min", 1, 10000) * Minute,
            TimesAt = Optional("times_at_c", 5, 60) + Freezing,
            UnbagTime = Optional("unbag_h", 0.1, 1000) * Hour,
            FullCureTime = Optional("full_cure_h", 0.1, 5000) * Hour,
        }, "adhesive");
    }

    private Listed<T> Listed<T>(T item, string use) => new(
        item, Text("name"), Text("also").Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries), use, Text("source"), Text("note"), _file);

    private string Text(string column) => _cells.GetValueOrDefault(column, "");

    private Estimate? Estimate(string column, string spreadColumn, double unit, double low, double high)
    {
        double? value = Number(column, low, high), cv = Number(spreadColumn, 0, 2);
        return value is null || cv is null ? null : SandwichMech.Core.Uncertainty.Estimate.FromCv(value.Value * unit, cv.Value);
    }

    private Estimate? OptionalEstimate(string column, string spreadColumn, double unit, double low, double high) =>
        Text(column).Length == 0 ? null : Estimate(column, spreadColumn, unit, low, high);

    private double? Optional(string column, double low, double high) => Text(column).Length == 0 ? null : Number(column, low, high);

    private double? Number(string column, double low, double high)
    {
        if (!_cells.ContainsKey(column))
        {
            Report(column, "this column is missing from the table");
            return null;
        }

        return Parse(column, Text(column), low, high);
    }

    private double? Parse(string column, string text, double low, double high)
    {
        ReadResult read = TypedValues.Read(text, Dimension.Ratio, KnownUnits.PlainNumber);
        if (read.Value is not { } typed)
        {
            Report(column, text.Length == 0 ? "is empty: this value is needed" : $"'{text}': {read.Problem}");
            return null;
        }

        if (!(typed.Value >= low && typed.Value <= high))
        {
            Report(column, string.Create(CultureInfo.InvariantCulture, $"{text} is outside what is possible here ({low:G6} to {high:G6}, in the unit of the column's name)"));
            return null;
        }

        return typed.Value;
    }

    private void Report(string column, string message) => _problems.Add(new(_file, _line, column, message));
}
