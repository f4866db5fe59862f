using System.Reflection;
using SandwichMech.Core.Layups;

namespace SandwichMech.Tests.Exact;

/// <summary>A record writes itself out property by property. One whose properties lead back to its own type never stops, and ends the process.</summary>
[Trait("Check", "exact")]
public class ValuesPrintTests
{
    [Fact]
    public void No_value_of_Core_leads_back_to_itself()
    {
        string[] endless = [.. typeof(Laminate).Assembly.GetTypes().Where(IsRecord).Where(t => Reaches(t, t, [])).Select(t => t.Name).Order(StringComparer.Ordinal)];
        Assert.True(endless.Length == 0, $"ToString() of these never returns: {string.Join(", ", endless)}.");
    }

    private static bool Reaches(Type from, Type target, HashSet<Type> seen) =>
        from.GetProperties(BindingFlags.Public | BindingFlags.Instance)
            .Select(p => Nullable.GetUnderlyingType(p.PropertyType) ?? p.PropertyType)
            .Where(IsRecord)
            .Any(t => t == target || (seen.Add(t) && Reaches(t, target, seen)));

    // The compiler gives every record this method; ToString calls it.
    private static bool IsRecord(Type t) =>
        t.GetMethod("PrintMembers", BindingFlags.NonPublic | BindingFlags.Instance | BindingFlags.DeclaredOnly) is not null;
}
