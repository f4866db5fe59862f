using SandwichMech.Core.Numerics;

namespace SandwichMech.Core.Plates.Reduced;

/// <summary>Adds the small matrices up and solves; one at a time, its workspace is used again.</summary>
/// <remarks>
/// Rigid motions have no stiffness in any design, so each flexible mode is M-orthogonal to them: with the mass's part between them taken out,
/// M_ff − M_fr M_rr⁻¹ M_rf, what is left is a problem of the flexible vectors alone, its stiffness positive definite, exactly. The first vectors hold most of
/// each mode, so simultaneous iteration from them, x ← K⁻¹Mx with Rayleigh–Ritz (Bathe &amp; Wilson 1972, Int. J. Num. Meth. Engng 6, 213), settles
/// in a few steps. In single precision: basis vectors have unit energy in one design and not far from it in the others, so the sums are good to some 1e-6.
/// </remarks>
internal sealed class ReducedSolver
{
    // Modes beyond those wanted that are iterated along with them, at least; steps.
    private const int Guard = 4, Steps = 3;

    private readonly int _rigid, _flexible, _modes, _order, _block;
    private readonly float[] _stiffness, _factor, _inertia, _mass, _fullMass;
    private readonly float[][] _x, _image, _turned;
    private readonly double[] _rigidMass, _rigidRows, _smallK, _smallM, _values, _small;
    private readonly float[] _products = new float[SingleMatrix.Width * SingleMatrix.Width];
    private readonly LowestPairs _ritz;

    internal ReducedSolver(int rigid, int flexible, int modes)
    {
        (_rigid, _flexible, _modes, _order) = (rigid, flexible, modes, SingleMatrix.Order(flexible));
        int packed = SingleMatrix.Length(_order);
        (_stiffness, _factor, _mass) = (new float[packed], new float[packed], new float[packed]);
        _inertia = new float[rigid * RigidLength(_order) + packed];
        _fullMass = new float[_order * _order];
        (_rigidMass, _rigidRows) = (new double[rigid * rigid], new double[rigid * _order]);
        int panels = Math.Min(modes + Guard, flexible) is var wanted ? (wanted + SingleMatrix.Width - 1) / SingleMatrix.Width : 0;
        (_x, _image, _turned) = (Panels(), Panels(), Panels());
        // Vectors that only fill the last panel up would be none.
        _block = Math.Min(panels * SingleMatrix.Width, flexible);
        (_smallK, _smallM) = (new double[Triangle(_block)], new double[Triangle(_block)]);
        (_values, _small, _ritz) = (new double[_block], new double[_block * _block], new(_block));
        (Values, Vectors) = (new double[modes], new double[modes * flexible]);

        float[][] Panels() => [.. Enumerable.Range(0, panels).Select(_ => new float[_order * SingleMatrix.Width])];
    }

    /// <summary>ω² of the modes, rising.</summary>
    internal double[] Values { get; }
    /// <summary>Their flexible parts, one after the other; modal mass 1.</summary>
    internal double[] Vectors { get; }

    /// <summary>Numbers of each rigid motion's row in a matrix of inertia: sixteen of the rigid motions, then those of the flexible vectors.</summary>
    internal static int RigidLength(int order) => SingleMatrix.Width + order;

    /// <summary>A matrix between all vectors as <see cref="Solve"/> takes it.</summary>
    /// <param name="full">Square and full, [row · count + column].</param>
    /// <param name="rigid">Rigid motions: the first vectors; 0 where their part is left out.</param>
    /// <param name="from">The first flexible vector.</param>
    /// <param name="flexible">So many flexible vectors are taken.</param>
    internal static float[] Laid(double[] full, int rigid, int from, int flexible)
    {
        int all = (int)Math.Round(Math.Sqrt(full.Length)), order = SingleMatrix.Order(flexible), row = RigidLength(order);
        float[] laid = new float[rigid * row + SingleMatrix.Length(order)];
        for (int r = 0; r < rigid; r++)
        {
            for (int s = 0; s < rigid; s++) { laid[r * row + s] = (float)full[r * all + s]; }
            for (int j = 0; j < flexible; j++) { laid[r * row + SingleMatrix.Width + j] = (float)full[r * all + from + j]; }
        }

        for (int i = 0; i < flexible; i++)
        {
            int at = rigid * row + SingleMatrix.Row(order, i) - SingleMatrix.Column(i);
            for (int j = i; j < flexible; j++) { laid[at + j] = (float)full[(from + i) * all + from + j]; }
        }

        return laid;
    }

