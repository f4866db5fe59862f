using SandwichMech.Core.Layups;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Predictions;

namespace SandwichMech.Core.Acoustics;

/// <summary>A mode as it sounds.</summary>
/// <param name="Frequency">Hz, in air.</param>
/// <param name="AtBridge">Its movement at the bridge at unit modal mass, 1/√kg.</param>
/// <param name="Volume">The volume that it moves at unit modal mass, m²/√kg: effective area over the root of the effective mass, wherever both are taken.</param>
/// <param name="Loss">Its loss factor by parts.</param>
public sealed record SoundingMode(double Frequency, double AtBridge, double Volume, ModalLoss Loss);

/// <summary>What a board that is held all round does at its bridge, and the air that it moves.</summary>
/// <remarks>
/// The modes are those in air in a baffle, both faces open; losses as <see cref="ModalLoss"/> has them. No strings, no box: <see cref="BoxAir.With"/> couples the first mode to one.
/// </remarks>
/// <param name="Area">Of the plate, m².</param>
/// <param name="Modes">Lowest first.</param>
/// <param name="Mobility">Velocity per force at the bridge.</param>
/// <param name="Volume">Volume velocity per force at the bridge; below <see cref="Radiation.MonopoleLimit"/> it alone says how loud the board is.</param>
public sealed record BoardAcoustics(double Area, IReadOnlyList<SoundingMode> Modes, ModalTransfer Mobility, ModalTransfer Volume)
{
    /// <summary>The modes with their products by section, for what a change of the sections does to them.</summary>
    internal IReadOnlyList<PlateMode> Products { get; init; } = [];

    /// <summary>Of a board on its frame.</summary>
    /// <param name="board">The board that the frame was made for; its edge is held.</param>
    /// <param name="frame">Its frame.</param>
    /// <param name="bridge">Where the bridge pushes.</param>
    /// <returns>Its acoustics, from all modes that the frame solved for.</returns>
    public static BoardAcoustics Of(Board board, OutlineFrame frame, PlateAction bridge) =>
        Of(frame.Own.Plate, [.. frame.Places.Select(p => LocalLayup.Of(board, p.Regions, p.At))], bridge);

    /// <summary>Of a solid top in the same frame, with the board's bars.</summary>
    /// <param name="board">The board.</param>
    /// <param name="thickness">Of the solid top, m.</param>
    /// <param name="frame">The board's frame.</param>
    /// <param name="bridge">Where the bridge pushes.</param>
    /// <returns>Its acoustics.</returns>
    public static BoardAcoustics OfSolid(Board board, double thickness, OutlineFrame frame, PlateAction bridge)
    {
        IReadOnlyList<Ply> top = Board.SolidPlate(board.Solid.Wood, thickness).Plies;
        return Of(frame.OfSolid(board, thickness).Plate, [.. frame.Places.Select(p => LocalLayup.Of(board, p.Regions, p.At) with { Plies = top, BelowCore = thickness / 2 })], bridge);
    }

    /// <summary>Of any plate that is held all round.</summary>
    /// <param name="plate">Its modes in vacuo.</param>
    /// <param name="layups">The layup of each of its sections.</param>
    /// <param name="bridge">Where the bridge pushes.</param>
    /// <returns>Its acoustics.</returns>
    public static BoardAcoustics Of(PlateSolution plate, IReadOnlyList<LocalLayup> layups, PlateAction bridge)
    {
        var everywhere = new PlateAction(PlatePush.Deflect, null);
        double area = plate.Area;
        IReadOnlyList<AirMode> air = plate.InAir(true, AmbientAir.Density, plate.At(bridge).Count).Modes;
        IReadOnlyList<PlateMode> inAir = plate.InAir(air);
        var sound = new Radiation(plate.Field);
        SoundingMode[] modes = [.. air.Select((m, i) => new SoundingMode(m.Frequency, plate.At(bridge, m), area * plate.At(everywhere, m),
            ModalLoss.OfMaterials(inAir[i], layups).With(sound.Loss(m.Shape, m.Frequency), ModalLoss.HeldEdge)))];
        return Of(area, modes, plate.Residual(bridge), area * plate.Residual(bridge, everywhere)) with { Products = inAir };
    }

    /// <summary>Of modes as they sound.</summary>
    /// <param name="area">m².</param>
    /// <param name="modes">The modes.</param>
    /// <param name="atBridge">Static residual of the movement at the bridge, m/N.</param>
    /// <param name="volume">Static residual of the volume, m³/N.</param>
    /// <returns>Its acoustics.</returns>
    internal static BoardAcoustics Of(double area, IReadOnlyList<SoundingMode> modes, double atBridge, double volume)
    {
        double[] frequencies = [.. modes.Select(m => m.Frequency)], moves = [.. modes.Select(m => m.AtBridge)], losses = [.. modes.Select(m => m.Loss.Total.Value)];
        return new(area, modes, new(frequencies, moves, moves, atBridge, losses), new(frequencies, moves, [.. modes.Select(m => m.Volume)], volume, losses));
    }
}
