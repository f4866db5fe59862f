using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Layups;

/// <summary>A bar on a face at one place.</summary>
/// <param name="Ply">Its wood, turned to its run.</param>
/// <param name="Height">Mean height over its width, m.</param>
/// <param name="Square">Mean of the height's square, m².</param>
/// <param name="Cube">Mean of the height's cube, m³.</param>
public sealed record LocalBar(Ply Ply, double Height, double Square, double Cube)
{
    /// <summary>Mass per area of its foot, kg/m².</summary>
    public double ArealMass => Ply.Density * Height;
}

/// <summary>The board's layup at one place: what the regions there make of it.</summary>
/// <param name="Plies">Inner face first.</param>
/// <param name="BelowCore">Thickness of all that lies between the core's middle and the inner face, m; the core's middle is the plane that all places share.</param>
/// <param name="Inner">A bar on the inner face.</param>
/// <param name="Outer">A bar on the outer face.</param>
public sealed record LocalLayup(IReadOnlyList<Ply> Plies, double BelowCore, LocalBar? Inner, LocalBar? Outer)
{
    // Thinner than any ply, m: what rounding leaves of one that is cut through.
    private const double LeastPly = 1e-9;

    /// <summary>Mass per area with bars, kg/m².</summary>
    public double ArealMass => ArealMassWithoutBars + Added + (Inner?.ArealMass ?? 0) + (Outer?.ArealMass ?? 0);

    /// <summary>Mass per area of the board itself, without what it carries: bars and added mass, kg/m².</summary>
    public double ArealMassWithoutBars => Plies.Sum(p => p.ArealMass) - Added;

    /// <summary>Mass per area that is added, kg/m²; it sits in the outermost ply.</summary>
    public double Added { get; init; }

    /// <summary>The layup at a place.</summary>
    /// <param name="board">The board.</param>
    /// <param name="regions">Numbers of its regions that lie there.</param>
    /// <param name="at">The place, for what changes within a region.</param>
    /// <returns>The layup.</returns>
    public static LocalLayup Of(Board board, IReadOnlyList<int> regions, Point at)
    {
        Skin outer = board.Outer, inner = board.Inner;
        CoreSheet core = board.Core;
        LetInWood? letIn = null;
        FilledChannel? channel = null;
        double added = 0;
        LocalBar? innerBar = null, outerBar = null;
        foreach (int number in regions)
        {
            switch (board.Shape!.Regions[number].Change)
            {
                case LetInWood wood:
                    letIn = wood;
                    break;
                case TurnedCore turned:
                    core = core with { RibbonAngle = turned.RibbonAngle };
                    break;
                case SkinPart part:
                    Change(part.Face, s => new(part.Wood ?? s.Wood, part.Factor is { } f ? OfBoard(part.Face).Thickness.Times(f) : s.Thickness, part.GrainAngle ?? s.GrainAngle));
                    break;
                case MirroredGrain mirrored:
                    Change(mirrored.Face, s => s with { GrainAngle = -s.GrainAngle });
                    break;
                case GradedSkin graded:
                    Change(graded.Face, s => s with { Thickness = s.Thickness.Times(graded.Factor(at)) });
                    break;
                case FilledChannel cut:
                    channel = cut;
                    break;
                case AddedMass mass:
                    added += mass.ArealMass.Value;
                    break;
                case GluedBar bar:
                    (double height, double square, double cube) = bar.Moments(at);
                    var local = new LocalBar(Board.Of(new Skin(bar.Wood, bar.Height, bar.Angle), "bar"), height, square, cube);
                    if (bar.Face == Face.Inner) { innerBar = local; } else { outerBar = local; }
                    break;
            }
        }

        List<Ply> plies = [.. (board with { Outer = outer, Inner = inner, Core = core }).PliesWith(letIn)];
        double below = core.Height.Value / 2 + (board.IsHalfBuilt ? 0 : plies[0].Thickness + plies[1].Thickness);
        if (channel is not null) { Fill(plies, channel, at); }
        if (added > 0)
        {
            plies[^1] = plies[^1] with { AddedArealMass = plies[^1].AddedArealMass + added };
        }

        return new(plies, below, innerBar, outerBar) { Added = added };

        Skin OfBoard(Face face) => face == Face.Outer ? board.Outer : board.Inner;

        void Change(Face face, Func<Skin, Skin> change)
        {
            if (face == Face.Outer) { outer = change(outer); } else { inner = change(inner); }
        }
    }

    // From the outer face inward down to the depth; what fills it stands on what is left.
    private static void Fill(List<Ply> plies, FilledChannel channel, Point at)
    {
        double left = channel.Depth;
        while (left > LeastPly && plies.Count > 1)
        {
            Ply top = plies[^1];
            plies.RemoveAt(plies.Count - 1);
            if (top.Thickness > left + LeastPly) { plies.Add(top with { Thickness = top.Thickness - left }); }
            left -= top.Thickness;
        }

        if (channel.Wood is { } wood)
        {
            plies.Add(Board.Of(new Skin(wood, new(channel.Depth, 0), channel.Grain(at)), "filled channel"));
        }
        else
        {
            plies[^1] = plies[^1] with { AddedArealMass = plies[^1].AddedArealMass + channel.Density * channel.Depth };
        }
    }
}
