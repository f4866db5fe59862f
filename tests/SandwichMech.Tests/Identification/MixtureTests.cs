using SandwichMech.Core.Identification;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Tests.Identification;

/// <summary>What several possibilities say together, where it can be reckoned by hand.</summary>
[Trait("Check", "exact")]
public class MixtureTests
{
    [Fact]
    public void One_possibility_keeps_its_spread() => Checks.Near(0.03, Mixture.SpreadAbout([(0, 0.03, 1)]), 1e-9);

    // Half lies about 0, half so far off that no end of it comes back: 0.5 + 0.5 Φ((h − d)/σ) = 0.9 where Φ = 0.8, 0.8416 σ beyond d.
    [Fact]
    public void Another_that_is_as_likely_is_reached_over()
    {
        const double d = 0.5, spread = 0.01;
        Checks.Near(d + 0.8416212335729143 * spread, Propagation.Z90 * Mixture.SpreadAbout([(0, spread, 0.5), (d, spread, 0.5)]), 1e-6);
    }

    // 5 % far off leave 0.9 / 0.95 to be held about 0: z = 1.9379 at (1 + 0.9/0.95)/2.
    [Fact]
    public void One_that_is_unlikely_widens_a_little() => Checks.Near(1.9379, Propagation.Z90 * Mixture.SpreadAbout([(0, 1, 0.95), (50, 1, 0.05)]), 1e-4);
}
