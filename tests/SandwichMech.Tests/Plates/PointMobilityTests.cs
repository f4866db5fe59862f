using System.Numerics;
using SandwichMech.Core.Numerics;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Tests.Outlines;
using SandwichMech.Tests.Properties;

namespace SandwichMech.Tests.Plates;

/// <summary>Modal mass, mobility and centre of mass.</summary>
public class PointMobilityTests
{
    private static readonly Curve Foot = SampleOutline.BridgePatch;

    // A hinged square moves as sin sin: at its antinode a quarter of its mass takes part.
    [Fact]
    [Trait("Check", "exact")]
    public void A_hinged_squares_modal_mass_is_a_quarter_of_its_mass()
    {
        PlateSection section = SamplePlate.Isotropic(0.002, density: 3);
        PlateSolution plate = PlateSolver.Once(SampleStatics.Rectangle(section, 1, 1, 4, 4, EdgeSupport.HardHinged(section, 1)), 1, 6);
        double middle = plate.At(PlateAction.At(new(0.5, 0.5)))[0];
        Checks.Near(0.006 / 4, 1 / (middle * middle), 1e-4);
        Checks.Near(0.006, plate.Mass, 1e-9);
        Checks.Near(0.5, plate.CentreOfMass.X, 1e-9);
        // The same by the largest of the shape.
        Checks.Near(Math.Abs(middle), plate.Shape(0).Max(Math.Abs), 1e-6);
    }

    // One oscillator: at resonance 1/(mωη), and that place is on the curve however narrow the peak.
    [Fact]
    [Trait("Check", "exact")]
    public void A_curve_holds_every_resonance_and_its_typical_is_the_geometric_mean()
    {
        const double mass = 0.04, loss = 1e-3, own = 100;
        var curve = MobilityCurve.Of(new([own, 300], [1 / Math.Sqrt(mass), 1e-6], 0, loss), 2);
        MobilityAt peak = curve.Points.MaxBy(p => p.Value.Magnitude)!;
        Checks.Near(own, peak.Frequency, 1e-12);
        Checks.Near(1 / (mass * 2 * Math.PI * own * loss), peak.Value.Magnitude, 1e-6);
        Assert.Equal(curve.Points.Select(p => p.Frequency).Order(), curve.Points.Select(p => p.Frequency));
        Checks.Near(0.5 * own, curve.Points[0].Frequency, 1e-12);
        Checks.Near(curve.Points.Aggregate(1.0, (product, p) => product * Math.Pow(p.Value.Magnitude, 1.0 / curve.Points.Count)), curve.Typical, 1e-9);
        Checks.Near(mass, ModalMass.AtAntinode([0.1, -1 / Math.Sqrt(mass), 2]), 1e-12);
        Checks.Near(mass, ModalMass.At(-1 / Math.Sqrt(mass), 0.1)!.Value, 1e-12);
        Assert.Null(ModalMass.At(1e-9, 0.1));
    }

    // Without loss, off resonance: iω bᵀ(K − ω²M)⁻¹b by a factor at that very frequency, every mode in it. Modes alone miss a third and more of it.
    [Theory]
    [Trait("Check", "independent")]
    [InlineData(true)]
    [InlineData(false)]
    public void Modes_and_residual_are_the_plates_own_answer(bool held)
    {
        PlateProblem problem = OnOutline(held ? EdgeSupport.Clamped : EdgeSupport.HingedInPlane);
        PlateSolution plate = PlateSolver.Once(problem, 20, 4);
        var action = new PlateAction(PlatePush.Deflect, Foot);
        double[] frequencies = [.. plate.Modes.Select(m => m.Frequency)], amplitudes = [.. plate.At(action)];
        double residual = plate.Residual(action);
        var system = new PlateSystem(problem, 4);
        double[] weights = PatchWeights.Of(system, problem.Mesh, action);
        foreach (double f in new[] { 0.3 * frequencies[0], 0.5 * (frequencies[0] + frequencies[1]), 0.5 * (frequencies[4] + frequencies[5]) })
        {
            Complex exact = Complex.ImaginaryOne * 2 * Math.PI * f * Compliance(f);
            Complex ours = new PointMobility(frequencies, amplitudes, residual, 0).At(f);
            double size = Math.Abs(2 * Math.PI * f * residual);
            Checks.Close(exact.Imaginary, ours.Imaginary, 0.1 * size, $"{f} Hz");
            Assert.Equal(0, ours.Real, 1e-12);
            Assert.True(Math.Abs(exact.Imaginary - new PointMobility(frequencies, amplitudes, 0, 0).At(f).Imaginary) > 0.9 * size);
        }

        double Compliance(double f)
        {
            double[] x = new double[FrontalFactor.Together * weights.Length];
            for (int i = 0; i < weights.Length; i++) { x[FrontalFactor.Together * i] = weights[i]; }
            system.Factor(Math.Pow(2 * Math.PI * f, 2))!.Solve(x);
            return weights.Select((w, i) => w * x[FrontalFactor.Together * i]).Sum();
        }
    }

