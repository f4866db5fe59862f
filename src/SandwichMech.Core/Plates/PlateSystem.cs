namespace SandwichMech.Core.Plates;

/// <summary>A plate's discrete unknowns at one order: numbering, held motions, element integrals and matrices.</summary>
/// <remarks>
/// Displacements u + zφx, v + zφy, w (Reissner–Mindlin). Unknowns per node u, v, w, φx, φy, or the last three where no
/// section couples bending with stretching.
/// </remarks>
internal sealed class PlateSystem
{
    private static readonly int[] WithMembrane = [0, 1, 2, 3, 4], BendingOnly = [2, 3, 4];
    private readonly PlateProblem _problem;
    private readonly double[][] _integrals;
    private readonly Dictionary<int, double[]> _springs = [];

    internal PlateSystem(PlateProblem problem, int order)
    {
        _problem = problem;
        Mesh = new NodalMesh(problem.Mesh, order);
        Motions = problem.HasCoupling ? WithMembrane : BendingOnly;
        (Unknowns, Elements) = Number();
        _integrals = new double[Elements.Length][];
        for (int e = 0; e < Elements.Length; e++)
        {
            _integrals[e] = PlateElements.Integrals(Mesh, e);
        }

        Tree = Numerics.FrontalTree.Of(Elements, [.. problem.Mesh.Triangles.Select(Centre)], Unknowns);
    }

    /// <summary>Nodes of the mesh.</summary>
    internal NodalMesh Mesh { get; }
    /// <summary>Which of u, v, w, φx, φy are unknown at a node.</summary>
    internal int[] Motions { get; }
    /// <summary>Number of unknowns.</summary>
    internal int Unknowns { get; }
    /// <summary>Unknowns of each triangle, node by node; −1 where held.</summary>
    internal int[][] Elements { get; }
    /// <summary>Order of elimination.</summary>
    internal Numerics.FrontalTree Tree { get; }
    /// <summary>Number of each node's motion, −1 where held: [node · motions + motion].</summary>
    internal int[] Numbers { get; private set; } = [];

    internal PlateSection SectionOf(int element) => _problem.Sections[_problem.Mesh.Triangles[element].Region];

    /// <summary>Integrals of an element (see <see cref="PlateElements"/>).</summary>
    internal double[] IntegralsOf(int element) => _integrals[element];

    /// <summary>Factor of K − σM, or nothing where σ is an eigenvalue.</summary>
    internal Numerics.FrontalFactor? Factor(double shift) => Numerics.FrontalFactor.Of(Tree, Elements, (e, k) => Matrix(e, shift, k));

    /// <summary>K − σM of one element.</summary>
    internal void Matrix(int e, double shift, double[] k)
    {
        PlateElements.Stiffness(_integrals[e], Mesh.Basis.Count, Motions, SectionOf(e), shift, k);
        if (_springs.TryGetValue(e, out double[]? spring))
        {
            for (int i = 0; i < spring.Length; i++) { k[i] += spring[i]; }
        }
    }

    /// <summary>y = M x.</summary>
    internal void Mass(double[] x, double[] y)
    {
        Array.Clear(y);
        int n = Mesh.Basis.Count, d = Motions.Length, m = 3 * n;
        double[] local = new double[n * d];
        double[] sums = new double[d];
        for (int e = 0; e < Elements.Length; e++)
        {
            int[] dofs = Elements[e];
            double[] g = _integrals[e];
            PlateSection s = SectionOf(e);
            for (int i = 0; i < local.Length; i++) { local[i] = dofs[i] < 0 ? 0 : x[dofs[i]]; }
            for (int i = 0; i < n; i++)
            {
                Array.Clear(sums);
                int row = (PlateElements.Op1 * n + i) * m + PlateElements.Op1 * n;
                for (int j = 0; j < n; j++)
                {
                    double gij = g[row + j];
                    for (int c = 0; c < d; c++) { sums[c] += gij * local[j * d + c]; }
                }

                for (int a = 0; a < d; a++)
                {
                    int dof = dofs[i * d + a];
                    if (dof < 0) { continue; }
                    double value = 0;
                    for (int b = 0; b < d; b++) { value += s.Inertia(Motions[a], Motions[b]) * sums[b]; }
                    y[dof] += value;
                }
            }
        }
    }

    private (int, int[][]) Number()
    {
        int d = Motions.Length;
        bool[] held = new bool[Mesh.Points.Length * d];
        var element = ElementOfEdge();
        foreach (CurvedEdge edge in _problem.Mesh.Edges)
        {
            if (!element.TryGetValue((edge.A, edge.B), out (int Element, int Side) at)) { continue; }
            EdgeSupport support = _problem.Support(edge);
            int[] nodes = Mesh.NodesOfSide(at.Element, at.Side);
            for (int a = 0; a < d; a++)
            {
                double spring = support.Of(Motions[a]);
                if (double.IsPositiveInfinity(spring))
                {
                    foreach (int node in nodes) { held[node * d + a] = true; }
                }
                else if (spring > 0)
                {
                    AddSpring(at.Element, at.Side, a, spring);
                }
            }
        }

        Numbers = new int[held.Length];
        int count = 0;
        for (int i = 0; i < held.Length; i++) { Numbers[i] = held[i] ? -1 : count++; }
        return (count, [.. Mesh.Nodes.Select(nodes => nodes.SelectMany(n => Enumerable.Range(0, d).Select(a => Numbers[n * d + a])).ToArray())]);
    }

    // The edges of the boundary, each with its only triangle.
    private Dictionary<(int, int), (int Element, int Side)> ElementOfEdge()
    {
        var seen = new Dictionary<(int, int), (int, int)>();
        for (int e = 0; e < _problem.Mesh.Triangles.Count; e++)
        {
            MeshTriangle t = _problem.Mesh.Triangles[e];
            (int, int)[] sides = [(t.A, t.B), (t.B, t.C), (t.C, t.A)];
            for (int s = 0; s < 3; s++)
            {
                (int a, int b) = sides[s];
                if (!seen.Remove((b, a))) { seen[(a, b)] = (e, s); }
            }
        }

        // Both directions find the side.
        foreach (((int a, int b), (int, int) at) in seen.ToList()) { seen[(b, a)] = at; }
        return seen;
    }

    private void AddSpring(int element, int side, int motion, double stiffness)
    {
        int n = Mesh.Basis.Count, d = Motions.Length, size = n * d;
        if (!_springs.TryGetValue(element, out double[]? k)) { _springs[element] = k = new double[size * size]; }
        foreach ((double[] shape, double length) in Mesh.SideQuadrature(element, side))
        {
            for (int i = 0; i < n; i++)
            {
                for (int j = 0; j <= i; j++) { k[(i * d + motion) * size + j * d + motion] += stiffness * length * shape[i] * shape[j]; }
            }
        }
    }

    private (double X, double Y) Centre(MeshTriangle t)
    {
        Outlines.Point a = _problem.Mesh.Vertices[t.A], b = _problem.Mesh.Vertices[t.B], c = _problem.Mesh.Vertices[t.C];
        return ((a.X + b.X + c.X) / 3, (a.Y + b.Y + c.Y) / 3);
    }
}
