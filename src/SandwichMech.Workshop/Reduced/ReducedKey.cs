using System.Security.Cryptography;
using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Plates.Reduced;

namespace SandwichMech.Workshop.Reduced;

/// <summary>Names a reduced model by all that it depends on: shape, edge, range, what it is to give, and the version of the solver.</summary>
public static class ReducedKey
{
    /// <summary>The name.</summary>
    /// <param name="board">A board of the shape.</param>
    /// <param name="range">What the model is to answer for.</param>
    /// <param name="options">What it is to give.</param>
    /// <returns>SHA-256 in hexadecimal digits; the same for all boards that one model answers for.</returns>
    public static string Of(Board board, BoardRange range, ReducedOptions options)
    {
        using var memory = new MemoryStream();
        using (var writer = new BinaryWriter(memory))
        {
            writer.Write(ReducedPlate.Version);
            foreach (InputRange input in range.Inputs)
            {
                writer.Write(input.Input);
                writer.Write(input.Low);
                writer.Write(input.High);
            }

            Write(writer, options);
            // What the range lets vary stands at one place in it, whatever the board's own value.
            Board middle = range.At(board, [.. range.Inputs.Select(_ => 0.5)]);
            if (middle.Shape is { } shape) { Write(writer, middle, shape); }
        }

        return Convert.ToHexStringLower(SHA256.HashData(memory.ToArray()));
    }

    private static void Write(BinaryWriter writer, ReducedOptions options)
    {
        writer.Write(options.Modes);
        writer.Write(options.Accuracy);
        writer.Write(options.MostSolves);
        writer.Write(options.Designs);
        writer.Write(options.Tests);
        writer.Write(options.Seed);
        foreach (PlateAction action in options.Actions)
        {
            writer.Write((int)action.Push);
            Write(writer, action.Patch is { } patch ? [patch] : []);
            Point corner = action.Corner ?? new(double.NaN, double.NaN);
            writer.Write(corner.X);
            writer.Write(corner.Y);
        }
    }

    private static void Write(BinaryWriter writer, Board board, BoardShape shape)
    {
        writer.Write((int)shape.Edge);
        if (shape.Stretches.Count > 0)
        {
            foreach (Point p in ReducedPlate.Around(shape.Outline)) { writer.Write((int)shape.HoldAt(p, shape.Edge)); }
        }

        writer.Write(shape.DomeAlong);
        writer.Write(shape.DomeAcross);
        Write(writer, [shape.Outline, .. shape.Holes]);
        foreach (BoardRegion region in shape.Regions)
        {
            writer.Write(region.Name);
            writer.Write(region.Change.GetType().Name);
            Write(writer, region.Border);
        }

        // All that is not in the range, woods and angles and tapers, shows in the sections.
        foreach (BoardPart part in shape.Parts)
        {
            foreach (int region in part.Regions) { writer.Write(region); }
            foreach (PartSample sample in part.Samples)
            {
                foreach (double value in Numbers(BoardPlate.Section(board, new(part.Regions, sample.At)))) { writer.Write(value); }
            }
        }
    }

    private static void Write(BinaryWriter writer, IReadOnlyList<Curve> curves)
    {
        writer.Write(curves.Count);
        foreach (Curve curve in curves)
        {
            writer.Write(curve.Segments.Count);
            foreach (Point p in curve.Segments.SelectMany(s => new[] { s.P0, s.P1, s.P2, s.P3 }))
            {
                writer.Write(p.X);
                writer.Write(p.Y);
            }
        }
    }

    private static IEnumerable<double> Numbers(PlateSection s) =>
    [
        .. Numbers(s.A), .. Numbers(s.B), .. Numbers(s.D), s.S.Sx, s.S.Sy, s.S.Sxy, s.Mass, s.FirstMoment, s.RotaryInertia, .. Numbers(s.Inner), .. Numbers(s.Outer),
    ];

    private static double[] Numbers(Sym3 m) => [m.M11, m.M12, m.M22, m.M16, m.M26, m.M66];

    private static IEnumerable<double> Numbers(BarSection? b) => b is null
        ? [double.NaN]
        : [b.Glue, .. Numbers(b.A0), .. Numbers(b.A1), .. Numbers(b.A2), b.S.Sx, b.S.Sy, b.S.Sxy, b.M0, b.M1, b.M2];
}
