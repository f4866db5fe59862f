namespace SandwichMech.Core.Numerics;

/// <summary>Normal numbers of one board that is drawn: each board has its own, whatever the order in which they are looked at.</summary>
internal sealed class NormalNumbers
{
    private readonly Xorshift _chance;

    /// <summary>Of one board.</summary>
    /// <param name="seed">The same seed draws the same boards.</param>
    /// <param name="number">Of the board, from 0.</param>
    internal NormalNumbers(int seed, int number)
    {
        _chance = new(unchecked((ulong)(seed + 1) * 0x9E3779B97F4A7C15 + (ulong)(number + 1) * 0xBF58476D1CE4E5B9) | 1);
        for (int i = 0; i < 16; i++) { _chance.Next(); }
    }

    /// <summary>The next one, mean 0 and standard deviation 1 (Box &amp; Muller 1958).</summary>
    internal double Next() => Math.Sqrt(-2 * Math.Log(1 - _chance.Next())) * Math.Cos(2 * Math.PI * _chance.Next());
}
