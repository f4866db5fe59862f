namespace SandwichMech.Core.Outlines;

/// <summary>A piece of a curve whose direction stays within a fifth of a right angle of its chord.</summary>
internal readonly record struct GentlePiece
{
    /// <summary>How far the direction of a piece may lie from its chord's, rad; two such pieces along one axis are graphs over it.</summary>
    internal const double MostSpread = 0.32;

    // Halvings of one segment; what is then still not gentle is a cusp of no size.
    private const int MostHalvings = 20;

    private GentlePiece(Bezier part, double t0, double t1)
    {
        (Part, T0, T1, Hull) = (part, t0, t1, part.Hull);
        Point chord = part.P3 - part.P0;
        Length = chord.Norm;
        // A piece that ends where it starts has no direction to stay near; cut, it has.
        Spread = Length == 0 && Hull.Size > 0
            ? Math.PI
            : Math.Max(Off(chord, part.P1 - part.P0), Math.Max(Off(chord, part.P2 - part.P1), Off(chord, part.P3 - part.P2)));
        Flatness = Length > 0
            ? Math.Max(Math.Abs(chord.Cross(part.P1 - part.P0)), Math.Abs(chord.Cross(part.P2 - part.P0))) / Length
            : Hull.Size;
    }

    internal Bezier Part { get; }

    /// <summary>Place of the start on the whole curve.</summary>
    internal double T0 { get; }

    /// <summary>Place of the end.</summary>
    internal double T1 { get; }

    internal Box Hull { get; }

    /// <summary>Length of the chord, m.</summary>
    internal double Length { get; }

    /// <summary>Largest angle between a leg of the control polygon, and so the direction anywhere, and the chord, rad.</summary>
    internal double Spread { get; }

    /// <summary>Largest distance of a control point from the chord, m.</summary>
    internal double Flatness { get; }

    internal static List<GentlePiece> Of(Curve curve)
    {
        var pieces = new List<GentlePiece>();
        for (int i = 0; i < curve.Segments.Count; i++) { Add(pieces, new(curve.Segments[i], i, i + 1), 0); }
        return pieces;
    }

    /// <summary>Place on the whole curve of a place on the piece, 0 to 1.</summary>
    internal double On(double t) => T0 + t * (T1 - T0);

    internal (GentlePiece First, GentlePiece Second) Halves()
    {
        double middle = (T0 + T1) / 2;
        return (new(Part.Part(0, 0.5), T0, middle), new(Part.Part(0.5, 1), middle, T1));
    }

    private static void Add(List<GentlePiece> pieces, GentlePiece piece, int halvings)
    {
        if (piece.Spread <= MostSpread)
        {
            pieces.Add(piece);
        }
        else if (halvings == MostHalvings)
        {
            pieces.Add(new(Bezier.Line(piece.Part.P0, piece.Part.P3), piece.T0, piece.T1));
        }
        else
        {
            (GentlePiece first, GentlePiece second) = piece.Halves();
            Add(pieces, first, halvings + 1);
            Add(pieces, second, halvings + 1);
        }
    }

    private static double Off(Point chord, Point leg) => leg.Norm > 0 ? Math.Abs(chord.AngleTo(leg)) : 0;
}
