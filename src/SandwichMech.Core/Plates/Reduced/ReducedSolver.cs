using SandwichMech.Core.Numerics;
using Lanes = System.Numerics.Vector<double>;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>Adds the small matrices up and solves; one at a time, its workspace is used again.</summary>
/// <remarks>
/// Rigid motions have no stiffness in any design, so each flexible mode is M-orthogonal to them: with the mass's part between them taken out,
/// M_ff − M_fr M_rr⁻¹ M_rf, what is left is a problem of the flexible vectors alone, its stiffness positive definite, exactly.
/// </remarks>
internal sealed class ReducedSolver
{
    // Modes beyond those wanted that are iterated along with them, and iterations; leading vectors that are solved alone first.
    private const int Guard = 4, Iterations = 2, Lead = 64;

    private readonly int _rigid, _flexible, _modes, _block, _lead;
    private readonly double[] _stiffness, _inertia, _mass, _rigidRows, _fullMass, _x, _image, _turned, _smallK, _smallM, _values, _small, _smallTurn;
    private readonly LowestPairs _leading, _ritz;
    private readonly DenseCholesky _factor;

    internal ReducedSolver(int rigid, int flexible, int modes)
    {
        (_rigid, _flexible, _modes) = (rigid, flexible, modes);
        int all = rigid + flexible;
        (_stiffness, _mass) = (new double[Packed(flexible)], new double[Packed(flexible)]);
        (_inertia, _rigidRows) = (new double[Packed(all)], new double[rigid * flexible]);
        _lead = Math.Min(Math.Max(Lead, 2 * modes), flexible);
        // A whole number of lanes.
        _block = Math.Min((modes + Guard + 7) / 8 * 8, _lead);
        _leading = new(_lead);
        _ritz = new(_block);
        _factor = new(flexible);
        _fullMass = new double[flexible * flexible];
        (_x, _image, _turned) = (new double[flexible * _block], new double[flexible * _block], new double[flexible * _block]);
        (_smallK, _smallM) = (new double[Packed(_block)], new double[Packed(_block)]);
        (_values, _small) = (new double[_block], new double[_block * _lead]);
        _smallTurn = new double[_block * _block];
        (Values, Vectors) = (new double[modes], new double[modes * flexible]);
    }

    /// <summary>ω² of the modes, rising.</summary>
    internal double[] Values { get; }
    /// <summary>Their flexible parts, one after the other; modal mass 1.</summary>
    internal double[] Vectors { get; }

    /// <summary>Entries of a packed triangle.</summary>
    internal static int Packed(int n) => n * (n + 1) / 2;

    /// <summary>Solves.</summary>
    /// <param name="coefficients">Of each matrix.</param>
    /// <param name="stiffness">Matrices between the flexible vectors.</param>
    /// <param name="inertia">Matrices between all vectors.</param>
    /// <param name="airDensity">kg/m³.</param>
    /// <param name="air">The air's matrix between all vectors.</param>
    /// <returns>Whether the plate is possible: stiffness and mass positive.</returns>
    internal bool Solve(
        (double[] Stiffness, double[] Inertia) coefficients, IReadOnlyList<double[]> stiffness, IReadOnlyList<double[]> inertia, double airDensity, double[] air)
    {
        Sum(coefficients.Stiffness, stiffness, _stiffness);
        Sum(coefficients.Inertia, inertia, _inertia);
        if (airDensity > 0) { DenseRows.Add(_inertia, airDensity, air); }
        return TakeOutRigid() && _leading.Solve(_stiffness, _mass, _values, _small) && (_lead == _flexible ? Take() : Iterate());
    }

    /// <summary>The rigid motions in a mode: −M_rr⁻¹ M_rf y.</summary>
    internal double[] RigidParts(int mode)
    {
        double[] parts = new double[_rigid];
        for (int r = _rigid - 1; r >= 0; r--)
        {
            // Rows hold L⁻¹ M_rf: back through Lᵀ.
            double sum = -DenseRows.Dot(_rigidRows.AsSpan(r * _flexible, _flexible), Vectors.AsSpan(mode * _flexible, _flexible));
            for (int s = r + 1; s < _rigid; s++) { sum -= _inertia[Packed(s) + r] * parts[s]; }
            parts[r] = sum / _inertia[Packed(r) + r];
        }

        return parts;
    }

    /// <summary>What the last vectors of the basis bring to each frequency, relative, about: half their share of the mode's energy, evened out by the mean over all modes.</summary>
    internal double[] TailShares(int tail)
    {
        double[] shares = [.. Enumerable.Range(0, _modes).Select(mode => TailEnergy(mode, tail) / (2 * Values[mode]))];
        double mean = shares.Average();
        return Array.ConvertAll(shares, s => (s + mean) / 2);
    }

    private double TailEnergy(int mode, int tail)
    {
        ReadOnlySpan<double> y = Vectors.AsSpan(mode * _flexible, _flexible);
        int from = _flexible - tail;
        double energy = 0;
        for (int i = from; i < _flexible; i++)
        {
            int row = Packed(i);
            energy += y[i] * (2 * DenseRows.Dot(_stiffness.AsSpan(row + from, i - from), y[from..i]) + _stiffness[row + i] * y[i]);
        }

        return energy;
    }

    // All vectors were solved for at once.
    private bool Take()
    {
        _values.AsSpan(0, _modes).CopyTo(Values);
        _small.AsSpan(0, _modes * _flexible).CopyTo(Vectors);
        return true;
    }

