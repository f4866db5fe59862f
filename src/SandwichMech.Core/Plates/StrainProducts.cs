using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Plates;

/// <summary>Integrals of products of strains and of motions over where each section holds, for eight fields of motion at a time.</summary>
/// <remarks>
/// First the products of motions under their operators, [3a + o, 3b + q] = ∫ (o motion a)(q motion b), summed over the triangles
/// of a section: they do not ask what the section is. Then the products of strains, which are sums of them.
/// </remarks>
internal static class StrainProducts
{
    private const int Width = Panel.Width, Fields = 3 * PlateStrains.Motions;

    /// <summary>The products of each field.</summary>
    /// <param name="system">The plate's unknowns.</param>
    /// <param name="problem">The plate.</param>
    /// <param name="fields">Unknowns of each field.</param>
    /// <returns>For each field, one share a section.</returns>
    internal static RegionShare[][] Of(PlateSystem system, PlateProblem problem, double[][] fields)
    {
        RegionShare[][] shares = new RegionShare[fields.Length][];
        double[][] panels = fields.Length == 0 ? [] : Panel.Of(fields);
        for (int f = 0; f < fields.Length; f += Width)
        {
            double[]?[] products = OfMotions(system, problem.Sections.Count, panels[f / Width]);
            for (int c = 0; c < Width && f + c < fields.Length; c++) { shares[f + c] = [.. products.Select(p => Share(system, problem, p, c))]; }
        }

        return shares;
    }

    // For each section that some triangle has.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static double[]?[] OfMotions(PlateSystem system, int sections, double[] panel)
    {
        int n = system.Mesh.Basis.Count, m = 3 * n;
        double[]?[] products = new double[sections][];
        Span<Vector512<double>> local = stackalloc Vector512<double>[n * PlateStrains.Motions];
        Span<Vector512<double>> image = stackalloc Vector512<double>[m];
        ref double x = ref MemoryMarshal.GetArrayDataReference(panel);
        for (int e = 0; e < system.Elements.Length; e++)
        {
            int[] motions = system.MotionsOf(e), dofs = system.Elements[e], places = system.PlacesOf(e);
            int d = motions.Length;
            for (int a = 0; a < d; a++)
            {
                for (int i = 0; i < n; i++)
                {
                    int dof = dofs[i * d + a];
                    local[a * n + i] = dof < 0 ? default : Vector512.LoadUnsafe(ref x, (nuint)(dof * Width));
                }
            }

            for (int p = 0; p < places.Length; p++)
            {
                double[] sum = products[places[p]] ??= new double[Fields * Fields * Width];
                ref double to = ref MemoryMarshal.GetArrayDataReference(sum);
                double[] g = system.IntegralsOf(e, p);
                for (int b = 0; b < d; b++)
                {
                    for (int q = 0; q < 3; q++)
                    {
                        for (int i = 0; i < m; i++)
                        {
                            Vector512<double> s = default;
                            int row = i * m + q * n, at = b * n;
                            for (int j = 0; j < n; j++) { s = Vector512.FusedMultiplyAdd(Vector512.Create(g[row + j]), local[at + j], s); }
                            image[i] = s;
                        }

                        for (int a = 0; a <= b; a++)
                        {
                            for (int o = 0; o < 3; o++)
                            {
                                Vector512<double> s = default;
                                for (int i = 0; i < n; i++) { s = Vector512.FusedMultiplyAdd(local[a * n + i], image[o * n + i], s); }
                                nuint entry = (nuint)(((3 * motions[a] + o) * Fields + 3 * motions[b] + q) * Width);
                                (Vector512.LoadUnsafe(ref to, entry) + s).StoreUnsafe(ref to, entry);
                            }
                        }
                    }
                }
            }
        }

        return products;
    }

    private static RegionShare Share(PlateSystem system, PlateProblem problem, double[]? products, int lane)
    {
        (int Motion, int Op, double Factor)[][] terms = system.Strains.Terms;
        int count = problem.HasInnerBars || problem.HasOuterBars ? PlateStrains.Count : PlateStrains.InnerBar;
        double[,] strains = new double[count, count], motions = new double[PlateStrains.Motions, PlateStrains.Motions];
        if (products is null) { return new(strains, motions); }
        for (int i = 0; i < count; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double sum = 0;
                foreach ((int a, int o, double left) in terms[i])
                {
                    foreach ((int b, int q, double right) in terms[j]) { sum += left * right * At(a, o, b, q); }
                }

                strains[i, j] = strains[j, i] = sum;
            }
        }

        for (int a = 0; a < PlateStrains.Motions; a++)
        {
            for (int b = 0; b < PlateStrains.Motions; b++) { motions[a, b] = At(a, PlateStrains.Op1, b, PlateStrains.Op1); }
        }

        return new(strains, motions);

        // Only pairs with the first motion not behind the second were summed.
        double At(int a, int o, int b, int q) => products[(a <= b ? (3 * a + o) * Fields + 3 * b + q : (3 * b + q) * Fields + 3 * a + o) * Width + lane];
    }
}
