using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;

namespace SandwichMech.Core.Identification;

/// <summary>A rectangular piece as the readings find it: what its layup is, for some values of all that is uncertain.</summary>
/// <param name="Length">Along the grain, m.</param>
/// <param name="Width">m.</param>
public abstract record Sample(double Length, double Width)
{
    /// <summary>
    /// How much stiffer wood is against a tap than under a weight: what creeps in seconds does not in milliseconds. 5 to 10 %
    /// (common in the literature, no single source; from memory).
    /// </summary>
    public const double UsualTappedOverBent = 1.075;

    /// <summary>The same of this piece.</summary>
    public double TappedOverBent { get; init; } = UsualTappedOverBent;

    /// <summary>Its layup in the state in which it was read, as a tap finds it or as a weight does.</summary>
    /// <param name="underWeight">Whether a weight bends it.</param>
    public abstract Laminate Layup(bool underWeight);
}

/// <summary>A plate of solid wood.</summary>
/// <param name="Length">Along the grain, m.</param>
/// <param name="Width">m.</param>
/// <param name="Wood">Its wood at the tables' moisture content; moduli as a tap finds them.</param>
/// <param name="Thickness">m.</param>
/// <param name="MoisturePercent">Of the piece as it was read.</param>
public sealed record WoodSample(double Length, double Width, Wood Wood, double Thickness, double MoisturePercent) : Sample(Length, Width)
{
    /// <inheritdoc/>
    public override Laminate Layup(bool underWeight)
    {
        Wood here = Moisture.At(Wood, MoisturePercent);
        return Board.SolidPlate(underWeight ? here with { EL = here.EL.Times(1 / TappedOverBent) } : here, Thickness);
    }
}

/// <summary>A sandwich without wood let in.</summary>
/// <param name="Length">Along the grain, m.</param>
/// <param name="Width">m.</param>
/// <param name="Board">Its layup; moduli of the woods as a tap finds them.</param>
public sealed record SandwichSample(double Length, double Width, Board Board) : Sample(Length, Width)
{
    /// <inheritdoc/>
    public override Laminate Layup(bool underWeight) => underWeight
        ? (Board with { Outer = Slower(Board.Outer), Inner = Slower(Board.Inner) }).Laminate()
        : Board.Laminate();

    private Skin Slower(Skin skin) => skin with { Wood = skin.Wood with { EL = skin.Wood.EL.Times(1 / TappedOverBent) } };
}

/// <summary>A property that readings are to tell.</summary>
/// <param name="Name">In the maker's words.</param>
/// <param name="Symbol">Of the literature.</param>
/// <param name="Of">Its value in a piece, SI, positive.</param>
public sealed record SampleProperty(string Name, string Symbol, Func<Sample, double> Of);
