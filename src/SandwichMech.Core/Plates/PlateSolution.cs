namespace SandwichMech.Core.Plates;

/// <summary>Products of strains and of motions of one mode, integrated over one region; the mode has unit modal mass.</summary>
/// <remarks>
/// With these, ω² = Σ over regions of C : strains, and 1 = Σ of inertia : motions. The derivative of ω² to any change dC,
/// dm of the sections is dC : strains − ω² dm : motions, exactly (Fox &amp; Kapoor 1968 for a simple eigenvalue).
/// </remarks>
/// <param name="Strains">∫ strain_i strain_j dA, 8 × 8 symmetric, order εx εy γxy κx κy κxy γxz γyz, 1/kg · (m/m)² and so on.</param>
/// <param name="Translation">∫ (u² + v² + w²) dA.</param>
/// <param name="Mixed">∫ (u φx + v φy) dA.</param>
/// <param name="Rotation">∫ (φx² + φy²) dA.</param>
public sealed record RegionShare(double[,] Strains, double Translation, double Mixed, double Rotation)
{
    /// <summary>Its part of ω² with a section.</summary>
    /// <param name="s">The section.</param>
    /// <returns>Σ C_ij ∫ strain_i strain_j.</returns>
    public double Stiffness(in PlateSection s)
    {
        double sum = 0;
        for (int i = 0; i < 8; i++)
        {
            for (int j = 0; j < 8; j++)
            {
                sum += s[i, j] * Strains[i, j];
            }
        }

        return sum;
    }

    /// <summary>Its part of the modal mass with a section.</summary>
    /// <param name="s">The section.</param>
    /// <returns>m₀∫(u²+v²+w²) + 2m₁∫(uφx+vφy) + m₂∫(φx²+φy²).</returns>
    public double Inertia(in PlateSection s) => s.Mass * Translation + 2 * s.FirstMoment * Mixed + s.RotaryInertia * Rotation;
}

/// <summary>Where a mode's strain energy sits; the shares add up to 1 less what edge springs hold.</summary>
/// <param name="Along">Bending along the grain.</param>
/// <param name="Across">Bending across.</param>
/// <param name="Twist">Twist.</param>
/// <param name="Shear">Transverse shear.</param>
/// <param name="Membrane">Stretching of the plane, its coupling with bending included.</param>
public readonly record struct EnergyShares(double Along, double Across, double Twist, double Shear, double Membrane);

/// <summary>One mode of a plate.</summary>
/// <param name="Frequency">Hz.</param>
/// <param name="Error">Estimated numerical error of the frequency, relative.</param>
/// <param name="Energy">Where its energy sits.</param>
/// <param name="Regions">Products by region, for derivatives.</param>
public sealed record PlateMode(double Frequency, double Error, EnergyShares Energy, IReadOnlyList<RegionShare> Regions)
{
    /// <summary>Relative change of the frequency for a change of the sections, to first order.</summary>
    /// <param name="before">Sections the mode was found with.</param>
    /// <param name="after">Changed sections.</param>
    /// <returns>df/f.</returns>
    public double RelativeChange(IReadOnlyList<PlateSection> before, IReadOnlyList<PlateSection> after)
    {
        double omega2 = Math.Pow(2 * Math.PI * Frequency, 2), change = 0;
        for (int r = 0; r < Regions.Count; r++)
        {
            change += Regions[r].Stiffness(after[r]) - Regions[r].Stiffness(before[r])
                - omega2 * (Regions[r].Inertia(after[r]) - Regions[r].Inertia(before[r]));
        }

        return change / (2 * omega2);
    }
}

/// <summary>The modes of a plate, and their shapes on the mesh that they were found on.</summary>
public sealed class PlateSolution
{
    private readonly PlateSystem _system;
    private readonly double[][] _vectors;

    internal PlateSolution(PlateSystem system, PlateProblem problem, PlateModes.Result result, IReadOnlyList<double> errors)
    {
        _system = system;
        _vectors = result.Vectors[result.Rigid..];
        RigidModes = result.Rigid;
        (int A, int B, int C)[] small = system.Mesh.Basis.SmallTriangles();
        Field = new(
            system.Mesh.Points,
            [.. system.Mesh.Nodes.SelectMany(nodes => small.Select(c => (nodes[c.A], nodes[c.B], nodes[c.C])))],
            [.. problem.Mesh.Triangles.SelectMany(t => Enumerable.Repeat(t.Region, small.Length))]);
        double[] areas = new double[problem.Sections.Count];
        for (int e = 0; e < system.Elements.Length; e++)
        {
            areas[problem.Mesh.Triangles[e].Region] += system.Mesh.AreaOf(e);
        }

        RegionAreas = areas;
        Modes = [.. Enumerable.Range(0, _vectors.Length).Select(i => Mode(problem, result.Values[result.Rigid + i], _vectors[i], errors[i]))];
    }