    /// <summary>Solves.</summary>
    /// <param name="coefficients">Of each matrix.</param>
    /// <param name="stiffness">Matrices between the flexible vectors.</param>
    /// <param name="inertia">Matrices between all vectors.</param>
    /// <param name="airDensity">kg/m³.</param>
    /// <param name="air">The air's matrix between all vectors.</param>
    /// <returns>Whether the plate is possible: stiffness and mass positive.</returns>
    internal bool Solve(
        (double[] Stiffness, double[] Inertia) coefficients, IReadOnlyList<float[]> stiffness, IReadOnlyList<float[]> inertia, double airDensity, float[] air)
    {
        SingleMatrix.Sum(coefficients.Stiffness, stiffness, _stiffness);
        for (int i = _flexible; i < _order; i++) { _stiffness[SingleMatrix.Row(_order, i) + i - SingleMatrix.Column(i)] = 1; }
        SingleMatrix.Sum(coefficients.Inertia, inertia, _inertia);
        if (airDensity > 0) { SingleMatrix.Add(_inertia, airDensity, air); }
        _stiffness.CopyTo(_factor, 0);
        return TakeOutRigid() && SingleMatrix.Factor(_factor, _order) && Iterate();
    }

    /// <summary>The rigid motions in a mode: −M_rr⁻¹ M_rf y.</summary>
    internal double[] RigidParts(int mode)
    {
        double[] parts = new double[_rigid];
        for (int r = _rigid - 1; r >= 0; r--)
        {
            // Rows hold L⁻¹ M_rf: back through Lᵀ.
            double sum = -DenseRows.Dot(_rigidRows.AsSpan(r * _order, _flexible), Vectors.AsSpan(mode * _flexible, _flexible));
            for (int s = r + 1; s < _rigid; s++) { sum -= _rigidMass[s * _rigid + r] * parts[s]; }
            parts[r] = sum / _rigidMass[r * _rigid + r];
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
        double energy = 0;
        for (int i = _flexible - tail; i < _flexible; i++)
        {
            int row = SingleMatrix.Row(_order, i) - SingleMatrix.Column(i);
            double sum = _stiffness[row + i] * y[i];
            for (int j = i + 1; j < _flexible; j++) { sum += 2 * _stiffness[row + j] * y[j]; }
            energy += y[i] * sum;
        }

        return energy;
    }

    private bool Iterate()
    {
        SingleMatrix.Expand(_mass, _order, _fullMass);
        // The first vectors by themselves: apart from each other, so that none drowns in the lowest modes. M x of them are columns of M.
        for (int p = 0; p < _image.Length; p++)
        {
            for (int i = 0; i < _order; i++) { _fullMass.AsSpan(i * _order + p * SingleMatrix.Width, SingleMatrix.Width).CopyTo(_image[p].AsSpan(i * SingleMatrix.Width)); }
        }

        for (int i = 0, at = 0; i < _block; i++)
        {
            for (int j = 0; j <= i; j++, at++)
            {
                (_smallK[at], _smallM[at]) = (_stiffness[SingleMatrix.Row(_order, j) + i - SingleMatrix.Column(j)], _fullMass[i * _order + j]);
            }
        }

        if (!_ritz.Solve(_smallK, _smallM, _values, _small)) { return false; }
        Turn(_image);
        for (int step = 1; step <= Steps; step++)
        {
            for (int p = 0; p < _x.Length; p++)
            {
                _image[p].CopyTo(_x[p], 0);
                SingleMatrix.Solve(_factor, _order, _x[p]);
            }

            // K x = M y is what was solved: xᵀKx = xᵀ(My).
            Gram(_image, _smallK);
            for (int p = 0; p < _x.Length; p++) { SingleMatrix.Multiply(_fullMass, _order, _x[p], _image[p]); }
            Gram(_image, _smallM);
            if (!_ritz.Solve(_smallK, _smallM, _values, _small)) { return false; }
            Turn(_image);
            if (step == Steps) { Turn(_x); }
        }

        _values.AsSpan(0, _modes).CopyTo(Values);
        for (int c = 0; c < _modes; c++)
        {
            float[] panel = _x[c / SingleMatrix.Width];
            for (int i = 0; i < _flexible; i++) { Vectors[c * _flexible + i] = panel[i * SingleMatrix.Width + c % SingleMatrix.Width]; }
        }

        return true;
    }

    // Lower triangle of xᵀ image.
    private void Gram(float[][] image, double[] packed)
    {
        const int width = SingleMatrix.Width;
        for (int p = 0; p < _x.Length; p++)
        {
            for (int q = 0; q <= p; q++)
            {
                SingleMatrix.Products(_x[p], image[q], _products);
                for (int i = 0; i < width && p * width + i < _block; i++)
                {
                    int row = p * width + i;
                    for (int j = 0; j < width && q * width + j <= row; j++)
                    {
                        packed[row * (row + 1) / 2 + q * width + j] = p == q ? (_products[i * width + j] + _products[j * width + i]) / 2 : _products[i * width + j];
                    }
                }
            }
        }
    }

    // a ← a S, S the small problem's vectors.
    private void Turn(float[][] a)
    {
        const int width = SingleMatrix.Width;
        for (int p = 0; p < a.Length; p++)
        {
            Array.Clear(_turned[p]);
            for (int q = 0; q < a.Length; q++)
            {
                for (int i = 0; i < width; i++)
                {
                    for (int j = 0; j < width; j++)
                    {
                        int from = q * width + i, to = p * width + j;
                        _products[i * width + j] = from < _block && to < _block ? (float)_small[to * _block + from] : 0;
                    }
                }

                SingleMatrix.AddCombined(a[q], _products, _turned[p]);
            }
        }

        for (int p = 0; p < a.Length; p++) { (a[p], _turned[p]) = (_turned[p], a[p]); }
    }

    private bool TakeOutRigid()
    {
        int length = RigidLength(_order), n = _rigid;
        for (int r = 0; r < n; r++)
        {
            for (int s = 0; s <= r; s++)
            {
                double value = _inertia[r * length + s];
                for (int k = 0; k < s; k++) { value -= _rigidMass[r * n + k] * _rigidMass[s * n + k]; }
                if (s == r && !(value > 0)) { return false; }
                _rigidMass[r * n + s] = s == r ? Math.Sqrt(value) : value / _rigidMass[s * n + s];
            }

            Span<double> row = _rigidRows.AsSpan(r * _order, _order);
            for (int i = 0; i < _order; i++) { row[i] = _inertia[r * length + SingleMatrix.Width + i]; }
            for (int k = 0; k < r; k++) { DenseRows.Add(row, -_rigidMass[r * n + k], _rigidRows.AsSpan(k * _order, _order)); }
            double scale = 1 / _rigidMass[r * n + r];
            for (int i = 0; i < _order; i++) { row[i] *= scale; }
        }

        _inertia.AsSpan(n * length).CopyTo(_mass);
        for (int r = 0; r < n; r++)
        {
            Span<double> row = _rigidRows.AsSpan(r * _order, _order);
            for (int i = 0; i < _flexible; i++)
            {
                int from = SingleMatrix.Column(i);
                Span<float> mass = _mass.AsSpan(SingleMatrix.Row(_order, i), _order - from);
                for (int j = 0; j < mass.Length; j++) { mass[j] -= (float)(row[i] * row[from + j]); }
            }
        }

        return true;
    }

    private static int Triangle(int n) => n * (n + 1) / 2;
}
