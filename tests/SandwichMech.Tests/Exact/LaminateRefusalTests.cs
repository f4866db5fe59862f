using SandwichMech.Core.Layups;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Exact;

/// <summary>What cannot be a layup is refused with the ply's name; no NaN gets through.</summary>
[Trait("Check", "exact")]
public class LaminateRefusalTests
{
    private static readonly Ply Good = SamplePly.Orthotropic(1e-3, 11.9e9, 0.93e9, 0.372, 0.76e9, 0.73e9, 0.036e9, 0, 448);

    public static TheoryData<string> Faults => [.. Spoilt.Keys];

    private static Dictionary<string, Ply> Spoilt { get; } = new()
    {
        ["no thickness"] = Good with { Thickness = 0 },
        ["negative thickness"] = Good with { Thickness = -1e-3 },
        ["thickness not a number"] = Good with { Thickness = double.NaN },
        ["endless thickness"] = Good with { Thickness = double.PositiveInfinity },
        ["no shear modulus along"] = Good with { G13 = 0 },
        ["negative shear modulus across"] = Good with { G23 = -1 },
        ["shear modulus not a number"] = Good with { G13 = double.NaN },
        ["negative modulus along"] = Good with { E1 = -1 },
        ["negative modulus across"] = Good with { E2 = -1 },
        ["negative in-plane shear modulus"] = Good with { G12 = -1 },
        ["modulus not a number"] = Good with { E1 = double.NaN },
        ["endless modulus"] = Good with { E2 = double.PositiveInfinity },
        ["Poisson's ratio too large"] = Good with { Nu12 = 3.6 },
        ["Poisson's ratio not a number"] = Good with { Nu12 = double.NaN },
        ["stiffness across without stiffness along"] = Good with { E1 = 0 },
        ["negative density"] = Good with { Density = -448 },
        ["density not a number"] = Good with { Density = double.NaN },
        ["negative fillets"] = Good with { AddedArealMass = -0.01 },
        ["angle not a number"] = Good with { Angle = double.NaN },
        ["endless angle"] = Good with { Angle = double.NegativeInfinity },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_ply_that_cannot_be_is_named(string fault)
    {
        Ply bad = Spoilt[fault] with { Name = "the odd one" };
        Assert.Contains("the odd one", Assert.Throws<ArgumentException>(() => Laminate.From([Good, bad, Good])).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_good_ply_is_accepted() => Checks.Near(448e-3, Laminate.From([Good]).ArealMass, 1e-14);

    [Fact]
    public void No_ply_is_refused() => Assert.Throws<ArgumentException>(() => Laminate.From([]));

    [Fact]
    public void A_core_without_skins_is_refused() =>
        Assert.Contains("carries load", Assert.Throws<ArgumentException>(() => Laminate.From([SamplePly.Core(2e-3, 26e6, 10e6)])).Message, StringComparison.Ordinal);
}
