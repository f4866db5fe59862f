using CsCheck;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;

namespace SandwichMech.Tests.Properties;

/// <summary>Random layups and boards for property tests.</summary>
internal static class AnyLayup
{
    private static readonly Gen<(double Thickness, double Density, double Degrees)> Sheet =
        Gen.Select(Gen.Double[0.1e-3, 3e-3], Gen.Double[20, 800], Gen.Double[-90, 90]);

    private static readonly Gen<(double E1, double E2, double Nu, double G12)> InPlane =
        Gen.Select(Logarithmic(0.05e9, 20e9), Gen.Double[0.03, 1], Gen.Double[0, 0.45], Gen.Double[0.02, 0.5])
            .Select((e1, ratio, nu, g) => (e1, e1 * ratio, nu, e1 * g));

    private static readonly Gen<Ply> AnyPly = Gen.Select(Sheet, InPlane, Logarithmic(5e6, 2e9), Logarithmic(5e6, 2e9), Gen.Double[0, 0.1])
        .Select((s, m, g13, g23, glue) =>
            SamplePly.Orthotropic(s.Thickness, m.E1, m.E2, m.Nu, m.G12, g13, g23, s.Degrees, s.Density) with { AddedArealMass = glue });

    /// <summary>One to seven plies of any material, thickness and angle.</summary>
    public static Gen<Ply[]> Plies { get; } = AnyPly.Array[1, 7];

    /// <summary>The same with every ply along or across.</summary>
    public static Gen<Ply[]> CrossPlies { get; } =
        Plies.Select(plies => plies.Select(p => p with { Angle = p.Angle > 0 ? 0 : Math.PI / 2 }).ToArray());

    private static readonly Gen<Skin> AnySkin = Gen.Select(Gen.Bool, Gen.Double[0.35e-3, 1.2e-3], Gen.Double[0.6, 1.6])
        .Select((spruce, thickness, stiffer) =>
        {
            Wood wood = spruce ? SampleBoard.Spruce : SampleBoard.Cedar;
            return new Skin(wood with { EL = wood.EL.Times(stiffer) }, new(thickness, 0.03), 0);
        });

    /// <summary>Boards as a maker could wish them: unlike skins, a core of 1 to 3.5 mm, ribbon along or across, more or less glue.</summary>
    public static Gen<Board> Boards { get; } = Gen.Select(AnySkin, AnySkin, Gen.Double[1e-3, 3.5e-3], Gen.Bool, Gen.Double[0.3, 2])
        .Select((outer, inner, height, along, glue) => SampleBoard.Unsymmetric with
        {
            Outer = outer,
            Inner = inner,
            Core = new(SampleBoard.Honeycomb, new(height, 0.03), along ? 0 : Math.PI / 2),
            Adhesive = SampleBoard.Epoxy with { Mixed = SampleBoard.Epoxy.Mixed.Times(glue) },
        });

    private static Gen<double> Logarithmic(double from, double to) => Gen.Double[Math.Log(from), Math.Log(to)].Select(Math.Exp);
}
