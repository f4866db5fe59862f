namespace SandwichMech.Core.Plates;

/// <summary>Curvature of a domed board, 1/m, positive where it bulges outward; 0 of a flat one.</summary>
/// <param name="Along">1/R along x.</param>
/// <param name="Across">1/R along y.</param>
public readonly record struct Dome(double Along, double Across)
{
    /// <summary>Whether the board is flat.</summary>
    public bool IsFlat => Along == 0 && Across == 0;
}

/// <summary>The nine motions of a point of the plate and the strains that they make.</summary>
/// <remarks>
/// Motions: u, v, w, φx, φy, and the own rotations ψx, ψy of a bar on the inner and on the outer face. Strains: εx εy γxy,
/// κx κy κxy, γxz γyz, then κ'x κ'y κ'xy γ'xz γ'yz of each bar. A domed board stretches as it deflects: εx = u,x + w/Rx,
/// εy = v,y + w/Ry with u, v along the surface (shallow shell; Leissa 1973, NASA SP-288, section 2.9: Donnell–Mushtari).
/// </remarks>
internal sealed class PlateStrains
{
    internal const int OpX = 0, OpY = 1, Op1 = 2;
    internal const int Stretch = 0, Bend = 3, Shear = 6, InnerBar = 8, OuterBar = 13, Count = 18, Motions = 9;

    internal PlateStrains(Dome dome)
    {
        Terms = new (int, int, double)[Count][];
        Terms[0] = dome.Along == 0 ? [(0, OpX, 1)] : [(0, OpX, 1), (2, Op1, dome.Along)];
        Terms[1] = dome.Across == 0 ? [(1, OpY, 1)] : [(1, OpY, 1), (2, Op1, dome.Across)];
        Terms[2] = [(0, OpY, 1), (1, OpX, 1)];
        Rotations(Bend, 3, Shear);
        Rotations(InnerBar, 5, InnerBar + 3);
        Rotations(OuterBar, 7, OuterBar + 3);
    }

    /// <summary>For each strain, the motions under their operators with their factors.</summary>
    internal (int Motion, int Op, double Factor)[][] Terms { get; }

    private void Rotations(int curvature, int rotation, int shear)
    {
        Terms[curvature] = [(rotation, OpX, 1)];
        Terms[curvature + 1] = [(rotation + 1, OpY, 1)];
        Terms[curvature + 2] = [(rotation, OpY, 1), (rotation + 1, OpX, 1)];
        Terms[shear] = [(2, OpX, 1), (rotation, Op1, 1)];
        Terms[shear + 1] = [(2, OpY, 1), (rotation + 1, Op1, 1)];
    }

    /// <summary>Coefficients of the integrals for each pair of motions: stiffness by operator pair, and inertia.</summary>
    /// <param name="section">The section.</param>
    /// <returns>[motion a · 9 + motion b] → the nine factors of (oN)(qN)ᵀ, and the inertia.</returns>
    internal SectionCoefficients Of(in PlateSection section)
    {
        double[,] c = section.Stiffness();
        double[][] stiffness = new double[Motions * Motions][];
        for (int i = 0; i < stiffness.Length; i++) { stiffness[i] = new double[9]; }
        for (int e = 0; e < Count; e++)
        {
            for (int f = 0; f < Count; f++)
            {
                if (c[e, f] == 0) { continue; }
                foreach ((int a, int op, double factor) in Terms[e])
                {
                    foreach ((int b, int otherOp, double other) in Terms[f])
                    {
                        stiffness[a * Motions + b][op * 3 + otherOp] += c[e, f] * factor * other;
                    }
                }
            }
        }

        return new(stiffness, section.Inertia());
    }
}

/// <summary>What a section brings to an element's matrices.</summary>
/// <param name="Stiffness">[motion a · 9 + motion b] → factors of the nine integrals.</param>
/// <param name="Inertia">Between two motions.</param>
internal sealed record SectionCoefficients(double[][] Stiffness, double[,] Inertia);
