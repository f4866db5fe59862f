using SandwichMech.Core.Layups;

namespace SandwichMech.Core.Choosing;

/// <summary>One way of choosing what comes in kinds: woods, core, ribbon, extent of let-in wood; and the thicknesses that are open with it.</summary>
/// <param name="Board">The board; its skins' thicknesses are replaced, their tolerances stay.</param>
/// <param name="Shape">Boards of one number have the same shape in the plane.</param>
/// <param name="Outer">Thicknesses of the outer skin, m, rising.</param>
/// <param name="Inner">Thicknesses of the inner skin, m, rising.</param>
public sealed record ChoiceVariant(Board Board, int Shape, IReadOnlyList<double> Outer, IReadOnlyList<double> Inner);

/// <summary>One of the boards that can be chosen.</summary>
/// <param name="Variant">Number of its variant.</param>
/// <param name="Outer">Number of the outer skin's thickness.</param>
/// <param name="Inner">Number of the inner skin's.</param>
public readonly record struct Candidate(int Variant, int Outer, int Inner);

/// <summary>All boards that can be chosen, from the lightest on.</summary>
internal sealed class ChoiceSpace
{
    private readonly IReadOnlyList<ChoiceVariant> _variants;
    private readonly int[] _first;
    private readonly AffineMass[] _masses;

    // A layup's mass goes with its thicknesses in a straight line, let-in wood and all.
    private sealed record AffineMass(double Base, double PerOuter, double PerInner);

    internal ChoiceSpace(IReadOnlyList<ChoiceVariant> variants)
    {
        _variants = variants;
        _first = new int[variants.Count + 1];
        for (int v = 0; v < variants.Count; v++) { _first[v + 1] = _first[v] + variants[v].Outer.Count * variants[v].Inner.Count; }
        _masses = [.. variants.Select(Mass)];
        double[] masses = new double[Count];
        Lightest = new int[Count];
        for (int i = 0; i < Count; i++) { (Lightest[i], masses[i]) = (i, MassAt(At(i))); }
        // Ties by number, so that the order is one whatever the sort.
        Array.Sort(Lightest, (a, b) => masses[a] != masses[b] ? masses[a].CompareTo(masses[b]) : a.CompareTo(b));
    }

    /// <summary>How many.</summary>
    internal int Count => _first[^1];

    /// <summary>Their numbers, lightest first.</summary>
    internal int[] Lightest { get; }

    /// <summary>A board's place.</summary>
    internal Candidate At(int number)
    {
        int v = Array.BinarySearch(_first, number);
        if (v < 0) { v = ~v - 1; }
        while (_first[v + 1] == number) { v++; }
        int inner = _variants[v].Inner.Count, within = number - _first[v];
        return new(v, within / inner, within % inner);
    }

    /// <summary>A place's number.</summary>
    internal int NumberOf(Candidate c) => _first[c.Variant] + c.Outer * _variants[c.Variant].Inner.Count + c.Inner;

    /// <summary>Its board.</summary>
    internal Board BoardAt(Candidate c) => With(_variants[c.Variant].Board, _variants[c.Variant].Outer[c.Outer], _variants[c.Variant].Inner[c.Inner]);

    /// <summary>Number of its shape.</summary>
    internal int ShapeOf(Candidate c) => _variants[c.Variant].Shape;

    /// <summary>kg at the medians.</summary>
    internal double MassAt(Candidate c)
    {
        AffineMass m = _masses[c.Variant];
        return m.Base + m.PerOuter * _variants[c.Variant].Outer[c.Outer] + m.PerInner * _variants[c.Variant].Inner[c.Inner];
    }

    private static AffineMass Mass(ChoiceVariant v)
    {
        const double some = 1e-3;
        double Of(double outer, double inner)
        {
            Board board = With(v.Board, outer, inner);
            return board.Mass(board.Laminate());
        }

        double one = Of(some, some), perOuter = (Of(2 * some, some) - one) / some, perInner = (Of(some, 2 * some) - one) / some;
        return new(one - some * (perOuter + perInner), perOuter, perInner);
    }

    private static Board With(Board board, double outer, double inner) => board with
    {
        Outer = board.Outer with { Thickness = board.Outer.Thickness.MovedTo(outer) },
        Inner = board.Inner with { Thickness = board.Inner.Thickness.MovedTo(inner) },
    };
}
