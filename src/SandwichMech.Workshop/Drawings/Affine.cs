using SandwichMech.Core.Outlines;

namespace SandwichMech.Workshop.Drawings;

/// <summary>x' = a x + c y + e, y' = b x + d y + f, in the order of SVG's matrix(a b c d e f).</summary>
internal sealed record Affine(double A, double B, double C, double D, double E, double F)
{
    internal static Affine Identity { get; } = new(1, 0, 0, 1, 0, 0);

    internal static Affine Move(double x, double y) => new(1, 0, 0, 1, x, y);

    internal static Affine Scale(double x, double y) => new(x, 0, 0, y, 0, 0);

    /// <summary>A turn from x towards y, rad.</summary>
    internal static Affine Turn(double angle)
    {
        (double sin, double cos) = Math.SinCos(angle);
        return new(cos, sin, -sin, cos, 0, 0);
    }

    /// <summary>The other map first, then this one.</summary>
    internal Affine After(Affine first) => new(
        A * first.A + C * first.B, B * first.A + D * first.B,
        A * first.C + C * first.D, B * first.C + D * first.D,
        A * first.E + C * first.F + E, B * first.E + D * first.F + F);

    /// <summary>The map back; what cannot be undone stays as it is.</summary>
    internal Affine Inverse()
    {
        double det = A * D - B * C;
        return det == 0 ? Identity : new Affine(D / det, -B / det, -C / det, A / det, 0, 0).After(Move(-E, -F));
    }

    internal Point Of(Point p) => new(A * p.X + C * p.Y + E, B * p.X + D * p.Y + F);

    internal Bezier Of(Bezier s) => new(Of(s.P0), Of(s.P1), Of(s.P2), Of(s.P3));
}