    /// <summary>Flexible modes, lowest first.</summary>
    public IReadOnlyList<PlateMode> Modes { get; }
    /// <summary>Rigid-body modes: 3 of a free plate (w and two turns), 3 more where the plane moves freely.</summary>
    public int RigidModes { get; }
    /// <summary>Number of unknowns.</summary>
    public int Unknowns => _system.Unknowns;
    /// <summary>Number of triangles.</summary>
    public int Triangles => _system.Elements.Length;
    /// <summary>The nodes at which shapes are given, and the small triangles that they span.</summary>
    public ShapeField Field { get; }

    /// <summary>Area of each region, m², by the mesh's own quadrature.</summary>
    public IReadOnlyList<double> RegionAreas { get; }

    /// <summary>Deflection w of a mode at the nodes, mass-normalised (1/√kg).</summary>
    /// <param name="mode">Number of the mode, from 0.</param>
    /// <returns>One value a node.</returns>
    public double[] Shape(int mode)
    {
        int d = _system.Motions.Length, at = Array.IndexOf(_system.Motions, 2);
        double[] shape = new double[_system.Mesh.Points.Length];
        for (int i = 0; i < shape.Length; i++)
        {
            int dof = _system.Numbers[i * d + at];
            shape[i] = dof < 0 ? 0 : _vectors[mode][dof];
        }

        return shape;
    }

    private PlateMode Mode(PlateProblem problem, double value, double[] x, double error)
    {
        var shares = new RegionShare[problem.Sections.Count];
        for (int r = 0; r < shares.Length; r++)
        {
            shares[r] = new(new double[8, 8], 0, 0, 0);
        }

        for (int e = 0; e < _system.Elements.Length; e++)
        {
            Add(shares, problem.Mesh.Triangles[e].Region, e, x);
        }

        double along = 0, across = 0, twist = 0, shear = 0, total = 0;
        for (int r = 0; r < shares.Length; r++)
        {
            PlateSection s = problem.Sections[r];
            double[,] p = shares[r].Strains;
            double both = s.D.M12 * p[3, 4];
            along += s.D.M11 * p[3, 3] + both + s.D.M16 * p[3, 5];
            across += s.D.M22 * p[4, 4] + both + s.D.M26 * p[4, 5];
            twist += s.D.M66 * p[5, 5] + s.D.M16 * p[3, 5] + s.D.M26 * p[4, 5];
            shear += s.S.Sx * p[6, 6] + s.S.Sy * p[7, 7] + 2 * s.S.Sxy * p[6, 7];
            total += shares[r].Stiffness(s);
        }

        return new(Math.Sqrt(value) / (2 * Math.PI), error,
            new(along / value, across / value, twist / value, shear / value, (total - along - across - twist - shear) / value), shares);
    }

    // The element's share: first yᵀ G y for the motions under each operator, then the strains' products from them.
    private void Add(RegionShare[] shares, int region, int e, double[] x)
    {
        int n = _system.Mesh.Basis.Count, d = _system.Motions.Length, m = 3 * n;
        double[] g = _system.IntegralsOf(e);
        int[] dofs = _system.Elements[e];
        double[] local = new double[5 * n];
        for (int i = 0; i < n; i++)
        {
            for (int a = 0; a < d; a++)
            {
                int dof = dofs[i * d + a];
                local[_system.Motions[a] * n + i] = dof < 0 ? 0 : x[dof];
            }
        }

        double Product(int motion, int op, int other, int otherOp)
        {
            double sum = 0;
            for (int i = 0; i < n; i++)
            {
                double left = local[motion * n + i];
                if (left == 0)
                {
                    continue;
                }

                int row = (op * n + i) * m + otherOp * n;
                double inner = 0;
                for (int j = 0; j < n; j++)
                {
                    inner += g[row + j] * local[other * n + j];
                }

                sum += left * inner;
            }

            return sum;
        }

        double[,] strains = shares[region].Strains;
        for (int i = d == 5 ? 0 : 3; i < 8; i++)
        {
            for (int j = d == 5 ? 0 : 3; j <= i; j++)
            {
                double sum = 0;
                foreach ((int motion, int op) in PlateElements.Strain[i])
                {
                    foreach ((int other, int otherOp) in PlateElements.Strain[j])
                    {
                        sum += Product(motion, op, other, otherOp);
                    }
                }

                strains[i, j] += sum;
                if (i != j)
                {
                    strains[j, i] += sum;
                }
            }
        }

        const int one = PlateElements.Op1;
        RegionShare old = shares[region];
        shares[region] = old with
        {
            Translation = old.Translation + Product(0, one, 0, one) + Product(1, one, 1, one) + Product(2, one, 2, one),
            Mixed = old.Mixed + Product(0, one, 3, one) + Product(1, one, 4, one),
            Rotation = old.Rotation + Product(3, one, 3, one) + Product(4, one, 4, one),
        };
    }
}