    // The residual and the modes together are the static compliance.
    [Fact]
    [Trait("Check", "exact")]
    public void At_rest_it_is_the_static_compliance()
    {
        PlateProblem problem = OnOutline(EdgeSupport.Clamped);
        var action = new PlateAction(PlatePush.Deflect, Foot);
        PlateResponse steady = PlateStatics.Of(problem, 4).Respond([action])[0];
        PlateSolution plate = PlateSolver.Once(problem, 8, 4);
        double sum = plate.Residual(action) + plate.Modes.Zip(plate.At(action), (m, a) => a * a / Math.Pow(2 * Math.PI * m.Frequency, 2)).Sum();
        Checks.Near(PlateStatics.Movement(steady, steady), sum, 1e-4);
    }

    // Over many modes the conductance of a plate is that of an endless one, 1/(8 √(Dm)) (Cremer, Heckl and Ungar, Structure-Borne Sound; from memory): the
    // mean over a band of Σ φ² π/2 /Δω, and over places. Some sixty modes leave a few per cent.
    [Fact]
    [Trait("Check", "published")]
    public void The_mean_conductance_is_that_of_an_endless_plate()
    {
        PlateSection section = SamplePlate.Isotropic(0.002);
        PlateSolution plate = PlateSolver.Once(SampleStatics.Rectangle(section, 1.3, 1, 10, 8, EdgeSupport.HardHinged(section, 1)), 60, 5);
        double top = 0.5 * (plate.Modes[58].Frequency + plate.Modes[59].Frequency), loss = 0.02, step = top / 3000;
        double mean = 0;
        (double X, double Y)[] places = [(0.39, 0.375), (0.52, 0.625), (0.78, 0.25), (0.91, 0.5), (0.65, 0.375)];
        foreach ((double x, double y) in places)
        {
            var mobility = new PointMobility([.. plate.Modes.Select(m => m.Frequency)], [.. plate.At(PlateAction.At(new(x, y)))], 0, loss);
            for (double f = 0.3 * top; f < 0.95 * top; f += step) { mean += mobility.At(f).Real * step / (0.65 * top) / places.Length; }
        }

        Checks.Near(1 / (8 * Math.Sqrt(section.D.M11 * section.Mass)), mean, 0.15);
    }

    [Fact]
    [Trait("Check", "exact")]
    public void A_resonance_has_the_height_and_width_of_its_loss()
    {
        var one = new PointMobility([100], [2], 0, 0.01);
        // |Y| = φ²/(η ω); at the half-power points f(1 ± η/2) it is 1/√2 of that.
        Checks.Near(4 / (0.01 * 2 * Math.PI * 100), one.At(100).Magnitude, 1e-9);
        Checks.Near(one.At(100).Magnitude / Math.Sqrt(2), one.At(100.5).Magnitude, 0.01);
        Checks.Near(one.At(100).Magnitude / Math.Sqrt(2), one.At(99.5).Magnitude, 0.01);
    }

    // In air of no density a mode is the mode in vacuo; in air its modal mass holds the air's, so it is more.
    [Fact]
    [Trait("Check", "exact")]
    public void Air_adds_to_the_modal_mass()
    {
        PlateSolution plate = PlateSolver.Once(OnOutline(EdgeSupport.Clamped), 3, 4, 6);
        var action = new PlateAction(PlatePush.Deflect, Foot);
        double vacuo = Math.Abs(plate.At(action)[0]);
        Checks.Near(vacuo, Math.Abs(plate.At(action, plate.InAir(true, 0, 3).Modes[0])), 1e-9);
        Checks.Within(0.8 * vacuo, 0.97 * vacuo, Math.Abs(plate.At(action, plate.InAir(true, 1.2, 3).Modes[0])));
    }

    private static PlateProblem OnOutline(EdgeSupport edge)
    {
        PlateMesh mesh = PlateMesher.Mesh(new MeshDomain(SampleOutline.Board, [SampleOutline.Soundhole], [Foot], _ => 0), 0.06);
        return new(mesh, [PlateSection.Of(SampleBoard.Unsymmetric.Laminate())], e => e.Curve == 0 ? edge : EdgeSupport.Free);
    }
}
