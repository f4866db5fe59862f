namespace SandwichMech.Core.Outlines;

/// <summary>A point or a vector in the plane of the board, m: x along the grain, y across.</summary>
/// <param name="X">m.</param>
/// <param name="Y">m.</param>
public readonly record struct Point(double X, double Y)
{
    /// <summary>Sum.</summary>
    public static Point operator +(Point a, Point b) => new(a.X + b.X, a.Y + b.Y);
    /// <summary>Difference.</summary>
    public static Point operator -(Point a, Point b) => new(a.X - b.X, a.Y - b.Y);
    /// <summary>Multiple.</summary>
    public static Point operator *(double s, Point a) => new(s * a.X, s * a.Y);
    /// <summary>Length of the vector, m.</summary>
    public double Norm => Math.Sqrt(X * X + Y * Y);
    /// <summary>The vector turned a quarter to the left.</summary>
    public Point Left() => new(-Y, X);
    /// <summary>Scalar product.</summary>
    public double Dot(Point b) => X * b.X + Y * b.Y;
    /// <summary>z component of the vector product, positive where b lies to the left.</summary>
    public double Cross(Point b) => X * b.Y - Y * b.X;
    /// <summary>Angle from this vector to another, rad, −π to π, positive to the left.</summary>
    public double AngleTo(Point b) => Math.Atan2(Cross(b), Dot(b));
    /// <summary>The vector turned to the left by an angle, rad.</summary>
    public Point Turned(double angle)
    {
        (double sin, double cos) = Math.SinCos(angle);
        return new(cos * X - sin * Y, sin * X + cos * Y);
    }
}
