using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Figures;

/// <summary>The pictures that go with the results of the use cases.</summary>
public static class BoardPictures
{
    /// <summary>Where the stiffness and the mass come from, ply by ply.</summary>
    /// <param name="r">The result.</param>
    /// <param name="units">Units that are shown.</param>
    /// <returns>The picture.</returns>
    public static Picture Estimate(EstimateResult r, UnitSystem units) => EstimatePicture.Of(r, units);

    /// <summary>What the spread of each main figure comes from, the largest source on top.</summary>
    /// <param name="r">The result.</param>
    /// <param name="units">Units that are shown.</param>
    /// <returns>The picture.</returns>
    public static Picture Sources(EstimateResult r, UnitSystem units) => SourcesPicture.Of(r, units);

    /// <summary>Stiffness against areal density: the board among solid tops.</summary>
    /// <param name="r">The result.</param>
    /// <param name="units">Units that are shown.</param>
    /// <returns>The picture.</returns>
    public static Picture Compare(CompareResult r, UnitSystem units) => ComparePicture.Of(r, units);

    /// <summary>Stiffness and mass over one or two thicknesses.</summary>
    /// <param name="r">The result.</param>
    /// <param name="units">Units that are shown.</param>
    /// <returns>The picture.</returns>
    public static Picture Sweep(SweepResult r, UnitSystem units) => SweepPicture.Of(r, units);

    /// <summary>What lightness costs in stiffness and brings in level, with the chosen board and the solid top.</summary>
    /// <param name="r">The result.</param>
    /// <param name="units">Units that are shown.</param>
    /// <returns>The picture; nothing where no board was chosen.</returns>
    public static Picture? Choose(ChooseResult r, UnitSystem units) => r.Best is null || r.Front.Count < 2 ? null : ChoosePicture.Of(r, r.Best, units);

    /// <summary>The board's mass through the stages of its build.</summary>
    /// <param name="r">The result.</param>
    /// <param name="units">Units that are shown.</param>
    /// <returns>The picture.</returns>
    public static Picture Plan(PlanResult r, UnitSystem units) => PlanPicture.Of(r, units);

    /// <summary>What the shop's bonds kept, as a control chart.</summary>
    /// <param name="r">The result.</param>
    /// <param name="units">Units that are shown; shares have none.</param>
    /// <returns>The picture; nothing with too few bonds for limits.</returns>
    public static Picture? Bonds(ShopBondsResult r, UnitSystem units) => r.Chart is { } chart ? BondsPicture.Of(r, chart) : null;

    /// <summary>The modes over the outline.</summary>
    /// <param name="answer">The result and the plate that it came from.</param>
    /// <param name="units">Units that are shown.</param>
    /// <returns>The picture.</returns>
    public static Picture Modes(ModesAnswer answer, UnitSystem units) => ModesPicture.Of(answer, units);

    /// <summary>Mobility at the bridge and level beside the solid top, with the bands of drawn boards.</summary>
    /// <param name="r">The result.</param>
    /// <param name="units">Units that are shown.</param>
    /// <returns>The picture.</returns>
    public static Picture Sound(SoundResult r, UnitSystem units) => SoundPicture.Of(r, units);

    /// <summary>All margins as bars, the nearest on top.</summary>
    /// <param name="r">The result.</param>
    /// <param name="units">Units that are shown.</param>
    /// <returns>The picture; nothing where no margin is known.</returns>
    public static Picture? Margins(MarginsResult r, UnitSystem units) => MarginsPicture.Of(r, units);

    /// <summary>The deflection under the strings, over the outline and along the centre line.</summary>
    /// <param name="answer">The result and its field.</param>
    /// <param name="units">Units that are shown.</param>
    /// <returns>The picture.</returns>
    public static Picture Deflect(DeflectAnswer answer, UnitSystem units) => DeflectPicture.Of(answer, units);

    /// <summary>An outline as read from a drawing, with its measures.</summary>
    /// <param name="answer">The result and the curves that it came from.</param>
    /// <param name="units">Units that are shown.</param>
    /// <returns>The picture.</returns>
    public static Picture Outline(OutlineAnswer answer, UnitSystem units) => OutlinePicture.Of(answer, units);

    /// <summary>A recording of taps: spectrum and decay.</summary>
    /// <param name="answer">The result and its curves.</param>
    /// <returns>The picture.</returns>
    public static Picture Listen(ListenAnswer answer) => ListenPicture.Of(answer);

    /// <summary>A piece's properties before and after its readings, and its tones against its modes.</summary>
    /// <param name="r">The result.</param>
    /// <param name="units">Units that are shown.</param>
    /// <returns>The picture; nothing while size or thickness is missing.</returns>
    public static Picture? Measure(MeasureResult r, UnitSystem units) => MeasurePicture.Of(r, units);
}
