using System.Globalization;
using SandwichMech.Core.Outlines;

namespace SandwichMech.Core.Plates.Meshing;

/// <summary>What is wrong with a domain, before any meshing.</summary>
internal static class DomainCheck
{
    // Smallest area that is an outline or a hole, in parts of the square of its size.
    private const double LeastArea = 1e-6;

    // Smallest hole, in parts of the outline's size; less is a slip of the drawing.
    private const double LeastHole = 1e-4;

    /// <summary>The outline's and the holes' own faults.</summary>
    internal static List<DomainProblem> OfEach(MeshDomain domain)
    {
        var problems = new List<DomainProblem>();
        for (int i = 0; i <= domain.Holes.Count; i++)
        {
            Curve curve = domain.Curves[i];
            string name = Capital(domain.NameOf(i));
            Point start = curve.At(0);
            if (!curve.IsClosed)
            {
                Point end = curve.At(curve.Segments.Count);
                problems.Add(new(DomainFault.Open, i, start, $"{name} is open: it ends {Mm((end - start).Norm)} from its start at {Place(start)}. Close it."));
            }
            else if (Math.Abs(curve.SignedArea) < LeastArea * curve.Size * curve.Size || (i > 0 && curve.Size < LeastHole * domain.Outline.Size))
            {
                problems.Add(new(DomainFault.Tiny, i, start, $"{name} encloses next to nothing (near {Place(start)}). Draw it as one line around the area, in the right unit."));
            }
            else if (Crossings.Within(curve).Select(m => (Meeting?)m).FirstOrDefault() is { } m)
            {
                problems.Add(new(DomainFault.SelfCrossing, i, m.At, $"{name} crosses or touches itself at {Place(m.At)}. Draw it so that it goes round once."));
            }
        }

        return problems;
    }

    /// <summary>Holes against the outline and each other; borders that miss the board.</summary>
    internal static List<DomainProblem> OfAll(CurveNetwork network)
    {
        MeshDomain domain = network.Domain;
        var problems = new List<DomainProblem>();
        int holes = domain.Holes.Count;
        foreach (var pair in network.Meetings.Where(m => m.Second <= holes && m.First != m.Second).GroupBy(m => (m.First, m.Second)))
        {
            (int first, int second) = pair.Key;
            Point at = pair.First().Meeting.At;
            string hole = Capital(domain.NameOf(second)), other = domain.NameOf(first);
            if (first == 0 && pair.Count() >= 4)
            {
                problems.Add(new(DomainFault.CutInTwo, second, at, $"{hole} cuts the board in two: it crosses the outline {pair.Count()} times, first at {Place(at)}. Make it smaller or move it inside."));
            }
            else
            {
                string advice = first == 0 ? "A hole must lie inside; draw a notch as part of the outline." : "Move them apart or draw them as one hole.";
                problems.Add(new(DomainFault.HoleAtEdge, second, at, $"{hole} reaches {other} at {Place(at)}. {advice}"));
            }
        }

        for (int i = 1; i <= holes; i++)
        {
            Point at = domain.Curves[i].At(0);
            if (network.Meetings.Any(m => m.Second <= holes && (m.First == i || m.Second == i))) { continue; }
            if (!domain.Outline.Contains(at))
            {
                problems.Add(new(DomainFault.HoleOutside, i, at, $"{Capital(domain.NameOf(i))} lies outside the outline, at {Place(at)}. Move it onto the board or leave it out."));
            }
            else if (Enumerable.Range(1, holes).Any(k => k != i && domain.Curves[k].Contains(at)))
            {
                problems.Add(new(DomainFault.HoleAtEdge, i, at, $"{Capital(domain.NameOf(i))} lies in another hole, at {Place(at)}. Leave it out."));
            }
        }

        for (int i = holes + 1; i < network.Curves.Count; i++)
        {
            bool runsAlong = network.Meetings.Any(m => (m.First == i || m.Second == i) && m.Meeting.IsShared);
            if (runsAlong || network.Arcs.Any(a => a.Curve == i)) { continue; }
            Point at = network.Curves[i].At(0);
            problems.Add(new(DomainFault.BorderOutside, i, at, $"{Capital(domain.NameOf(i))} lies wholly outside the board, at {Place(at)}. Move it onto the board or leave it out."));
        }

        return problems;
    }

    internal static string Place(Point p) => string.Create(CultureInfo.InvariantCulture, $"x = {p.X * 1e3:0.0} mm, y = {p.Y * 1e3:0.0} mm");

    private static string Mm(double length) => string.Create(CultureInfo.InvariantCulture, $"{length * 1e3:0.###} mm");

    private static string Capital(string name) => char.ToUpperInvariant(name[0]) + name[1..];
}
