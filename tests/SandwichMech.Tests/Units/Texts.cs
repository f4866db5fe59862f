using System.Globalization;

namespace SandwichMech.Tests.Units;

/// <summary>Numbers as text, for the tests of this folder.</summary>
internal static class Texts
{
    /// <summary>The shortest text that holds the double exactly.</summary>
    internal static string Plain(double number) => number.ToString("R", CultureInfo.InvariantCulture);

    /// <summary>Runs an action under another culture and puts the old one back.</summary>
    internal static void Under(string culture, Action action)
    {
        var old = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
            action();
        }
        finally
        {
            CultureInfo.CurrentCulture = old;
        }
    }
}
