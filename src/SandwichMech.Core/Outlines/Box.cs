namespace SandwichMech.Core.Outlines;

/// <summary>An upright rectangle that encloses something.</summary>
/// <param name="MinX">m.</param>
/// <param name="MinY">m.</param>
/// <param name="MaxX">m.</param>
/// <param name="MaxY">m.</param>
public readonly record struct Box(double MinX, double MinY, double MaxX, double MaxY)
{
    /// <summary>The box that holds nothing and grows from there.</summary>
    public static Box Empty => new(double.PositiveInfinity, double.PositiveInfinity, double.NegativeInfinity, double.NegativeInfinity);

    /// <summary>Length of its diagonal, m.</summary>
    public double Size => new Point(MaxX - MinX, MaxY - MinY).Norm;

    /// <summary>Its middle.</summary>
    public Point Middle => new((MinX + MaxX) / 2, (MinY + MaxY) / 2);

    /// <summary>The smallest box that also holds a point.</summary>
    public Box With(Point p) => new(Math.Min(MinX, p.X), Math.Min(MinY, p.Y), Math.Max(MaxX, p.X), Math.Max(MaxY, p.Y));

    /// <summary>The smallest box that holds both.</summary>
    public Box With(Box b) => new(Math.Min(MinX, b.MinX), Math.Min(MinY, b.MinY), Math.Max(MaxX, b.MaxX), Math.Max(MaxY, b.MaxY));

    /// <summary>Whether two boxes come within a distance (m) of each other, measured along x and along y.</summary>
    public bool Near(Box b, double distance) =>
        MinX - b.MaxX <= distance && b.MinX - MaxX <= distance && MinY - b.MaxY <= distance && b.MinY - MaxY <= distance;

    /// <summary>Distance from a point to the box, m; zero inside.</summary>
    public double Distance(Point p) => new Point(
        Math.Max(Math.Max(MinX - p.X, p.X - MaxX), 0), Math.Max(Math.Max(MinY - p.Y, p.Y - MaxY), 0)).Norm;
}
