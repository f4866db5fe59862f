namespace SandwichMech.Core.Numerics;

/// <summary>Standard normal numbers of one draw (Box &amp; Muller 1958): each draw has numbers of its own, whatever the order in which draws are worked off.</summary>
/// <param name="seed">The same seed gives the same numbers.</param>
/// <param name="draw">Number of the draw, from 0.</param>
internal sealed class DrawnNormals(int seed, int draw)
{
    // The first numbers of generators with neighbouring seeds resemble each other.
    private const int Passed = 16;

    private readonly Xorshift _chance = Warm(seed, draw);

    /// <summary>The next number.</summary>
    internal double Next() => Math.Sqrt(-2 * Math.Log(1 - _chance.Next())) * Math.Cos(2 * Math.PI * _chance.Next());

    private static Xorshift Warm(int seed, int draw)
    {
        var chance = new Xorshift(unchecked((ulong)(seed + 1) * 0x9E3779B97F4A7C15 + (ulong)(draw + 1) * 0xBF58476D1CE4E5B9) | 1);
        for (int i = 0; i < Passed; i++) { chance.Next(); }
        return chance;
    }
}
