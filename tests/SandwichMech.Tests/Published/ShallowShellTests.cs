using SandwichMech.Core.Plates;
using SandwichMech.Tests.Plates;

namespace SandwichMech.Tests.Published;

/// <summary>Domed plates against shells that others have measured.</summary>
[Trait("Check", "published")]
public class ShallowShellTests
{
    // M. D. Olson and G. M. Lindberg (1968), AFFDL-TR-68-150: a steel fan blade, 12 in by 12 in on a cylinder of 24 in, 0.12 in thick, clamped
    // on one curved edge. Frequencies as measured, Hz, and inputs seen in the test-suite of Elmer (Shell_Eigenanalysis_Cylinder), whose own shell
    // elements are 1.5 to 10 % from them on its mesh. A clamp in the laboratory, and a shallow theory on a blade 0.5 rad wide: 4 %, which is no band
    // about our own numbers (on a finer mesh they are 0.4, 2.2, 3.5, 2.0, 1.9, 0.4 and 1.8 % off); flat, the first would be at 28 Hz.
    [Fact]
    public void A_cantilevered_cylinder_has_the_frequencies_measured()
    {
        const double Side = 0.3048, Radius = 0.6096;
        double[] measured = [86.6, 135.5, 258.9, 350.6, 395.2, 531.1, 743.2];
        PlateProblem blade = new(
            PlateMesh.Rectangle(Side, Side, 4, 4),
            [SamplePlate.Isotropic(3.048e-3, 0.3, 206.84e9, 7747.73)],
            e => e.At(0.5).X < 1e-9 ? EdgeSupport.Clamped : EdgeSupport.Free)
        { Dome = new(0, 1 / Radius) };
        double[] ours = SamplePlate.Frequencies(blade, measured.Length, 6);
        for (int mode = 0; mode < measured.Length; mode++) { Checks.Near(measured[mode], ours[mode], 0.04, $"mode {mode + 1}, Hz"); }
    }
}
