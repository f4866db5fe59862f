using System.Globalization;

namespace SandwichMech.Workshop.Units;

/// <summary>Shows SI values to people, in metric or inch units. Does not depend on the culture; <see cref="TypedValues"/> reads it back.</summary>
public static class Display
{
    private const int MostDecimals = 6;

    // Shown with an exponent from here on.
    private const double Huge = 1e12;

    /// <summary>The unit alone, for column heads and axis titles.</summary>
    /// <param name="kind">What is shown.</param>
    /// <param name="system">Metric or inch.</param>
    /// <returns>The unit, as "g/m²".</returns>
    public static string Unit(Shown kind, UnitSystem system) => ColumnOf(kind, system).Unit.Name;

    /// <summary>The number in the display unit, unrounded, for plots.</summary>
    /// <param name="si">The value in SI, finite.</param>
    /// <param name="kind">What it is.</param>
    /// <param name="system">Metric or inch.</param>
    /// <returns>The value in <see cref="Unit"/>.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="si"/> is not finite: what does not exist is not shown as a number.</exception>
    public static double In(double si, Shown kind, UnitSystem system) =>
        double.IsFinite(si)
            ? ColumnOf(kind, system).Unit.FromSi(si)
            : throw new ArgumentOutOfRangeException(nameof(si), si, $"a value to show as {kind} has to be finite");

    /// <summary>The rounded number without its unit, for columns.</summary>
    /// <param name="si">The value in SI, finite.</param>
    /// <param name="kind">What it is.</param>
    /// <param name="system">Metric or inch.</param>
    /// <returns>The number, with a decimal point.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="si"/> is not finite.</exception>
    public static string Number(double si, Shown kind, UnitSystem system)
    {
        var number = In(si, kind, system);
        if (Math.Abs(number) >= Huge)
        {
            return number.ToString("0.00E+0", CultureInfo.InvariantCulture);
        }

        var decimals = Decimals(number, ColumnOf(kind, system));
        // Rounded first, so that nothing is shown as -0.0.
        var rounded = Math.Round(number, decimals, MidpointRounding.AwayFromZero);
        return (rounded == 0 ? 0 : rounded).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }

    /// <summary>The rounded number with its unit.</summary>
    /// <param name="si">The value in SI, finite.</param>
    /// <param name="kind">What it is.</param>
    /// <param name="system">Metric or inch.</param>
    /// <returns>As "0.030 in".</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="si"/> is not finite.</exception>
    public static string Text(double si, Shown kind, UnitSystem system) =>
        ColumnOf(kind, system).Unit.Behind(Number(si, kind, system));

    /// <summary>A unit and its digits: never fewer decimals than so many, and more where a small value has too few significant digits.</summary>
    private sealed record Column(Unit Unit, int Decimals, int Significant);

    private static Column Of(string unit, int decimals, int significant) => new(KnownUnits.Named(unit), decimals, significant);

    // Units of stiffness are shown only, never typed.
    private static Column PerWidth(string unit, double times, int significant) =>
        new(new Unit(unit, Dimension.Ratio, times), 0, significant);

    private sealed record Columns(Column Metric, Column Inch);

    private static readonly Columns[] Kinds = Table();

    private static Columns[] Table()
    {
        var table = new Columns[(int)Shown.Temperature + 1];
        table[(int)Shown.Thickness] = new(Of("mm", 2, 2), Of("in", 3, 2));
        table[(int)Shown.Length] = new(Of("mm", 1, 2), Of("in", 2, 2));
        table[(int)Shown.Area] = new(Of("cm²", 0, 3), Of("in²", 1, 3));
        table[(int)Shown.Mass] = new(Of("g", 1, 2), Of("g", 1, 2));
        table[(int)Shown.ArealDensity] = new(Of("g/m²", 0, 3), Of("g/in²", 3, 3));
        table[(int)Shown.Density] = new(Of("kg/m³", 0, 3), Of("lb/ft³", 1, 3));
        table[(int)Shown.LineDensity] = new(Of("g/m", 1, 3), Of("g/in", 2, 3));
        table[(int)Shown.Modulus] = new(Of("GPa", 0, 3), Of("Mpsi", 0, 3));
        table[(int)Shown.Stress] = new(Of("MPa", 0, 3), Of("ksi", 0, 3));
        table[(int)Shown.Pressure] = new(Of("kPa", 0, 3), Of("inHg", 1, 3));
        table[(int)Shown.BendingStiffness] = new(PerWidth("N·m", 1, 3), PerWidth("lbf·in", 0.45359237 * 9.80665 * 0.0254, 3));
        table[(int)Shown.ShearStiffness] = new(PerWidth("kN/m", 1000, 3), PerWidth("lbf/in", 0.45359237 * 9.80665 / 0.0254, 3));
        table[(int)Shown.Frequency] = new(Of("Hz", 1, 3), Of("Hz", 1, 3));
        table[(int)Shown.Angle] = new(Of("°", 1, 2), Of("°", 1, 2));
        table[(int)Shown.Percent] = new(Of("%", 0, 2), Of("%", 0, 2));
        table[(int)Shown.Force] = new(Of("N", 1, 2), Of("lbf", 2, 2));
        table[(int)Shown.Stiffness] = new(PerWidth("N/mm", 1000, 3), PerWidth("lbf/in", 0.45359237 * 9.80665 / 0.0254, 3));
        table[(int)Shown.Temperature] = new(Of("°C", 1, 0), Of("°F", 1, 0));
        return table;
    }

    private static Column ColumnOf(Shown kind, UnitSystem system) =>
        system == UnitSystem.Inch ? Kinds[(int)kind].Inch : Kinds[(int)kind].Metric;

    /// <summary>Decimals for a number: more than usual for a small one, but rounding residues of a zero stay a zero.</summary>
    private static int Decimals(double number, Column column)
    {
        if (number == 0 || column.Significant == 0)
        {
            return column.Decimals;
        }

        var needed = column.Significant - 1 - (int)Math.Floor(Math.Log10(Math.Abs(number)));
        return needed > MostDecimals ? column.Decimals : Math.Max(column.Decimals, needed);
    }
}
