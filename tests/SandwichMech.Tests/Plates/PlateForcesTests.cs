using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates;

/// <summary>Forces and moments per width against closed forms.</summary>
[Trait("Check", "exact")]
public class PlateForcesTests
{
    // A clamped disc under even pressure q, in Kirchhoff's and in first-order theory alike: M_r = q/16 (a²(1 + ν) − r²(3 + ν)), M_θ = q/16 (a²(1 + ν) − r²(1 + 3ν)),
    // V_r = −q r/2 (S. Timoshenko and S. Woinowsky-Krieger 1959, article 16).
    [Fact]
    public void A_clamped_disc_has_the_moments_of_the_closed_form()
    {
        const double nu = 0.3, a = 1;
        var problem = new PlateProblem(SamplePlate.DiscMesh(a, 3), [SamplePlate.Isotropic(0.1, nu)], _ => EdgeSupport.Clamped);
        PlateStatics plate = PlateStatics.Of(problem, 6);
        PlateResponse even = plate.Respond([new(PlatePush.Deflect, null)])[0].Times(Math.PI * a * a);
        IReadOnlyList<PlateForces> forces = plate.Forces(even);
        Assert.True(forces.Count > 1000);
        foreach (PlateForces f in forces)
        {
            double r2 = f.At.X * f.At.X + f.At.Y * f.At.Y, angle = Math.Atan2(f.At.Y, f.At.X);
            InPlane m = f.Moment.SeenFrom(angle);
            Checks.Close((a * a * (1 + nu) - r2 * (3 + nu)) / 16, m.X, 2e-4);
            Checks.Close((a * a * (1 + nu) - r2 * (1 + 3 * nu)) / 16, m.Y, 2e-4);
            Checks.Close(0, m.Xy, 2e-4);
            Checks.Close(-Math.Sqrt(r2) / 2, f.ShearAlong * Math.Cos(angle) + f.ShearAcross * Math.Sin(angle), 2e-3);
        }
    }

    // A strip held at one end and pulled evenly along in its reference plane, which lies off its middle: N = F/b (1 − x/a), no moment about that plane.
    [Fact]
    public void A_strip_pulled_along_passes_the_pull_on_to_where_it_is_held()
    {
        const double a = 0.4, b = 0.05, pull = 30;
        PlateSection section = PlateSection.Of(Laminate.From([SamplePly.Isotropic(3e-3, 10e9, 0)]), 1e-3);
        // Sides in the order y = 0, x = a, y = b, x = 0.
        PlateStatics plate = PlateStatics.Of(SampleStatics.Rectangle(section, a, b, 8, 2, EdgeSupport.Free, EdgeSupport.Free, EdgeSupport.Free, EdgeSupport.Clamped), 5);
        foreach (PlateForces f in plate.Forces(plate.Respond([new(PlatePush.SlideAlong, null)])[0].Times(pull)))
        {
            Checks.Close(pull / b * (1 - f.At.X / a), f.Force.X, 1e-4 * pull / b);
            Checks.Close(0, f.Moment.X, 1e-6 * pull / b);
            Checks.Close(0, f.Force.Y, 1e-4 * pull / b);
        }
    }
}
