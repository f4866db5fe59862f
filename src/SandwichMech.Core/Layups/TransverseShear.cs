namespace SandwichMech.Core.Layups;

/// <summary>Transverse shear stiffness from the shear stress that equilibrium demands, one rule for solid and sandwich.</summary>
/// <remarks>
/// With no net in-plane force, moments M give the stress σ(z) = Q(z)(zI − C)d M, C = A⁻¹B, d = (D − BA⁻¹B)⁻¹. Let only
/// M_x,x = V_x and M_y,y = V_y vary. Equilibrium of the layer below z then asks
///   τ_xz = −f11 V_x − f32 V_y,   τ_yz = −f31 V_x − f22 V_y,   f(z) = ∫_{−h/2}^{z} Q (sI − C) d ds,
/// and equating complementary energy, ½∫ τᵀG⁻¹τ dz = ½ Vᵀ S⁻¹ V, defines S (Whitney 1973, J. Appl. Mech. 40, 302, for
/// one direction; Rohwer 1988 for two where grain and ribbon lie along or across; for a turned ply the balance along x also takes τ_xy, which his rule leaves out). f is quadratic in each ply, the energy quartic, so three Gauss points a ply are
/// exact. Limits: 5/6·G·h for a homogeneous plate, Gc·d²/tc for thin stiff skins on a soft core.
/// </remarks>
internal static class TransverseShear
{
    private static readonly double GaussPoint = Math.Sqrt(0.6);
    private static readonly (double At, double Weight)[] Gauss =
        [(-GaussPoint, 5.0 / 18), (0, 8.0 / 18), (GaussPoint, 5.0 / 18)];

    internal static ShearStiffness Stiffness(IReadOnlyList<Ply> plies, double thickness, Mat3 c, Sym3 d)
    {
        double hxx = 0, hyy = 0, hxy = 0;
        foreach ((double xx, double yy, double xy) in Compliances(plies, thickness, c, d))
        {
            hxx += xx;
            hyy += yy;
            hxy += xy;
        }

        double det = hxx * hyy - hxy * hxy;
        return new(hyy / det, hxx / det, -hxy / det);
    }

    /// <summary>Each ply's part of S⁻¹, m/N: at a given shear force the plies' energies are in these parts.</summary>
    internal static (double Xx, double Yy, double Xy)[] Compliances(IReadOnlyList<Ply> plies, double thickness, Mat3 c, Sym3 d)
    {
        double z = -thickness / 2;
        var parts = new (double Xx, double Yy, double Xy)[plies.Count];
        Mat3 below = default;
        for (int i = 0; i < parts.Length; i++)
        {
            Ply p = plies[i];
            double hxx = 0, hyy = 0, hxy = 0;
            Mat3 qd = p.ReducedStiffness().Full() * d.Full();
            Mat3 qcd = p.ReducedStiffness().Full() * c * d.Full();
            double start = z;
            Mat3 To(double s) => below + qd * ((s * s - start * start) / 2) - qcd * (s - start);
            (double cxx, double cyy, double cxy) = p.ShearCompliance();
            foreach ((double at, double weight) in Gauss)
            {
                Mat3 f = To(start + p.Thickness * (1 + at) / 2);
                double w = weight * p.Thickness;
                // τ = −(t V): columns of t are the shear stress per unit V_x and V_y.
                double txx = f.A11, txy = f.A32, tyx = f.A31, tyy = f.A22;
                hxx += w * (txx * txx * cxx + 2 * txx * tyx * cxy + tyx * tyx * cyy);
                hyy += w * (txy * txy * cxx + 2 * txy * tyy * cxy + tyy * tyy * cyy);
                hxy += w * (txx * txy * cxx + (txx * tyy + tyx * txy) * cxy + tyx * tyy * cyy);
            }

            parts[i] = (hxx, hyy, hxy);
            below = To(start + p.Thickness);
            z += p.Thickness;
        }

        return parts;
    }
}
