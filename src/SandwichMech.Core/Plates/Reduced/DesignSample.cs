using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>Designs that stand for a range: half spread evenly inside, half at corners of the box, where a reduced model is worst.</summary>
/// <remarks>Inside: a Latin hypercube (McKay, Beckman &amp; Conover 1979, Technometrics 21, 239), each input once in each of equal steps.</remarks>
internal static class DesignSample
{
    /// <summary>Positions of 0 to 1 for each design's inputs.</summary>
    /// <param name="inputs">Number of inputs.</param>
    /// <param name="count">Designs.</param>
    /// <param name="seed">Not zero.</param>
    internal static double[][] Of(int inputs, int count, ulong seed)
    {
        Xorshift random = Random(seed);
        double[][] inside = Inside(inputs, (count + 1) / 2, random);
        double[][] corners = [.. Enumerable.Range(0, count / 2).Select(_ => Corner(inputs, random))];
        return [.. Enumerable.Range(0, count).Select(i => i % 2 == 0 ? inside[i / 2] : corners[i / 2])];
    }

    /// <summary>A generator past its first numbers, which after a small seed are small too.</summary>
    internal static Xorshift Random(ulong seed)
    {
        var random = new Xorshift(seed);
        for (int i = 0; i < 16; i++) { random.Next(); }
        return random;
    }

    /// <summary>Evenly spread inside.</summary>
    internal static double[][] Inside(int inputs, int count, Xorshift random)
    {
        double[][] designs = [.. Enumerable.Range(0, count).Select(_ => new double[inputs])];
        for (int k = 0; k < inputs; k++)
        {
            int[] order = [.. Enumerable.Range(0, count)];
            for (int i = count - 1; i > 0; i--)
            {
                int j = (int)(random.Next() * (i + 1));
                (order[i], order[j]) = (order[j], order[i]);
            }

            for (int i = 0; i < count; i++) { designs[i][k] = (order[i] + random.Next()) / count; }
        }

        return designs;
    }

    private static double[] Corner(int inputs, Xorshift random)
    {
        double[] corner = new double[inputs];
        for (int k = 0; k < inputs; k++) { corner[k] = random.Next() < 0.5 ? 0 : 1; }
        return corner;
    }
}
