namespace SandwichMech.Core.Layups;

/// <summary>A symmetric 3 × 3 matrix of lamination theory in Voigt order (x, y, xy): reduced stiffness Q, or A, B, D.</summary>
/// <param name="M11">Component 11.</param>
/// <param name="M12">Component 12.</param>
/// <param name="M22">Component 22.</param>
/// <param name="M16">Component 16 (stretch along x with shear).</param>
/// <param name="M26">Component 26.</param>
/// <param name="M66">Component 66; engineering shear strain γ_xy.</param>
public readonly record struct Sym3(double M11, double M12, double M22, double M16, double M26, double M66)
{
    /// <summary>Determinant.</summary>
    public double Determinant =>
        M11 * (M22 * M66 - M26 * M26) - M12 * (M12 * M66 - M26 * M16) + M16 * (M12 * M26 - M22 * M16);

    /// <summary>Inverse.</summary>
    /// <exception cref="ArgumentException">The matrix is singular (a layup with no skins, say).</exception>
    public Sym3 Inverse()
    {
        double det = Determinant;
        if (!(Math.Abs(det) > 0) || !double.IsFinite(1 / det))
        {
            throw new ArgumentException("The layup has no in-plane stiffness: it needs at least one ply that carries load.");
        }

        return new(
            (M22 * M66 - M26 * M26) / det,
            (M16 * M26 - M12 * M66) / det,
            (M11 * M66 - M16 * M16) / det,
            (M12 * M26 - M16 * M22) / det,
            (M12 * M16 - M11 * M26) / det,
            (M11 * M22 - M12 * M12) / det);
    }

    /// <summary>Sum.</summary>
    public static Sym3 operator +(Sym3 a, Sym3 b) =>
        new(a.M11 + b.M11, a.M12 + b.M12, a.M22 + b.M22, a.M16 + b.M16, a.M26 + b.M26, a.M66 + b.M66);

    /// <summary>Difference.</summary>
    public static Sym3 operator -(Sym3 a, Sym3 b) => a + b * -1;

    /// <summary>Multiple.</summary>
    public static Sym3 operator *(Sym3 a, double s) => new(a.M11 * s, a.M12 * s, a.M22 * s, a.M16 * s, a.M26 * s, a.M66 * s);

    /// <summary>Product with another symmetric matrix (in general not symmetric).</summary>
    public static Mat3 operator *(Sym3 a, Sym3 b) => a.Full() * b.Full();

    /// <summary>The same matrix with all nine components.</summary>
    /// <returns>The matrix.</returns>
    public Mat3 Full() => new(M11, M12, M16, M12, M22, M26, M16, M26, M66);
}

/// <summary>A general 3 × 3 matrix, row by row, index order x, y, xy.</summary>
/// <param name="A11">Row 1, column 1.</param>
/// <param name="A12">Row 1, column 2.</param>
/// <param name="A13">Row 1, column 3.</param>
/// <param name="A21">Row 2, column 1.</param>
/// <param name="A22">Row 2, column 2.</param>
/// <param name="A23">Row 2, column 3.</param>
/// <param name="A31">Row 3, column 1.</param>
/// <param name="A32">Row 3, column 2.</param>
/// <param name="A33">Row 3, column 3.</param>
public readonly record struct Mat3(
    double A11, double A12, double A13, double A21, double A22, double A23, double A31, double A32, double A33)
{
    /// <summary>Product.</summary>
    public static Mat3 operator *(Mat3 a, Mat3 b) => new(
        a.A11 * b.A11 + a.A12 * b.A21 + a.A13 * b.A31, a.A11 * b.A12 + a.A12 * b.A22 + a.A13 * b.A32, a.A11 * b.A13 + a.A12 * b.A23 + a.A13 * b.A33,
        a.A21 * b.A11 + a.A22 * b.A21 + a.A23 * b.A31, a.A21 * b.A12 + a.A22 * b.A22 + a.A23 * b.A32, a.A21 * b.A13 + a.A22 * b.A23 + a.A23 * b.A33,
        a.A31 * b.A11 + a.A32 * b.A21 + a.A33 * b.A31, a.A31 * b.A12 + a.A32 * b.A22 + a.A33 * b.A32, a.A31 * b.A13 + a.A32 * b.A23 + a.A33 * b.A33);

    /// <summary>Sum.</summary>
    public static Mat3 operator +(Mat3 a, Mat3 b) => new(
        a.A11 + b.A11, a.A12 + b.A12, a.A13 + b.A13, a.A21 + b.A21, a.A22 + b.A22, a.A23 + b.A23, a.A31 + b.A31, a.A32 + b.A32, a.A33 + b.A33);

    /// <summary>Difference.</summary>
    public static Mat3 operator -(Mat3 a, Mat3 b) => a + b * -1;

    /// <summary>Multiple.</summary>
    public static Mat3 operator *(Mat3 a, double s) => new(
        a.A11 * s, a.A12 * s, a.A13 * s, a.A21 * s, a.A22 * s, a.A23 * s, a.A31 * s, a.A32 * s, a.A33 * s);

    /// <summary>Transpose.</summary>
    /// <returns>The transpose.</returns>
    public Mat3 Transposed() => new(A11, A21, A31, A12, A22, A32, A13, A23, A33);

    /// <summary>The symmetric part, for products that are symmetric up to rounding.</summary>
    /// <returns>The symmetric part.</returns>
    public Sym3 Symmetric() => new(A11, (A12 + A21) / 2, A22, (A13 + A31) / 2, (A23 + A32) / 2, A33);
}
