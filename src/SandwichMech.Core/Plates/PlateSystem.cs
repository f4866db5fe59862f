using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace SandwichMech.Core.Plates;

/// <summary>A plate's discrete unknowns at one order: numbering, held motions, element integrals and matrices.</summary>
/// <remarks>
/// Displacements u + zφx, v + zφy, w (Reissner–Mindlin). Unknowns per node u, v, w, φx, φy, or the last three where no
/// section couples bending with stretching; where a bar is glued on, its own two rotations too.
/// </remarks>
internal sealed class PlateSystem
{
    private readonly PlateProblem _problem;
    private readonly SectionCoefficients[] _sections;
    private readonly double[][][] _integrals;
    private readonly int[][] _motions;
    private readonly Dictionary<int, double[]> _springs;

    internal PlateSystem(PlateProblem problem, int order)
    {
        (_problem, _springs) = (problem, []);
        Mesh = new NodalMesh(problem.Mesh, order);
        Strains = new(problem.Dome);
        _sections = [.. problem.Sections.Select(x => Strains.Of(x))];
        int[] board = problem.HasCoupling ? [0, 1, 2, 3, 4] : [2, 3, 4];
        Motions = [.. board, .. problem.HasInnerBars ? new[] { 5, 6 } : [], .. problem.HasOuterBars ? new[] { 7, 8 } : []];
        _motions = [.. Enumerable.Range(0, problem.Mesh.Triangles.Count).Select(e => MotionsOf(board, problem.PlacesOf(e)))];
        (Unknowns, Elements) = Number();
        _integrals = new double[Elements.Length][][];
        for (int e = 0; e < Elements.Length; e++)
        {
            _integrals[e] = problem.PlacesOf(e).Length == 1 ? [PlateElements.Integrals(Mesh, e)] : PlateElements.WeightedIntegrals(Mesh, e);
        }

        Tree = Numerics.FrontalTree.Of(Elements, [.. problem.Mesh.Triangles.Select(Centre)], Unknowns);
    }

    private PlateSystem(PlateSystem of, PlateProblem problem)
    {
        (_problem, _integrals, _motions, _springs) = (problem, of._integrals, of._motions, of._springs);
        (Mesh, Motions, Unknowns, Elements, Tree, Numbers, Strains) = (of.Mesh, of.Motions, of.Unknowns, of.Elements, of.Tree, of.Numbers, of.Strains);
        _sections = [.. problem.Sections.Select(x => Strains.Of(x))];
    }

    /// <summary>The same plate with other sections, which take no further motions and no other springs: nothing is numbered or integrated again.</summary>
    internal PlateSystem With(IReadOnlyList<PlateSection> sections) => new(this, _problem with { Sections = sections });

    /// <summary>What it was made of.</summary>
    internal PlateProblem Problem => _problem;

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

    /// <summary>Strains by motions.</summary>
    internal PlateStrains Strains { get; }

    /// <summary>Which motions are unknown in an element.</summary>
    internal int[] MotionsOf(int element) => _motions[element];

    /// <summary>Numbers of an element's sections, one for each of its <see cref="IntegralsOf(int, int)"/>.</summary>
    internal int[] PlacesOf(int element) => _problem.PlacesOf(element);

    /// <summary>Integrals of an element with the weight of one of its places (see <see cref="PlateElements"/>).</summary>
    internal double[] IntegralsOf(int element, int place) => _integrals[element][place];

    /// <summary>Integrals of an element, whatever its sections.</summary>
    internal double[] IntegralsOf(int element)
    {
        double[][] all = _integrals[element];
        if (all.Length == 1) { return all[0]; }
        double[] sum = new double[all[0].Length];
        foreach (double[] g in all)
        {
            for (int i = 0; i < sum.Length; i++) { sum[i] += g[i]; }
        }

        return sum;
    }

    /// <summary>w at the nodes.</summary>
    /// <param name="x">Unknowns.</param>
    internal double[] Deflection(double[] x)
    {
        const int deflection = 2;
        int d = Motions.Length, at = Array.IndexOf(Motions, deflection);
        double[] w = new double[Mesh.Points.Length];
        for (int i = 0; i < w.Length; i++) { w[i] = Numbers[i * d + at] is >= 0 and int dof ? x[dof] : 0; }
        return w;
    }

    /// <summary>Whether the edge holds something of an element.</summary>
    internal bool IsHeld(int element) => _springs.ContainsKey(element) || Array.IndexOf(Elements[element], -1) >= 0;

