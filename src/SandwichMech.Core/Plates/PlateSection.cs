using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Plates;

/// <summary>Stiffness and inertia per area of a plate section about one reference plane that the whole board shares.</summary>
/// <remarks>N = Aε + Bκ, M = Bε + Dκ, V = Sγ; kinetic energy ½(m₀ u̇² + 2 m₁ u̇·φ̇ + m₂ φ̇²) with displacement u + zφ.</remarks>
/// <param name="A">Membrane stiffness, N/m.</param>
/// <param name="B">Coupling stiffness, N.</param>
/// <param name="D">Bending stiffness, N·m.</param>
/// <param name="S">Transverse shear stiffness, N/m.</param>
/// <param name="Mass">m₀, kg/m².</param>
/// <param name="FirstMoment">m₁, kg/m.</param>
/// <param name="RotaryInertia">m₂, kg.</param>
public readonly record struct PlateSection(
    Sym3 A, Sym3 B, Sym3 D, ShearStiffness S, double Mass, double FirstMoment, double RotaryInertia)
{
    /// <summary>A bar on the inner face.</summary>
    public BarSection? Inner { get; init; }
    /// <summary>A bar on the outer face.</summary>
    public BarSection? Outer { get; init; }
    /// <summary>Mass per area with the bars, kg/m².</summary>
    public double WholeMass => Mass + (Inner?.M0 ?? 0) + (Outer?.M0 ?? 0);

    /// <summary>The section of a laminate.</summary>
    /// <param name="laminate">The layup about its own mid-plane.</param>
    /// <param name="offset">Height of that mid-plane above the reference plane, m.</param>
    /// <returns>The section about the reference plane (parallel-axis rule: z = offset + z').</returns>
    public static PlateSection Of(Laminate laminate, double offset = 0) => new(
        laminate.A,
        laminate.B + laminate.A * offset,
        laminate.D + laminate.B * (2 * offset) + laminate.A * (offset * offset),
        laminate.Shear,
        laminate.ArealMass,
        laminate.FirstMoment + offset * laminate.ArealMass,
        laminate.RotaryInertia + 2 * offset * laminate.FirstMoment + offset * offset * laminate.ArealMass);

    /// <summary>The section that bends alike with its plane free to stretch: D − BA⁻¹B in the place of D, nothing in the plane.</summary>
    /// <returns>The section.</returns>
    /// <remarks>Exact where no in-plane force is held at the edge and the section is the same everywhere; within some 0.1 % for one board of one layup.</remarks>
    public PlateSection FreeInItsPlane() => this with { B = default, D = D - (B.Full() * (A.Inverse() * B)).Symmetric(), FirstMoment = 0 };

    /// <summary>Stiffness between the strains of <see cref="PlateStrains"/>.</summary>
    internal double[,] Stiffness()
    {
        double[,] c = new double[PlateStrains.Count, PlateStrains.Count];
        const int stretch = PlateStrains.Stretch, bend = PlateStrains.Bend;
        Add(c, stretch, stretch, A);
        Add(c, stretch, bend, B);
        Add(c, bend, bend, D);
        Add(c, PlateStrains.Shear, S);
        AddBar(Inner, PlateStrains.InnerBar);
        AddBar(Outer, PlateStrains.OuterBar);
        return c;

        void AddBar(BarSection? bar, int own)
        {
            if (bar is null) { return; }
            Add(c, stretch, stretch, bar.A0);
            Add(c, stretch, bend, bar.A0 * bar.Glue);
            Add(c, bend, bend, bar.A0 * (bar.Glue * bar.Glue));
            Add(c, stretch, own, bar.A1);
            Add(c, bend, own, bar.A1 * bar.Glue);
            Add(c, own, own, bar.A2);
            Add(c, own + 3, bar.S);
        }
    }

    /// <summary>Inertia between the nine motions of <see cref="PlateStrains"/>.</summary>
    internal double[,] Inertia()
    {
        double[,] m = new double[PlateStrains.Motions, PlateStrains.Motions];
        for (int axis = 0; axis < 2; axis++)
        {
            Pair(m, axis, axis, Mass);
            Pair(m, axis, 3 + axis, FirstMoment);
            Pair(m, 3 + axis, 3 + axis, RotaryInertia);
            AddBar(Inner, axis, 5 + axis);
            AddBar(Outer, axis, 7 + axis);
        }

        m[2, 2] = WholeMass;
        return m;

        void AddBar(BarSection? bar, int axis, int own)
        {
            if (bar is null) { return; }
            Pair(m, axis, axis, bar.M0);
            Pair(m, axis, 3 + axis, bar.M0 * bar.Glue);
            Pair(m, 3 + axis, 3 + axis, bar.M0 * bar.Glue * bar.Glue);
            Pair(m, axis, own, bar.M1);
            Pair(m, 3 + axis, own, bar.M1 * bar.Glue);
            Pair(m, own, own, bar.M2);
        }
    }

    private static void Pair(double[,] m, int a, int b, double value)
    {
        m[a, b] += value;
        if (a != b) { m[b, a] += value; }
    }

    private static void Add(double[,] c, int i, int j, Sym3 s)
    {
        double[,] full = { { s.M11, s.M12, s.M16 }, { s.M12, s.M22, s.M26 }, { s.M16, s.M26, s.M66 } };
        for (int a = 0; a < 3; a++)
        {
            for (int b = 0; b < 3; b++)
            {
                c[i + a, j + b] += full[a, b];
                if (i != j) { c[j + b, i + a] += full[a, b]; }
            }
        }
    }

    private static void Add(double[,] c, int i, ShearStiffness s)
    {
        c[i, i] += s.Sx;
        c[i + 1, i + 1] += s.Sy;
        c[i, i + 1] += s.Sxy;
        c[i + 1, i] += s.Sxy;
    }
}