    // The leading vectors hold most of each mode; what the others add is stiff, so that a step x ← K⁻¹Mx (simultaneous iteration: Bathe & Wilson 1972,
    // Int. J. Num. Meth. Engng 6, 213) brings it at once: what is wrong in x falls by ω² over that of the vectors it lies in.
    private bool Iterate()
    {
        if (!_factor.Factor(_stiffness)) { return false; }
        int n = _flexible, p = _block;
        for (int i = 0, at = 0; i < n; i++)
        {
            for (int j = 0; j <= i; j++, at++) { _fullMass[i * n + j] = _fullMass[j * n + i] = _mass[at]; }
        }

        Array.Clear(_x);
        for (int c = 0; c < p; c++)
        {
            for (int i = 0; i < _lead; i++) { _x[i * p + c] = _small[c * _lead + i]; }
        }

        MassTimes(_lead);
        for (int step = 0; step < Iterations; step++)
        {
            // K y = M x, so that yᵀKy = yᵀ(Mx).
            _image.CopyTo(_x, 0);
            _factor.Forward(_x, p);
            _factor.Backward(_x, p);
            Gram(_smallK);
            MassTimes(n);
            Gram(_smallM);
            if (!_ritz.Solve(_smallK, _smallM, _values, _small)) { return false; }
            Turn(_x);
            Turn(_image);
        }

        _values.AsSpan(0, _modes).CopyTo(Values);
        for (int c = 0; c < _modes; c++)
        {
            for (int i = 0; i < n; i++) { Vectors[c * n + i] = _x[i * p + c]; }
        }

        return true;
    }

    // _image = −(−M) x, of the first rows of x.
    private void MassTimes(int rows)
    {
        int n = _flexible, p = _block;
        Array.Clear(_image);
        for (int i = 0; i < n; i++)
        {
            DenseRows.Subtract(_image, i * p, p, _fullMass.AsSpan(i * n, rows), _x);
            foreach (ref double v in _image.AsSpan(i * p, p)) { v = -v; }
        }
    }

    // Lower triangle of xᵀ image.
    private void Gram(double[] packed)
    {
        int p = _block;
        Array.Clear(_turned, 0, p * p);
        for (int row = 0; row < _flexible; row++)
        {
            ReadOnlySpan<double> image = _image.AsSpan(row * p, p);
            for (int i = 0; i < p; i++) { DenseRows.Add(_turned.AsSpan(i * p, p), _x[row * p + i], image); }
        }

        for (int i = 0, at = 0; i < p; i++)
        {
            for (int j = 0; j <= i; j++, at++) { packed[at] = (_turned[i * p + j] + _turned[j * p + i]) / 2; }
        }
    }

    // a ← a S, S the small problem's vectors.
    private void Turn(double[] a)
    {
        int p = _block;
        Array.Clear(_turned);
        for (int i = 0; i < p; i++)
        {
            for (int j = 0; j < p; j++) { _smallTurn[i * p + j] = _small[j * p + i]; }
        }

        for (int row = 0; row < _flexible; row++)
        {
            for (int i = 0; i < p; i++) { DenseRows.Add(_turned.AsSpan(row * p, p), a[row * p + i], _smallTurn.AsSpan(i * p, p)); }
        }

        _turned.CopyTo(a, 0);
    }

    private bool TakeOutRigid()
    {
        for (int r = 0; r < _rigid; r++)
        {
            for (int s = 0; s <= r; s++)
            {
                double value = _inertia[Packed(r) + s];
                for (int k = 0; k < s; k++) { value -= _inertia[Packed(r) + k] * _inertia[Packed(s) + k]; }
                if (s == r && !(value > 0)) { return false; }
                _inertia[Packed(r) + s] = s == r ? Math.Sqrt(value) : value / _inertia[Packed(s) + s];
            }
        }

        for (int r = 0; r < _rigid; r++)
        {
            Span<double> row = _rigidRows.AsSpan(r * _flexible, _flexible);
            for (int i = 0; i < _flexible; i++) { row[i] = _inertia[Packed(_rigid + i) + r]; }
            for (int k = 0; k < r; k++) { DenseRows.Add(row, -_inertia[Packed(r) + k], _rigidRows.AsSpan(k * _flexible, _flexible)); }
            double scale = 1 / _inertia[Packed(r) + r];
            for (int i = 0; i < _flexible; i++) { row[i] *= scale; }
        }

        for (int i = 0; i < _flexible; i++)
        {
            Span<double> row = _mass.AsSpan(Packed(i), i + 1);
            _inertia.AsSpan(Packed(_rigid + i) + _rigid, i + 1).CopyTo(row);
            for (int r = 0; r < _rigid; r++) { DenseRows.Add(row, -_rigidRows[r * _flexible + i], _rigidRows.AsSpan(r * _flexible, i + 1)); }
        }

        return true;
    }

    // Four matrices at a time: the sum is read and written a quarter as often.
    private static void Sum(double[] coefficients, IReadOnlyList<double[]> matrices, double[] sum)
    {
        Array.Clear(sum);
        int k = 0, w = Lanes.Count;
        for (; k + 3 < matrices.Count; k += 4)
        {
            double[] a = matrices[k], b = matrices[k + 1], c = matrices[k + 2], d = matrices[k + 3];
            Lanes va = new(coefficients[k]), vb = new(coefficients[k + 1]), vc = new(coefficients[k + 2]), vd = new(coefficients[k + 3]);
            int i = 0;
            for (; i <= sum.Length - w; i += w)
            {
                (new Lanes(sum, i) + va * new Lanes(a, i) + vb * new Lanes(b, i) + vc * new Lanes(c, i) + vd * new Lanes(d, i)).CopyTo(sum, i);
            }

            for (; i < sum.Length; i++) { sum[i] += coefficients[k] * a[i] + coefficients[k + 1] * b[i] + coefficients[k + 2] * c[i] + coefficients[k + 3] * d[i]; }
        }

        for (; k < matrices.Count; k++) { DenseRows.Add(sum, coefficients[k], matrices[k]); }
    }
}