    /// <summary>Edge springs of an element, lower triangle of its matrix; nothing where it has none.</summary>
    internal double[]? SpringsOf(int element) => _springs.GetValueOrDefault(element);

    /// <summary>Factor of K − σM, or nothing where σ is an eigenvalue.</summary>
    internal Numerics.FrontalFactor? Factor(double shift) => Numerics.FrontalFactor.Of(Tree, Elements, (e, k) => Matrix(e, shift, k));

    /// <summary>How many eigenvalues lie below σ (Sylvester's law of inertia), or nothing where σ is one.</summary>
    internal int? CountBelow(double shift) => Numerics.FrontalFactor.Of(Tree, Elements, (e, k) => Matrix(e, shift, k), keep: false)?.NegativePivots;

    /// <summary>K − σM of one element.</summary>
    internal void Matrix(int e, double shift, double[] k)
    {
        int size = Elements[e].Length;
        Array.Clear(k, 0, size * size);
        int[] places = PlacesOf(e);
        for (int p = 0; p < places.Length; p++)
        {
            PlateElements.AddStiffness(_integrals[e][p], Mesh.Basis.Count, _motions[e], _sections[places[p]], shift, k);
        }

        if (_springs.TryGetValue(e, out double[]? spring))
        {
            for (int i = 0; i < spring.Length; i++) { k[i] += spring[i]; }
        }
    }

    /// <summary>y = M x.</summary>
    internal void Mass(double[] x, double[] y)
    {
        double[] panel = Numerics.Panel.Of([x])[0], massed = new double[panel.Length];
        MassOfPanel(panel, massed);
        Numerics.Panel.Vector([massed], 0).CopyTo(y, 0);
    }

