using System.Globalization;

namespace SandwichMech.Benchmarks;

/// <summary>Says what was measured, and whether it is good enough.</summary>
internal static class Report
{
    internal static void Heading(string name) => Console.WriteLine($"== {name}");

    internal static void Line(FormattableString text) => Console.WriteLine("   " + text.ToString(CultureInfo.InvariantCulture));

    /// <summary>Says a gated figure.</summary>
    /// <returns>Whether the gate is met.</returns>
    internal static bool Gate(string what, double value, bool met, FormattableString wanted, string format = "F2")
    {
        Console.WriteLine($"   {(met ? "met   " : "MISSED")} {what}: {value.ToString(format, CultureInfo.InvariantCulture)}, wanted {wanted.ToString(CultureInfo.InvariantCulture)}");
        return met;
    }
}
