using System.Numerics;

namespace SandwichMech.Core.Taps;

/// <summary>A damped sinusoid with its part of every bin, to be taken off when others are fitted.</summary>
internal sealed class SpectrumLine
{
    private double[] _part = [];

    internal SpectrumLine(FittedPole fitted) => Fitted = fitted;

    internal FittedPole Fitted { get; private set; }

    internal Pole Pole => Fitted.Pole;

    /// <summary>Changes the line and what is left of the spectrum with it.</summary>
    internal void Become(FittedPole fitted, BandSpectrum spectrum, Complex[] rest)
    {
        PutBack(rest);
        Fitted = fitted;
        double[] p = new double[2 * rest.Length], q = new double[2 * rest.Length];
        DampedLine.Shapes(spectrum, 0, fitted.Pole, p, q, []);
        for (int i = 0; i < p.Length; i++) { p[i] = fitted.P * p[i] + fitted.Q * q[i]; }
        _part = p;
        for (int k = 0; k < rest.Length; k++) { rest[k] -= new Complex(p[2 * k], p[2 * k + 1]); }
    }

    /// <summary>Gives its part back.</summary>
    internal void PutBack(Complex[] rest)
    {
        if (_part.Length == 0) { return; }
        for (int k = 0; k < rest.Length; k++) { rest[k] += new Complex(_part[2 * k], _part[2 * k + 1]); }
        _part = [];
    }

    /// <summary>Adds its part to numbers of a band.</summary>
    internal void AddTo(double[] band, int first)
    {
        if (_part.Length == 0) { return; }
        for (int i = 0; i < band.Length; i++) { band[i] += _part[2 * first + i]; }
    }
}
