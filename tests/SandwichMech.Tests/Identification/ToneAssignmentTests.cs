using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Identification;

namespace SandwichMech.Tests.Identification;

/// <summary>Which mode a tone is, where it can be reckoned by hand.</summary>
[Trait("Check", "exact")]
public class ToneAssignmentTests
{
    // A tone one standard deviation off two modes: one known to a hundredth, one hardly at all. The normal densities there differ by the ratio of the
    // deviations, so the costs by 2 ln of it; whatever else is reckoned in is the same for both.
    [Fact]
    public void A_mode_that_is_known_well_is_likelier_than_one_that_could_be_anywhere()
    {
        const double known = 0.01, unknown = 1;
        double wide = Math.Sqrt(unknown * unknown + known * known);
        IReadOnlyList<Assignment> found = ToneAssignment.Likeliest(
            [0], [known], (_, _) => true, [-known, -wide], new[,] { { 0.0 }, { unknown } }, Vector<double>.Build.Dense(1), Matrix<double>.Build.DenseIdentity(1), 2);
        Assert.Equal([0], found[0].Modes);
        Assert.Equal([1], found[1].Modes);
        Checks.Close(2 * Math.Log(wide / known), found[1].Cost - found[0].Cost, 1e-9);
    }

    [Fact]
    public void A_mode_that_the_maker_rules_out_is_not_taken() => Assert.Equal(
        [-1], ToneAssignment.Likeliest([0], [0.01], (_, _) => false, [0], new[,] { { 0.0 } }, Vector<double>.Build.Dense(1), Matrix<double>.Build.DenseIdentity(1), 1)[0].Modes);
}
