namespace SandwichMech.Workshop.Units;

/// <summary>The units that may be typed, and how a typed one is found among them.</summary>
/// <remarks>
/// The factors are here and not asked of UnitsNet, whose first conversion of each quantity costs
/// 4 to 12 ms at start; a test compares every one of them with UnitsNet.
/// Exact by definition: inch, foot, pound (and ounce), standard gravity. Conventional millimetre and inch of mercury:
/// 13 595.1 kg/m³ under standard gravity (NIST SP 811:2008, B.8: 133.3224 Pa and 3386.389 Pa).
/// </remarks>
internal static class KnownUnits
{
    /// <summary>The 'unit' of a field that holds a plain number. It is never typed.</summary>
    internal const string PlainNumber = "1";

    private const double Inch = 0.0254;
    private const double Foot = 0.3048;
    private const double Pound = 0.45359237;
    private const double Ounce = Pound / 16;
    private const double Gravity = 9.80665;
    private const double PoundForce = Pound * Gravity;
    private const double PoundPerSquareInch = PoundForce / (Inch * Inch);
    private const double Mercury = 13595.1 * Gravity;

    internal static readonly Unit[] All =
    [
        new("mm", Dimension.Length, 1, 1000, Aliases: ["millimetre", "millimetres", "millimeter", "millimeters"], PrefixCaseMatters: true),
        new("cm", Dimension.Length, 1, 100, Aliases: ["centimetre", "centimetres", "centimeter", "centimeters"]),
        new("m", Dimension.Length, 1, Aliases: ["metre", "metres", "meter", "meters"]),
        new("in", Dimension.Length, 254, 10000, Aliases: ["inch", "inches", "\""]),
        new("thou", Dimension.Length, 254, 1e7, Aliases: ["thous", "mil", "mils"]),
        new("ft", Dimension.Length, 3048, 10000, Aliases: ["foot", "feet"], Listed: false),
        new("µm", Dimension.Length, 1, 1e6, Aliases: ["micron", "microns"], Listed: false),

        new("cm²", Dimension.Area, 1, 1e4),
        new("mm²", Dimension.Area, 1, 1e6, PrefixCaseMatters: true),
        new("m²", Dimension.Area, 1),
        new("in²", Dimension.Area, 64516, 1e8),
        new("ft²", Dimension.Area, Foot * Foot),

        new("g", Dimension.Mass, 1, 1000, Aliases: ["gram", "grams", "gramme", "grammes"]),
        new("kg", Dimension.Mass, 1, Aliases: ["kilogram", "kilograms"]),
        new("mg", Dimension.Mass, 1, 1e6, PrefixCaseMatters: true),
        new("oz", Dimension.Mass, Ounce, Aliases: ["ounce", "ounces"]),
        new("lb", Dimension.Mass, Pound, Aliases: ["lbs", "pound", "pounds"]),

        new("g/m²", Dimension.ArealDensity, 1, 1000, Aliases: ["gsm"]),
        new("g/in²", Dimension.ArealDensity, 100, 64.516),
        new("kg/m²", Dimension.ArealDensity, 1),
        new("oz/ft²", Dimension.ArealDensity, Ounce, Foot * Foot),
        new("oz/in²", Dimension.ArealDensity, Ounce, Inch * Inch),
        new("lb/ft²", Dimension.ArealDensity, Pound, Foot * Foot),

        new("kg/m³", Dimension.Density, 1),
        new("g/cm³", Dimension.Density, 1000, Aliases: ["g/cc"]),
        new("lb/ft³", Dimension.Density, Pound, Foot * Foot * Foot, Aliases: ["pcf"]),

        new("g/m", Dimension.LineDensity, 1, 1000),
        new("g/cm", Dimension.LineDensity, 1, 10),
        new("g/in", Dimension.LineDensity, 1, 25.4, Aliases: ["g/inch"]),
        new("kg/m", Dimension.LineDensity, 1),

        new("GPa", Dimension.Pressure, 1e9),
        new("MPa", Dimension.Pressure, 1e6, PrefixCaseMatters: true),
        new("kPa", Dimension.Pressure, 1000),
        new("Pa", Dimension.Pressure, 1),
        new("Mpsi", Dimension.Pressure, PoundPerSquareInch * 1e6, PrefixCaseMatters: true),
        new("ksi", Dimension.Pressure, PoundPerSquareInch * 1000),
        new("psi", Dimension.Pressure, PoundPerSquareInch),
        new("inHg", Dimension.Pressure, Mercury * Inch, Aliases: ["in.hg", "in hg", "in. hg"]),
        new("mbar", Dimension.Pressure, 100, PrefixCaseMatters: true),
        new("bar", Dimension.Pressure, 1e5),
        new("mmHg", Dimension.Pressure, Mercury, 1000, Aliases: ["mm hg"], PrefixCaseMatters: true),

        new("°", Dimension.Angle, Math.PI, 180, Aliases: ["deg", "degree", "degrees"]),
        new("rad", Dimension.Angle, 1),

        new("%", Dimension.Ratio, 1, 100, Aliases: ["percent", "per cent"]),

        new("Hz", Dimension.Frequency, 1, Aliases: ["hertz"]),
        new("kHz", Dimension.Frequency, 1000),

        new("N", Dimension.Force, 1, Aliases: ["newton", "newtons"]),
        new("mN", Dimension.Force, 1, 1000, PrefixCaseMatters: true),
        new("lbf", Dimension.Force, PoundForce),
        new("kgf", Dimension.Force, Gravity),
        new("gf", Dimension.Force, Gravity, 1000),

        new("°C", Dimension.Temperature, 1, Offset: 273.15, Aliases: ["c", "degc", "deg c"]),
        new("°F", Dimension.Temperature, 5, 9, 459.67 * 5 / 9, Aliases: ["f", "degf", "deg f"]),
        new("K", Dimension.Temperature, 1),

        new("s", Dimension.Duration, 1, Aliases: ["sec", "second", "seconds"]),
        new("min", Dimension.Duration, 60, Aliases: ["mins", "minute", "minutes"]),
        new("h", Dimension.Duration, 3600, Aliases: ["hr", "hrs", "hour", "hours"]),
    ];

