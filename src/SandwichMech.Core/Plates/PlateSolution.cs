namespace SandwichMech.Core.Plates;

/// <summary>Products of strains and of motions of one mode, integrated over where one section holds; the mode has unit modal mass.</summary>
/// <remarks>
/// With these, ω² = Σ over sections of C : strains, and 1 = Σ of inertia : motions. The derivative of ω² to any change dC,
/// dm of the sections is dC : strains − ω² dm : motions, exactly (Fox &amp; Kapoor 1968 for a simple eigenvalue).
/// </remarks>
/// <param name="Strains">∫ strain_i strain_j dA, symmetric, order εx εy γxy κx κy κxy γxz γyz and, where there are bars, κ'x κ'y κ'xy γ'xz γ'yz of an inner and an outer one.</param>
/// <param name="Motions">∫ of products of the motions u, v, w, φx, φy, ψx, ψy (inner bar), ψx, ψy (outer bar).</param>
public sealed record RegionShare(double[,] Strains, double[,] Motions)
{
    /// <summary>Its part of ω² with a section.</summary>
    /// <param name="s">The section.</param>
    /// <returns>Σ C_ij ∫ strain_i strain_j.</returns>
    public double Stiffness(in PlateSection s) => Sum(s.Stiffness(), Strains);

    /// <summary>Its part of the modal mass with a section.</summary>
    /// <param name="s">The section.</param>
    /// <returns>Σ of inertia times products of motions.</returns>
    public double Inertia(in PlateSection s) => Sum(s.Inertia(), Motions);

    private static double Sum(double[,] a, double[,] b)
    {
        double sum = 0;
        for (int i = 0; i < b.GetLength(0); i++)
        {
            for (int j = 0; j < b.GetLength(1); j++)
            {
                sum += a[i, j] * b[i, j];
            }
        }

        return sum;
    }
}

/// <summary>Where a mode's strain energy sits; the shares add up to 1 less what edge springs hold.</summary>
/// <param name="Along">Bending along the grain.</param>
/// <param name="Across">Bending across.</param>
/// <param name="Twist">Twist.</param>
/// <param name="Shear">Transverse shear.</param>
/// <param name="Membrane">Stretching of the plane, its coupling with bending included.</param>
/// <param name="Bars">Bridge and braces.</param>
public readonly record struct EnergyShares(double Along, double Across, double Twist, double Shear, double Membrane, double Bars);

/// <summary>One mode of a plate.</summary>
/// <param name="Frequency">Hz.</param>
/// <param name="Error">Estimated numerical error of the frequency, relative.</param>
/// <param name="Energy">Where its energy sits.</param>
/// <param name="Regions">Products by section, for derivatives.</param>
public sealed record PlateMode(double Frequency, double Error, EnergyShares Energy, IReadOnlyList<RegionShare> Regions)
{
    /// <summary>Change of the modal stiffness, as a share of what it is, and of the modal mass, for changed sections while the shape stays.</summary>
    /// <remarks>With them Rayleigh's quotient (Rayleigh 1894, Theory of Sound, §88) is ω²(1 + Stiffness)/(1 + Mass), off by the square of what the shape would change.</remarks>
    /// <param name="before">Sections the mode was found with.</param>
    /// <param name="after">Changed sections.</param>
    /// <returns>Both changes; the modal mass is 1 before.</returns>
    public (double Stiffness, double Mass) Changes(IReadOnlyList<PlateSection> before, IReadOnlyList<PlateSection> after)
    {
        double stiffness = 0, mass = 0;
        for (int r = 0; r < Regions.Count; r++)
        {
            if (before[r] == after[r]) { continue; }
            stiffness += Regions[r].Stiffness(after[r]) - Regions[r].Stiffness(before[r]);
            mass += Regions[r].Inertia(after[r]) - Regions[r].Inertia(before[r]);
        }

        return (stiffness / Math.Pow(2 * Math.PI * Frequency, 2), mass);
    }

    /// <summary>Relative change of the frequency for a change of the sections, to first order.</summary>
    /// <param name="before">Sections the mode was found with.</param>
    /// <param name="after">Changed sections.</param>
    /// <returns>df/f.</returns>
    public double RelativeChange(IReadOnlyList<PlateSection> before, IReadOnlyList<PlateSection> after)
    {
        (double stiffness, double mass) = Changes(before, after);
        return (stiffness - mass) / 2;
    }
}

/// <summary>The modes of a plate, and their shapes on the mesh that they were found on.</summary>
public sealed partial class PlateSolution
{
    private readonly PlateSystem _system;
    private readonly PlateProblem _problem;
    private readonly PlateModes.Result _result;
    private readonly double[][] _vectors;
    private readonly IReadOnlyList<double> _errors;
    // Made when they are asked for: in air, those in vacuo are not.
    private readonly Lazy<PlateMode[]> _modes;
    private readonly Lazy<ShapeField> _field;

    internal PlateSolution(PlateSystem system, PlateProblem problem, PlateModes.Result result, IReadOnlyList<double> errors)
    {
        (_system, _problem, _result) = (system, problem, result);
        _vectors = result.Vectors[result.Rigid..];
        RigidModes = result.Rigid;
        _errors = errors;
        _field = new(() => ShapeField.Of(system, problem.Mesh));
        _modes = new(() =>
        {
            RegionShare[][] shares = StrainProducts.Of(system, problem, _vectors[..errors.Count]);
            return [.. errors.Select((error, i) => Mode(problem.Sections, result.Values[result.Rigid + i], shares[i], error))];
        });
    }

