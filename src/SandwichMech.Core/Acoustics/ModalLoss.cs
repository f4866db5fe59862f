using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Acoustics;

/// <summary>Where a mode's energy goes.</summary>
public enum LossKind
{
    /// <summary>Wood that stretches along its grain.</summary>
    WoodAlong,
    /// <summary>Wood that stretches across.</summary>
    WoodAcross,
    /// <summary>Wood that shears.</summary>
    WoodShear,
    /// <summary>The core, nearly all in shear.</summary>
    Core,
    /// <summary>Films of adhesive.</summary>
    Film,
    /// <summary>Sound.</summary>
    Radiation,
    /// <summary>What the rim, its glue and what it stands on take.</summary>
    Edge,
}

/// <summary>One part of a mode's loss factor.</summary>
/// <param name="Kind">Where it goes.</param>
/// <param name="Value">Its part; they add up.</param>
public sealed record LossPart(LossKind Kind, Estimate Value);

/// <summary>Loss factor of a mode, by parts.</summary>
/// <remarks>
/// η = Σ η_i U_i/U over the kinds of strain energy (Ungar &amp; Kerwin 1962, J. Acoust. Soc. Am. 34, 954; for wood McIntyre &amp; Woodhouse 1988), which is the imaginary part of
/// ω² with complex moduli, to first order: Σ over sections of C'' : strains over ω². Transverse shear is shared among the plies by their complementary
/// energy. All of one kind is taken as wrong together, kinds as independent.
/// </remarks>
/// <param name="Parts">By kind.</param>
public sealed record ModalLoss(IReadOnlyList<LossPart> Parts)
{
    /// <summary>What a held edge adds to a mode: 0.004. Judgement, no source: framed boards are heard at Q 50 to 100 (common practice), their materials alone at 80 to 130.</summary>
    public static Estimate HeldEdge { get; } = new(0.004, PlyLoss.Judgement);

    // How far the formula of sound into half a space is from a board on a box or in a hand. Judgement.
    private const double RadiationSpread = 0.5;

    /// <summary>The whole loss factor.</summary>
    public Estimate Total => new(
        Parts.Sum(p => p.Value.Value),
        Math.Sqrt(Parts.Sum(p => Math.Pow(p.Value.Value * p.Value.Spread, 2))) / Parts.Sum(p => p.Value.Value));

    /// <summary>One over the loss factor.</summary>
    public double Q => 1 / Total.Value;

    /// <summary>A part.</summary>
    /// <param name="kind">Which.</param>
    /// <returns>Its loss factor, 0 where there is none.</returns>
    public double Of(LossKind kind) => Parts.Where(p => p.Kind == kind).Sum(p => p.Value.Value);

    /// <summary>What the materials lose in a mode.</summary>
    /// <param name="mode">The mode, in air or in vacuo.</param>
    /// <param name="layups">The layup of each of its sections, in their order.</param>
    /// <returns>By kind, without sound and edge.</returns>
    /// <exception cref="ArgumentException">A ply has no loss factors.</exception>
    public static ModalLoss OfMaterials(PlateMode mode, IReadOnlyList<LocalLayup> layups)
    {
        double omega2 = Math.Pow(2 * Math.PI * mode.Frequency, 2);
        LossKind[] kinds = [LossKind.WoodAlong, LossKind.WoodAcross, LossKind.WoodShear, LossKind.Core, LossKind.Film];
        return new([.. kinds.Select(kind =>
        {
            double value = Sum(kind, e => e.Value), wrong = Sum(kind, e => e.Value * e.Spread);
            return new LossPart(kind, new(value, value > 0 ? wrong / value : 0));
        })]);

        double Sum(LossKind kind, Func<Estimate, double> of)
        {
            double sum = 0;
            for (int r = 0; r < layups.Count; r++) { sum += mode.Regions[r].Stiffness(LossSection.Of(layups[r], kind, of)); }
            return sum / omega2;
        }
    }

    /// <summary>The same with sound and edge.</summary>
    /// <param name="radiation">Loss factor by sound, as <see cref="Radiation.Loss"/> gives it.</param>
    /// <param name="edge">By the edge: <see cref="HeldEdge"/>; nothing of a free board.</param>
    /// <returns>The whole.</returns>
    public ModalLoss With(double radiation, Estimate? edge) =>
        new([.. Parts, new(LossKind.Radiation, new(radiation, RadiationSpread)), .. edge is { } e ? [new LossPart(LossKind.Edge, e)] : (LossPart[])[]]);
}

/// <summary>Sections whose stiffness is what a kind of strain loses.</summary>
internal static class LossSection
{
    /// <summary>About the core's middle, without mass.</summary>
    /// <param name="layup">The layup.</param>
    /// <param name="kind">Kind of loss; all else is 0.</param>
    /// <param name="of">What counts of a loss factor.</param>
    internal static PlateSection Of(LocalLayup layup, LossKind kind, Func<Estimate, double> of)
    {
        IReadOnlyList<Ply> plies = layup.Plies;
        IReadOnlyList<ShearStiffness> shears = Laminate.From(plies).ShearShares();
        double z = -layup.BelowCore;
        Sym3 a = default, b = default, d = default;
        ShearStiffness s = default;
        for (int i = 0; i < plies.Count; i++)
        {
            double t = plies[i].Thickness, middle = z + t / 2;
            (double along, double across, double shear) = Factors(plies[i]);
            Sym3 q = plies[i].ReducedStiffness(along, across, shear);
            a += q * t;
            b += q * (t * middle);
            d += q * (t * (middle * middle + t * t / 12));
            s = new(s.Sx + shear * shears[i].Sx, s.Sy + shear * shears[i].Sy, s.Sxy + shear * shears[i].Sxy);
            z += t;
        }

        return new(a, b, d, s, 0, 0, 0) { Inner = Bar(layup.Inner, -layup.BelowCore, false), Outer = Bar(layup.Outer, z, true) };

        BarSection? Bar(LocalBar? bar, double glue, bool outward)
        {
            if (bar is null) { return null; }
            (double along, double across, double shear) = Factors(bar.Ply);
            Sym3 q = bar.Ply.ReducedStiffness(along, across, shear);
            var whole = BarSection.Of(bar.Ply, glue, outward, bar.Height, bar.Square, bar.Cube);
            return new(glue, q * bar.Height, q * ((outward ? 1 : -1) * bar.Square / 2), q * (bar.Cube / 3),
                new(shear * whole.S.Sx, shear * whole.S.Sy, shear * whole.S.Sxy), 0, 0, 0);
        }

        (double Along, double Across, double Shear) Factors(Ply ply)
        {
            PlyLoss loss = ply.Loss ?? throw new ArgumentException($"Ply '{ply.Name}' has no loss factors.", nameof(layup));
            double If(LossKind own, Estimate e) => own == kind ? of(e) : 0;
            return loss.Material switch
            {
                LossyMaterial.Wood => (If(LossKind.WoodAlong, loss.Along), If(LossKind.WoodAcross, loss.Across), If(LossKind.WoodShear, loss.Shear)),
                LossyMaterial.Core => (If(LossKind.Core, loss.Along), If(LossKind.Core, loss.Across), If(LossKind.Core, loss.Shear)),
                _ => (If(LossKind.Film, loss.Along), If(LossKind.Film, loss.Across), If(LossKind.Film, loss.Shear)),
            };
        }
    }
}