    /// <summary>What a bare number is in a field that holds plain numbers.</summary>
    internal static readonly Unit Plain = new(PlainNumber, Dimension.Ratio, 1);

    private static readonly Dictionary<string, Unit> ByKey = Index();

    /// <summary>The known unit of this name.</summary>
    /// <exception cref="KeyNotFoundException">There is none.</exception>
    internal static Unit Named(string name) => ByKey[UnitText.Key(name)];

    /// <summary>The unit that was typed, or null.</summary>
    /// <param name="typed">A unit as typed.</param>
    /// <param name="otherPrefix">The unit that it would be if m stood for M, or M for m; such a text is never taken.</param>
    internal static Unit? Find(string typed, out Unit? otherPrefix)
    {
        otherPrefix = null;
        var key = UnitText.Key(typed);
        if (!ByKey.TryGetValue(key, out var unit))
        {
            return null;
        }

        var symbol = UnitText.Key(unit.Name);
        // Capitals alone, as on the buttons of callipers, can be nothing but millimetres: 'MM' is no megametre.
        if (unit.PrefixCaseMatters && key.Length == symbol.Length && key[0] != symbol[0] && key is not ("MM" or "MM2"))
        {
            otherPrefix = unit;
            return null;
        }

        return unit;
    }

    internal static Unit? Find(string typed) => Find(typed, out _);

    /// <summary>The units of a dimension, the usual one first.</summary>
    internal static IEnumerable<Unit> Of(Dimension dimension) => All.Where(unit => unit.Dimension == dimension);

    private static Dictionary<string, Unit> Index()
    {
        var index = new Dictionary<string, Unit>(StringComparer.OrdinalIgnoreCase);
        foreach (var unit in All)
        {
            index.Add(UnitText.Key(unit.Name), unit);
            foreach (var alias in unit.Aliases ?? [])
            {
                index.Add(UnitText.Key(alias), unit);
            }
        }

        return index;
    }
}
