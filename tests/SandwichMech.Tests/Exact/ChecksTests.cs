using SandwichMech.Core.Layups;
using Xunit.Sdk;

namespace SandwichMech.Tests.Exact;

/// <summary>The assertion helpers themselves: each must be able to fail.</summary>
[Trait("Check", "exact")]
public class ChecksTests
{
    [Fact]
    public void A_relative_tolerance_is_kept_and_broken()
    {
        Checks.Near(100, 100.9, 0.01);
        Fails(() => Checks.Near(100, 101.1, 0.01));
        Fails(() => Checks.Near(100, double.NaN, 0.01));
        Fails(() => Checks.Near(double.NaN, 100, 0.01));
        Fails(() => Checks.Near(-100, 100, 0.01));
    }

    [Fact]
    public void An_absolute_tolerance_is_kept_and_broken()
    {
        Checks.Close(0, 0.9e-3, 1e-3);
        Fails(() => Checks.Close(0, 1.1e-3, 1e-3));
        Fails(() => Checks.Close(0, double.NaN, 1e-3));
    }

    [Fact]
    public void An_interval_is_kept_and_broken()
    {
        Checks.Within(1, 2, 2);
        Fails(() => Checks.Within(1, 2, 2.001));
        Fails(() => Checks.Within(1, 2, double.NaN));
    }

    [Theory]
    [InlineData("0.4087", 0.40874, 0.40876)]
    [InlineData("1.0e-3", 1.04e-3, 1.06e-3)]
    [InlineData("-1.06", -1.064, -1.066)]
    [InlineData("139984", 139984.4, 139984.6)]
    public void A_printed_number_is_met_to_half_its_last_digit(string printed, double meets, double misses)
    {
        Checks.Printed(printed, meets);
        Fails(() => Checks.Printed(printed, misses));
    }

    [Fact]
    public void Every_component_of_a_matrix_is_compared()
    {
        Sym3 m = new(1, 2, 3, 4, 5, 6);
        Checks.Near(m, m, 0);
        foreach (Sym3 other in (Sym3[])[m with { M11 = 1.1 }, m with { M12 = 2.1 }, m with { M22 = 3.1 }, m with { M16 = 4.1 }, m with { M26 = 5.1 }, m with { M66 = 6.1 }])
        {
            Fails(() => Checks.Near(m, other, 0.01));
            Fails(() => Checks.Near(m, other, 0.01, 1));
        }
    }

    private static void Fails(Action check) => Assert.ThrowsAny<XunitException>(check);
}
