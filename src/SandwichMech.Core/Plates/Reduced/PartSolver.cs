using System.Collections.Concurrent;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>Solves the parts of a reduced model and puts their modes in one order. Safe to call from several threads.</summary>
internal sealed class PartSolver
{
    private readonly IReadOnlyList<ReducedPart> _parts;
    private readonly int _modes;
    private readonly ConcurrentBag<ReducedSolver>[] _usual, _all;

    internal PartSolver(IReadOnlyList<ReducedPart> parts, int modes)
    {
        (_parts, _modes) = (parts, modes);
        (_usual, _all) = ([.. parts.Select(_ => new ConcurrentBag<ReducedSolver>())], [.. parts.Select(_ => new ConcurrentBag<ReducedSolver>())]);
    }

    /// <summary>Solves.</summary>
    /// <param name="coefficients">Of each matrix.</param>
    /// <param name="airDensity">kg/m³.</param>
    /// <returns>The modes; nothing where the plate is not possible.</returns>
    internal PartModes? Solve((double[] Stiffness, double[] Inertia) coefficients, double airDensity)
    {
        var solvers = new ReducedSolver[_parts.Count];
        for (int p = 0; p < solvers.Length; p++)
        {
            solvers[p] = Taken(_usual[p], p, Usual(p));
            if (!Solve(solvers[p], p, coefficients, airDensity)) { return null; }
        }

        (int Part, int Mode)[] order = Order(solvers);
        // Where the last mode of a part is among the wanted ones, further ones may be too.
        for (int p = 0; p < solvers.Length; p++)
        {
            if (Usual(p) == All(p) || (order.Length >= _modes && !order.Take(_modes).Contains((p, Usual(p) - 1)))) { continue; }
            _usual[p].Add(solvers[p]);
            solvers[p] = Taken(_all[p], p, All(p));
            if (!Solve(solvers[p], p, coefficients, airDensity)) { return null; }
        }

        return new(this, solvers, [.. Order(solvers).Take(_modes)]);
    }

    /// <summary>Takes workspaces back.</summary>
    internal void Return(ReducedSolver[] solvers)
    {
        for (int p = 0; p < solvers.Length; p++) { (solvers[p].Values.Length == Usual(p) ? _usual : _all)[p].Add(solvers[p]); }
    }

    private int Usual(int part) => Math.Min(_parts[part].Modes, All(part));

    private int All(int part) => Math.Min(_modes, _parts[part].Flexible);

    private bool Solve(ReducedSolver solver, int p, (double[] Stiffness, double[] Inertia) coefficients, double airDensity) =>
        solver.Solve(coefficients, _parts[p].StiffnessMatrices, _parts[p].InertiaMatrices, airDensity, _parts[p].Air);

    private ReducedSolver Taken(ConcurrentBag<ReducedSolver> from, int p, int modes) =>
        from.TryTake(out ReducedSolver? solver) ? solver : new(_parts[p].Rigid, _parts[p].Flexible, modes);

    private static (int Part, int Mode)[] Order(ReducedSolver[] solvers) =>
        [.. solvers.SelectMany((s, p) => s.Values.Select((v, i) => (Value: v, At: (p, i)))).OrderBy(x => x.Value).Select(x => x.At)];
}

/// <summary>Modes of all parts in the order of their frequencies. Its workspaces go back when it is disposed of.</summary>
/// <param name="From">Where from.</param>
/// <param name="Solvers">The parts, solved.</param>
/// <param name="Order">Part and number of each mode, lowest first.</param>
internal sealed record PartModes(PartSolver From, ReducedSolver[] Solvers, (int Part, int Mode)[] Order) : IDisposable
{
    /// <summary>ω², rising.</summary>
    internal double[] Values => [.. Order.Select(o => Solvers[o.Part].Values[o.Mode])];

    /// <summary>What the last vectors of each part bring to each frequency, relative, about (see <see cref="ReducedSolver.TailShares"/>).</summary>
    internal double[] TailShares(IReadOnlyList<ReducedPart> parts)
    {
        double[][] shares = [.. Solvers.Select((s, p) => s.TailShares(parts[p].Tail))];
        return [.. Order.Select(o => shares[o.Part][o.Mode])];
    }

    /// <summary>How many of the modes are of a part.</summary>
    internal int CountOf(int part) => Order.Count(o => o.Part == part);

    /// <inheritdoc/>
    public void Dispose() => From.Return(Solvers);
}
