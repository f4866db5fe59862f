using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Choosing;

/// <summary>Chance that a board meets all its targets at once: its figures are jointly normal in their scales, since they share inputs.</summary>
/// <remarks>One figure: the normal distribution itself. More: drawn, always with the same numbers for one seed, so that boards are compared without noise between them.</remarks>
internal sealed class JointChance
{
    private const int Draws = 4096;

    private readonly IReadOnlyList<ChoiceTarget> _targets;
    private readonly double[] _normals;

    private JointChance(IReadOnlyList<ChoiceTarget> targets, double[] normals) => (_targets, _normals) = (targets, normals);

    internal JointChance(IReadOnlyList<ChoiceTarget> targets, int seed)
    {
        _targets = targets;
        var chance = new Xorshift(unchecked((ulong)(seed + 1) * 0x9E3779B97F4A7C15) | 1);
        for (int i = 0; i < 16; i++) { chance.Next(); }
        _normals = new double[Draws * targets.Count];
        // Each draw and its opposite.
        for (int i = 0; i < _normals.Length / 2; i++)
        {
            _normals[i] = Normal.InvCDF(0, 1, chance.Next());
            _normals[_normals.Length / 2 + i] = -_normals[i];
        }
    }

    /// <summary>The same draws for one target changed.</summary>
    internal JointChance With(int target, ChoiceTarget changed) => new([.. _targets.Select((t, i) => i == target ? changed : t)], _normals);

    /// <summary>Chance of one target alone; of an aim, to fall within its tolerance.</summary>
    internal static double Alone(ChoiceTarget target, ChoiceValue value)
    {
        double spread = value.Spread;
        (double low, double high) = target.Aim is { } aim ? (target.Scaled(aim) - target.Nearness, target.Scaled(aim) + target.Nearness) : (target.Low, target.High);
        return spread > 0
            ? Normal.CDF(value.Value, spread, high) - Normal.CDF(value.Value, spread, low)
            : low <= value.Value && value.Value <= high ? 1 : 0;
    }

    /// <summary>Chance of all; 0 where an aim is missed at the median.</summary>
    /// <param name="values">One a target.</param>
    /// <param name="enough">Below this the smallest single chance is given in its place: all together cannot be likelier.</param>
    internal double Of(IReadOnlyList<ChoiceValue> values, double enough = 0)
    {
        var bounded = new List<int>();
        double smallest = 1;
        for (int t = 0; t < _targets.Count; t++)
        {
            if (_targets[t].Aim is not null)
            {
                if (_targets[t].Off(values[t].Value) > 0) { return 0; }
                continue;
            }

            bounded.Add(t);
            smallest = Math.Min(smallest, Alone(_targets[t], values[t]));
        }

        return bounded.Count <= 1 || smallest < enough ? smallest : Drawn(values, bounded);
    }

    private double Drawn(IReadOnlyList<ChoiceValue> values, List<int> of)
    {
        int n = of.Count;
        var covariance = Matrix<double>.Build.Dense(n, n, (i, j) => Covariance(values[of[i]], values[of[j]]) + (i == j ? values[of[i]].Own * values[of[i]].Own : 0));
        // Two figures that say the same leave nothing for the second: a trifle keeps the factor real.
        double trifle = 1e-12 * (covariance.Trace() / n + 1e-6);
        double[,] factor = (covariance + trifle * Matrix<double>.Build.DenseIdentity(n)).Cholesky().Factor.ToArray();
        double[] value = [.. of.Select(t => values[t].Value)], low = [.. of.Select(t => _targets[t].Low)], high = [.. of.Select(t => _targets[t].High)];
        int met = 0;
        for (int draw = 0; draw < Draws; draw++)
        {
            bool all = true;
            for (int i = 0; i < n && all; i++)
            {
                double x = value[i];
                for (int j = 0; j <= i; j++) { x += factor[i, j] * _normals[draw * _targets.Count + j]; }
                all = low[i] <= x && x <= high[i];
            }

            met += all ? 1 : 0;
        }

        return (double)met / Draws;
    }

    // One may have an input more than the other: a rim.
    private static double Covariance(ChoiceValue a, ChoiceValue b)
    {
        double sum = 0;
        for (int i = 0; i < Math.Min(a.Effects.Length, b.Effects.Length); i++) { sum += a.Effects[i] * b.Effects[i]; }
        return sum;
    }
}
