using System.Globalization;
using SandwichMech.Core.Layups;

namespace SandwichMech.Tests;

/// <summary>Assertions on numbers. A NaN never passes; a failure names both numbers and how far apart they are.</summary>
internal static class Checks
{
    /// <summary>Equal within a relative tolerance; use <see cref="Within"/> where zero is expected.</summary>
    public static void Near(double expected, double actual, double relative, string what = "") =>
        Require(Math.Abs(actual - expected) <= relative * Math.Abs(expected), what, actual,
            $"{expected:R} within {relative:R} of it; off by {(actual / expected - 1) * 100:G3} %");

    /// <summary>Equal within an absolute tolerance.</summary>
    public static void Close(double expected, double actual, double absolute, string what = "") =>
        Require(Math.Abs(actual - expected) <= absolute, what, actual, $"{expected:R} ± {absolute:R}");

    /// <summary>Inside a closed interval.</summary>
    public static void Within(double low, double high, double actual, string what = "") =>
        Require(actual >= low && actual <= high, what, actual, $"between {low:R} and {high:R}");

    /// <summary>Rounds to a number as it is printed: half a unit of the last printed digit, or a stated number of units.</summary>
    public static void Printed(string printed, double actual, double units = 0.5, string what = "")
    {
        string[] parts = printed.Split('e', 'E');
        int point = parts[0].IndexOf('.', StringComparison.Ordinal);
        int decimals = point < 0 ? 0 : parts[0].Length - point - 1;
        int exponent = parts.Length > 1 ? int.Parse(parts[1], CultureInfo.InvariantCulture) : 0;
        double unit = Math.Pow(10, exponent - decimals);
        Close(double.Parse(printed, CultureInfo.InvariantCulture), actual, units * unit * (1 + 1e-9), what);
    }

    /// <summary>Two stiffness matrices equal, measured against the largest component.</summary>
    public static void Near(Sym3 expected, Sym3 actual, double relative, string what = "")
    {
        double size = new[] { expected.M11, expected.M12, expected.M22, expected.M16, expected.M26, expected.M66 }.Max(Math.Abs);
        Near(expected, actual, relative, size, what);
    }

    /// <summary>Two stiffness matrices equal, measured against a given size (for a matrix that ought to be zero).</summary>
    public static void Near(Sym3 expected, Sym3 actual, double relative, double size, string what = "")
    {
        Close(expected.M11, actual.M11, relative * size, what + ".11");
        Close(expected.M12, actual.M12, relative * size, what + ".12");
        Close(expected.M22, actual.M22, relative * size, what + ".22");
        Close(expected.M16, actual.M16, relative * size, what + ".16");
        Close(expected.M26, actual.M26, relative * size, what + ".26");
        Close(expected.M66, actual.M66, relative * size, what + ".66");
    }

    private static void Require(bool holds, string what, double actual, string wanted)
    {
        if (!holds)
        {
            Assert.Fail($"{what}: {actual:R}, wanted {wanted}.");
        }
    }
}
