using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace SandwichMech.Core.Plates;

/// <summary>Motions found at one order, on the nodes of a higher order of the same mesh.</summary>
internal static class OrderRaise
{
    private const int Width = Numerics.Panel.Width;

    /// <summary>The same motions at the higher order.</summary>
    /// <param name="from">Where they were found.</param>
    /// <param name="to">The same plate at a higher order.</param>
    /// <param name="vectors">Unknowns of the lower order.</param>
    /// <returns>Unknowns of the higher order, eight vectors interleaved.</returns>
    internal static double[][] Of(PlateSystem from, PlateSystem to, double[][] vectors)
    {
        double[][] shapes = [.. to.Mesh.Basis.Nodes.Select(node => from.Mesh.Basis.At(node.R, node.S).N)];
        double[][] panels = Numerics.Panel.Of(vectors);
        return [.. panels.Select(Raised)];

        double[] Raised(double[] panel)
        {
            double[] raised = new double[Width * to.Unknowns];
            Raise(from, to, shapes, panel, raised);
            return raised;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Raise(PlateSystem from, PlateSystem to, double[][] shapes, double[] panel, double[] raised)
    {
        int low = from.Mesh.Basis.Count;
        ref double source = ref MemoryMarshal.GetArrayDataReference(panel);
        ref double target = ref MemoryMarshal.GetArrayDataReference(raised);
        for (int e = 0; e < to.Elements.Length; e++)
        {
            int[] own = from.Elements[e], higher = to.Elements[e];
            int d = to.MotionsOf(e).Length;
            for (int i = 0; i < shapes.Length; i++)
            {
                double[] shape = shapes[i];
                for (int a = 0; a < d; a++)
                {
                    int dof = higher[i * d + a];
                    if (dof < 0) { continue; }
                    Vector512<double> sum = default;
                    for (int j = 0; j < low; j++)
                    {
                        int at = own[j * d + a];
                        if (at >= 0) { sum = Vector512.FusedMultiplyAdd(Vector512.Create(shape[j]), Vector512.LoadUnsafe(ref source, (nuint)(at * Width)), sum); }
                    }

                    sum.StoreUnsafe(ref target, (nuint)(dof * Width));
                }
            }
        }
    }
}