    /// <summary>Flexible modes, lowest first.</summary>
    public IReadOnlyList<PlateMode> Modes => _modes.Value;
    /// <summary>Rigid-body modes: 3 of a free plate (w and two turns), 3 more where the plane moves freely.</summary>
    public int RigidModes { get; }
    /// <summary>Frequencies of the modes alone, Hz, without their energy.</summary>
    public IReadOnlyList<double> Frequencies => [.. _errors.Select((_, i) => Math.Sqrt(_result.Values[_result.Rigid + i]) / (2 * Math.PI))];
    /// <summary>Largest estimated numerical error of a frequency, relative.</summary>
    public double WorstError => _errors.Max();
    /// <summary>Order of the elements.</summary>
    public int Order => _system.Mesh.Basis.Order;
    /// <summary>Number of unknowns.</summary>
    public int Unknowns => _system.Unknowns;
    /// <summary>Number of triangles.</summary>
    public int Triangles => _system.Elements.Length;
    /// <summary>The nodes at which shapes are given, and the small triangles that they span.</summary>
    public ShapeField Field => _field.Value;

    /// <summary>Deflection w of a mode at the nodes, mass-normalised (1/√kg).</summary>
    /// <param name="mode">Number of the mode, from 0.</param>
    /// <returns>One value a node.</returns>
    public double[] Shape(int mode) => _system.Deflection(_vectors[mode]);

    /// <summary>The modes in air; <see cref="InAir(IReadOnlyList{AirMode})"/> gives them with their energy and derivatives.</summary>
    /// <param name="baffled">Whether the plate lies in an infinite rigid baffle, as a board on its rim does nearly.</param>
    /// <param name="airDensity">kg/m³.</param>
    /// <param name="wanted">Flexible modes wanted: some fewer than were solved for in vacuo (see <see cref="PlateSolver.BeyondForAir"/>).</param>
    /// <returns>The modes in air.</returns>
    /// <exception cref="ArgumentOutOfRangeException">More modes are wanted than there are in vacuo, or the density is none.</exception>
    public AirModes InAir(bool baffled, double airDensity, int wanted) => AirMass.Of(_system, _result, baffled, airDensity, wanted);

    /// <summary>Modes in air as modes of the plate: with their own energy shares and products by section.</summary>
    /// <remarks>
    /// Each is a sum of the modes in vacuo, q, with qᵀ(M + A)q = 1 and (K − ω²(M + A)) q = 0. The air A depends on the outline alone, so a
    /// change of the sections moves ω² by qᵀ(dK − ω² dM)q: <see cref="PlateMode.RelativeChange"/> as it stands, with
    /// the products of q, whose mass without the air's is less than 1.
    /// </remarks>
    /// <param name="modes">Of those of <see cref="InAir(bool, double, int)"/>.</param>
    /// <returns>The modes, the numerical error of each that of the mode in vacuo which it mostly is.</returns>
    public IReadOnlyList<PlateMode> InAir(IReadOnlyList<AirMode> modes)
    {
        RegionShare[][] shares = StrainProducts.Of(_system, _problem, [.. modes.Select(Sum)]);
        return [.. modes.Select((m, i) => Mode(_problem.Sections, Math.Pow(2 * Math.PI * m.Frequency, 2), shares[i], _errors[Math.Min(m.Nearest, _errors.Count - 1)]))];

        double[] Sum(AirMode mode)
        {
            double[] x = new double[_system.Unknowns];
            double[] parts = [.. mode.RigidParts, .. mode.Parts];
            for (int j = 0; j < parts.Length; j++)
            {
                for (int i = 0; i < x.Length; i++) { x[i] += parts[j] * _result.Vectors[j][i]; }
            }

            return x;
        }
    }

    /// <summary>The plate's unknowns.</summary>
    internal PlateSystem System => _system;
    /// <summary>The modes with the rigid motions before them, on the plate's unknowns.</summary>
    internal PlateModes.Result Result => _result;

    /// <summary>Products by section of any field of motions.</summary>
    internal static RegionShare[] Shares(PlateSystem system, PlateProblem problem, double[] x) => StrainProducts.Of(system, problem, [x])[0];

    /// <summary>A mode of its products by section.</summary>
    internal static PlateMode Mode(IReadOnlyList<PlateSection> sections, double value, RegionShare[] shares, double error)
    {
        double along = 0, across = 0, twist = 0, shear = 0, bars = 0, total = 0;
        for (int r = 0; r < shares.Length; r++)
        {
            PlateSection s = sections[r];
            double[,] p = shares[r].Strains;
            double both = s.D.M12 * p[3, 4];
            along += s.D.M11 * p[3, 3] + both + s.D.M16 * p[3, 5];
            across += s.D.M22 * p[4, 4] + both + s.D.M26 * p[4, 5];
            twist += s.D.M66 * p[5, 5] + s.D.M16 * p[3, 5] + s.D.M26 * p[4, 5];
            shear += s.S.Sx * p[6, 6] + s.S.Sy * p[7, 7] + 2 * s.S.Sxy * p[6, 7];
            total += shares[r].Stiffness(s);
            bars += shares[r].Stiffness(s) - shares[r].Stiffness(s with { Inner = null, Outer = null });
        }

        return new(Math.Sqrt(value) / (2 * Math.PI), error,
            new(along / value, across / value, twist / value, shear / value, (total - along - across - twist - shear - bars) / value, bars / value), shares);
    }
}
