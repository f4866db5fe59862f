using SandwichMech.Core.Identification;

namespace SandwichMech.Core.Building;

/// <summary>Stages of a build, in their usual order; any may be skipped, and some change places.</summary>
public enum BuildStage
{
    /// <summary>Skins at bonding thickness, core and let-in wood cut: all weighed and measured.</summary>
    Skins,
    /// <summary>Outer skin, let-in wood and core bonded.</summary>
    FirstBond,
    /// <summary>Let-in wood taken down to the core.</summary>
    Levelled,
    /// <summary>Inner skin bonded.</summary>
    SecondBond,
    /// <summary>Sanded to thickness.</summary>
    Sanded,
    /// <summary>Edge, hole and channels cut.</summary>
    CutOut,
    /// <summary>Bridge and braces on.</summary>
    Braced,
    /// <summary>Glued to the rim.</summary>
    OnRim,
    /// <summary>Finish on.</summary>
    Lacquered,
    /// <summary>Under its strings.</summary>
    Strung,
}

/// <summary>What can be read at a stage.</summary>
public enum BuildQuantity
{
    /// <summary>Mass of the outer skin, kg.</summary>
    OuterMass,
    /// <summary>Its thickness, m.</summary>
    OuterThickness,
    /// <summary>Mass of the core sheet as cut, kg.</summary>
    CoreMass,
    /// <summary>Its height, m.</summary>
    CoreHeight,
    /// <summary>Mass of all wood let in, kg.</summary>
    LetInMass,
    /// <summary>Its height, m.</summary>
    LetInHeight,
    /// <summary>Mass of the inner skin, kg.</summary>
    InnerMass,
    /// <summary>Its thickness, m.</summary>
    InnerThickness,
    /// <summary>Adhesive mixed for the bond, kg.</summary>
    AdhesiveMixed,
    /// <summary>Mass of the board, or of what there is of it, kg.</summary>
    BoardMass,
    /// <summary>Its thickness, m.</summary>
    BoardThickness,
    /// <summary>Mass of the unglued witness piece before the bag, kg.</summary>
    WitnessBefore,
    /// <summary>Mass of the witness piece after it, kg.</summary>
    WitnessAfter,
    /// <summary>Relative humidity of the air, a share.</summary>
    Humidity,
    /// <summary>Temperature, K.</summary>
    Temperature,
    /// <summary>Tap tones of the board as it lies at the stage, on foam or on its rim, Hz, lowest first.</summary>
    Tones,
    /// <summary>Mass of the finish when dry, kg.</summary>
    FinishMass,
    /// <summary>Deflection along the grain over two supports, m; the test goes with it.</summary>
    BendingAlong,
    /// <summary>The same across.</summary>
    BendingAcross,
}

/// <summary>Something read at a stage of a build.</summary>
/// <param name="Stage">When.</param>
/// <param name="Quantity">What.</param>
/// <param name="Values">SI; one, or several places of a thickness, or all tones.</param>
/// <param name="Deviation">Standard deviation of the instrument, in the same unit.</param>
public sealed record BuildReading(BuildStage Stage, BuildQuantity Quantity, IReadOnlyList<double> Values, double Deviation)
{
    /// <summary>The whole test, of a bending.</summary>
    public BendingReading? Bending { get; init; }

    /// <summary>Mean of the values.</summary>
    public double Mean => Values.Average();
}

/// <summary>What a build began with.</summary>
/// <param name="Name">What the board is called.</param>
/// <param name="File">The board file's path as it was given.</param>
/// <param name="Text">The board file's text, whole: the wish.</param>
/// <param name="Sha256">Of the text, hexadecimal.</param>
/// <param name="Margin">Of the blank round the outline while it is bonded, m.</param>
/// <param name="Targets">What the board has to reach, as typed (see `choose`).</param>
public sealed record BuildStart(string Name, string File, string Text, string Sha256, double Margin, IReadOnlyList<string> Targets);

/// <summary>A figure as it was predicted while the board was built.</summary>
/// <param name="Stage">For which stage.</param>
/// <param name="Figure">"board mass", "kept in the first bond", "mode 1".</param>
/// <param name="Unit">SI.</param>
/// <param name="Value">Median.</param>
/// <param name="Low90">Low end of the 90 % interval.</param>
/// <param name="High90">High end.</param>
/// <param name="Version">Version of the tool that gave it.</param>
public sealed record GivenPrediction(BuildStage Stage, string Figure, string Unit, double Value, double Low90, double High90, string Version);
