using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Plates;

/// <summary>The rectangle that stands for an outline: same area, same ratio of length to width.</summary>
/// <remarks>
/// A stand-in until the outline itself is solved. How far off it may be: a hinged circle vibrates at 4.935/r² (Leissa
/// 1969), a hinged square of the same area at 19.739/(πr²), 27 % higher. An outline lies between the two, so half that
/// range is carried as the stand-in's own spread.
/// </remarks>
/// <param name="Length">Along the grain, m.</param>
/// <param name="Width">Across, m.</param>
public readonly record struct EquivalentRectangle(double Length, double Width)
{
    /// <summary>Standard deviation of ln frequency for taking a rectangle in place of the outline.</summary>
    public const double Spread = 0.12;

    /// <summary>The rectangle of a board, where its length and width are known.</summary>
    /// <param name="size">Area, length, widest width.</param>
    /// <returns>The rectangle, or nothing.</returns>
    public static EquivalentRectangle? Of(BoardSize size)
    {
        if (size is not { Length: { } length, Width: { } width })
        {
            return null;
        }

        double scale = Math.Sqrt(size.Area / (length * width));
        return new(length * scale, width * scale);
    }
}
