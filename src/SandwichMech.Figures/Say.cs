using System.Globalization;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Figures;

/// <summary>Figures in words, in the units that are shown.</summary>
internal sealed record Say(UnitSystem Units)
{
    private const double LongestName = 330;

    internal double In(double si, Shown kind) => Display.In(si, kind, Units);

    internal string Unit(Shown kind) => Display.Unit(kind, Units);

    internal string Text(double si, Shown kind) => Display.Text(si, kind, Units);

    /// <summary>As "27.4 N·m (21.3 to 35.2)", the brackets holding the 90 % interval.</summary>
    internal string WithRange(Prediction p, Shown kind) =>
        p.Low90 < p.High90
            ? $"{Text(p.Value, kind)} ({Display.Number(p.Low90, kind, Units)} to {Display.Number(p.High90, kind, Units)})"
            : Text(p.Value, kind);

    /// <summary>A name that leaves room for the rest of a sentence.</summary>
    internal static string Short(string name) => TextWidth.Fit(name, LongestName, Header.LineSize);

    /// <summary>Whole percent; a tenth more where it would show as one digit.</summary>
    internal static string Percent(double share) =>
        (100 * share).ToString(Math.Abs(share) < 0.095 && share != 0 ? "0.0" : "0", CultureInfo.InvariantCulture) + " %";
}
