namespace SandwichMech.Core.Numerics;

/// <summary>A small generator with a seed (Marsaglia 2003, xorshift64), the same on every machine.</summary>
/// <param name="seed">Not zero.</param>
internal sealed class Xorshift(ulong seed)
{
    private ulong _state = seed;

    /// <summary>Next number, 0 to below 1.</summary>
    internal double Next()
    {
        _state ^= _state << 13;
        _state ^= _state >> 7;
        _state ^= _state << 17;
        return (_state >> 11) * (1.0 / (1UL << 53));
    }
}
