namespace SandwichMech.Figures.Drawing;

/// <summary>A rectangle of the picture, in pixels, y downward.</summary>
internal readonly record struct Box(double Left, double Top, double Right, double Bottom)
{
    internal double Width => Right - Left;

    internal double Height => Bottom - Top;

    internal double MiddleX => (Left + Right) / 2;

    internal double MiddleY => (Top + Bottom) / 2;

    internal static Box Around(double x, double y, double halfWidth, double halfHeight) =>
        new(x - halfWidth, y - halfHeight, x + halfWidth, y + halfHeight);

    internal bool Contains(Box other) =>
        other.Left >= Left && other.Right <= Right && other.Top >= Top && other.Bottom <= Bottom;

    internal bool Contains(double x, double y) => x >= Left && x <= Right && y >= Top && y <= Bottom;

    internal bool Overlaps(Box other) =>
        other.Left < Right && other.Right > Left && other.Top < Bottom && other.Bottom > Top;

    internal Box Grown(double by) => new(Left - by, Top - by, Right + by, Bottom + by);
}