    /// <summary>y = M x of eight vectors at a time (see <see cref="Numerics.Panel"/>).</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal void MassOfPanel(double[] x, double[] y)
    {
        const int width = Numerics.Panel.Width;
        Array.Clear(y);
        int n = Mesh.Basis.Count, m = 3 * n;
        ref double xs = ref MemoryMarshal.GetArrayDataReference(x);
        ref double ys = ref MemoryMarshal.GetArrayDataReference(y);
        Span<Vector512<double>> local = stackalloc Vector512<double>[n * PlateStrains.Motions];
        Span<Vector512<double>> sums = stackalloc Vector512<double>[PlateStrains.Motions];
        for (int e = 0; e < Elements.Length; e++)
        {
            int[] dofs = Elements[e], motions = _motions[e], places = PlacesOf(e);
            int d = motions.Length;
            for (int i = 0; i < dofs.Length; i++) { local[i] = dofs[i] < 0 ? default : Vector512.LoadUnsafe(ref xs, (nuint)(dofs[i] * width)); }
            for (int p = 0; p < places.Length; p++)
            {
                double[] g = _integrals[e][p];
                double[,] inertia = _sections[places[p]].Inertia;
                for (int i = 0; i < n; i++)
                {
                    ref double row = ref g[(PlateStrains.Op1 * n + i) * m + PlateStrains.Op1 * n];
                    for (int c = 0; c < d; c++)
                    {
                        Vector512<double> even = default, odd = default;
                        int j = 0;
                        for (; j + 1 < n; j += 2)
                        {
                            even = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref row, j)), local[j * d + c], even);
                            odd = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref row, j + 1)), local[(j + 1) * d + c], odd);
                        }

                        if (j < n) { even = Vector512.FusedMultiplyAdd(Vector512.Create(Unsafe.Add(ref row, j)), local[j * d + c], even); }
                        sums[c] = even + odd;
                    }

                    for (int a = 0; a < d; a++)
                    {
                        int dof = dofs[i * d + a];
                        if (dof < 0) { continue; }
                        var value = Vector512.LoadUnsafe(ref ys, (nuint)(dof * width));
                        for (int b = 0; b < d; b++)
                        {
                            double by = inertia[motions[a], motions[b]];
                            if (by != 0) { value = Vector512.FusedMultiplyAdd(Vector512.Create(by), sums[b], value); }
                        }

                        value.StoreUnsafe(ref ys, (nuint)(dof * width));
                    }
                }
            }
        }
    }

    private int[] MotionsOf(int[] board, int[] places) =>
    [
        .. board,
        .. places.Any(p => _problem.Sections[p].Inner is not null) ? new[] { 5, 6 } : [],
        .. places.Any(p => _problem.Sections[p].Outer is not null) ? new[] { 7, 8 } : [],
    ];

    private (int, int[][]) Number()
    {
        int d = Motions.Length;
        bool[] held = Absent();
        var element = ElementOfEdge();
        // Both directions are there. An edge that is on no curve would be free without anybody saying so.
        if (_problem.Mesh.Edges.Count(e => element.ContainsKey((e.A, e.B))) < element.Count / 2)
        {
            throw new InvalidOperationException("The mesh has edges on its boundary that lie on no curve, so how they are held is not known.");
        }

        foreach (CurvedEdge edge in _problem.Mesh.Edges)
        {
            if (!element.TryGetValue((edge.A, edge.B), out (int Element, int Side) at)) { continue; }
            EdgeSupport support = _problem.Support(edge);
            int[] nodes = Mesh.NodesOfSide(at.Element, at.Side);
            if (support.Along > 0) { AddAlong(at.Element, at.Side, support.Along); }
            for (int a = 0; a < d; a++)
            {
                double spring = support.Of(Motions[a]);
                if (double.IsPositiveInfinity(spring))
                {
                    foreach (int node in nodes) { held[node * d + a] = true; }
                }
                else if (spring > 0 && _motions[at.Element].Contains(Motions[a]))
                {
                    AddSpring(at.Element, at.Side, Array.IndexOf(_motions[at.Element], Motions[a]), spring);
                }
            }
        }

        Numbers = new int[held.Length];
        int count = 0;
        for (int i = 0; i < held.Length; i++) { Numbers[i] = held[i] ? -1 : count++; }
        int[][] elements = new int[_motions.Length][];
        for (int e = 0; e < elements.Length; e++)
        {
            int[] nodes = Mesh.Nodes[e], own = [.. _motions[e].Select(x => Array.IndexOf(Motions, x))];
            int[] dofs = elements[e] = new int[nodes.Length * own.Length];
            for (int i = 0; i < dofs.Length; i++) { dofs[i] = Numbers[nodes[i / own.Length] * d + own[i % own.Length]]; }
        }

        return (count, elements);
    }

    // Motions that a node does not have: its triangles carry no such bar.
    private bool[] Absent()
    {
        int d = Motions.Length;
        bool[] absent = new bool[Mesh.Points.Length * d];
        Array.Fill(absent, true);
        for (int e = 0; e < Mesh.Nodes.Length; e++)
        {
            foreach (int motion in _motions[e])
            {
                int a = Array.IndexOf(Motions, motion);
                foreach (int node in Mesh.Nodes[e]) { absent[node * d + a] = false; }
            }
        }

        return absent;
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
        int n = Mesh.Basis.Count, d = _motions[element].Length, size = n * d;
        if (!_springs.TryGetValue(element, out double[]? k)) { _springs[element] = k = new double[size * size]; }
        foreach ((double[] shape, double length, _) in Mesh.SideQuadrature(element, side))
        {
            for (int i = 0; i < n; i++)
            {
                for (int j = 0; j <= i; j++) { k[(i * d + motion) * size + j * d + motion] += stiffness * length * shape[i] * shape[j]; }
            }
        }
    }

    // Against φ·t, t the direction of the edge.
    private void AddAlong(int element, int side, double stiffness)
    {
        int n = Mesh.Basis.Count, d = _motions[element].Length, size = n * d, turns = Array.IndexOf(_motions[element], 3);
        if (!_springs.TryGetValue(element, out double[]? k)) { _springs[element] = k = new double[size * size]; }
        foreach ((double[] shape, double length, Outlines.Point t) in Mesh.SideQuadrature(element, side))
        {
            double[] along = new double[size];
            for (int i = 0; i < n; i++) { (along[i * d + turns], along[i * d + turns + 1]) = (t.X * shape[i], t.Y * shape[i]); }
            for (int i = 0; i < size; i++)
            {
                for (int j = 0; j <= i; j++) { k[i * size + j] += stiffness * length * along[i] * along[j]; }
            }
        }
    }

    private (double X, double Y) Centre(MeshTriangle t)
    {
        Outlines.Point a = _problem.Mesh.Vertices[t.A], b = _problem.Mesh.Vertices[t.B], c = _problem.Mesh.Vertices[t.C];
        return ((a.X + b.X + c.X) / 3, (a.Y + b.Y + c.Y) / 3);
    }
}
