using SandwichMech.Core.Layups;
using SandwichMech.Core.Materials;

namespace SandwichMech.Core.Identification;

/// <summary>A rectangular piece as the readings find it: what its layup is, for some values of all that is uncertain.</summary>
/// <param name="Length">Along the grain, m.</param>
/// <param name="Width">m.</param>
public abstract record Sample(double Length, double Width)
{
    /// <summary>How much stiffer it is against a tap than under a weight: see <see cref="Wood.TappedOverBent"/>.</summary>
    public double TappedOverBent { get; init; } = Wood.TappedOverBent;

    /// <summary>Its layup in the state in which it was read, as a tap finds it or as a weight does.</summary>
    /// <param name="underWeight">Whether a weight bends it.</param>
    public abstract Laminate Layup(bool underWeight);

    /// <summary>Mass, kg.</summary>
    public virtual double Mass => Layup(underWeight: true).ArealMass * Length * Width;

    /// <summary>Its modes, for taps on it.</summary>
    /// <param name="modes">How many.</param>
    /// <returns>What solves for them.</returns>
    public virtual TappedPlate Plate(int modes) => new TapPlate(this, modes);
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

/// <summary>A board on its outline: let-in wood, hole, bridge and braces, free or in its frame.</summary>
/// <param name="Board">The board; moduli of its woods as a tap finds them.</param>
/// <param name="RimShift">Shift of the logarithm of the rim's stiffness against turning, where it holds the edge.</param>
public sealed record BoardSample(Board Board, double RimShift = 0) : Sample(Board.Size.Length ?? 0, Board.Size.Width ?? 0)
{
    /// <inheritdoc/>
    public override double Mass => Board.Mass(Board.Laminate());

    /// <inheritdoc/>
    public override Laminate Layup(bool underWeight) => (underWeight ? Board.UnderWeight() : Board).Laminate();

    /// <inheritdoc/>
    public override TappedPlate Plate(int modes) => new TapBoard(this, modes);
}

/// <summary>A property that readings are to tell.</summary>
/// <param name="Name">In the maker's words.</param>
/// <param name="Symbol">Of the literature.</param>
/// <param name="Of">Its value in a piece, SI, positive.</param>
public sealed record SampleProperty(string Name, string Symbol, Func<Sample, double> Of)
{
    /// <summary>Standard deviation of its logarithm from what no reading of the sample can tell.</summary>
    public double Beside { get; init; }
}
