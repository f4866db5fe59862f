using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Identification;

/// <summary>Thickness of a piece from what was read at some places.</summary>
/// <param name="Mean">Mean over the places, m, with what the instrument and the choice of places leave open.</param>
/// <param name="OverPlaces">Standard deviation of the single places, m; nothing where there is one place only.</param>
/// <param name="Least">The thinnest place, m.</param>
/// <param name="Most">The thickest place, m.</param>
/// <param name="Places">How many places.</param>
public sealed record MeanThickness(Estimate Mean, double? OverPlaces, double Least, double Most, int Places)
{
    /// <summary>The mean of a reading.</summary>
    /// <param name="reading">One or more places, positive.</param>
    /// <returns>u² = u(instrument)² + s²/n: what the instrument is wrong by at all places alike does not average out (JCGM 100:2008, 4.2.3 and 5.2).</returns>
    public static MeanThickness Of(ThicknessReading reading)
    {
        IReadOnlyList<double> at = reading.Thicknesses;
        double mean = at.Average();
        double? spread = at.Count > 1 ? Math.Sqrt(at.Sum(t => (t - mean) * (t - mean)) / (at.Count - 1)) : null;
        double deviation = Math.Sqrt((reading.Instrument * reading.Instrument) + ((spread ?? 0) * (spread ?? 0) / at.Count));
        return new(Estimate.FromSd(mean, deviation), spread, at.Min(), at.Max(), at.Count);
    }
}

/// <summary>What weighing and measuring say of a rectangular piece.</summary>
/// <remarks>Of each kind the last reading counts: a piece that was sanded since is weighed and measured again.</remarks>
/// <param name="Mass">kg, where it was weighed.</param>
/// <param name="Length">Along the grain, m, where measured.</param>
/// <param name="Width">Across it, m, where measured.</param>
/// <param name="Thickness">Where measured.</param>
public sealed record PieceFigures(Estimate? Mass, Estimate? Length, Estimate? Width, MeanThickness? Thickness)
{
    /// <summary>What a map of its thickness says, where the last reading of thickness is one.</summary>
    public ThicknessMap? Map { get; init; }

    /// <summary>That map's rows, from the lower end up, m.</summary>
    public IReadOnlyList<IReadOnlyList<double>>? MapRows { get; init; }

    /// <summary>Density ρ = m/(L·W·t), kg/m³; nothing where one of them is missing. The four are independent, so the variances of their logarithms add.</summary>
    public Estimate? Density => this is { Mass: { } m, Length: { } l, Width: { } w, Thickness.Mean: var t }
        ? new(m.Value / (l.Value * w.Value * t.Value), Math.Sqrt((m.Spread * m.Spread) + (l.Spread * l.Spread) + (w.Spread * w.Spread) + (t.Spread * t.Spread)))
        : null;

    /// <summary>The figures of some readings.</summary>
    /// <param name="readings">In the order of time; other kinds are passed over.</param>
    /// <returns>The figures.</returns>
    public static PieceFigures Of(IEnumerable<Reading> readings)
    {
        var figures = new PieceFigures(null, null, null, null);
        foreach (Reading reading in readings)
        {
            figures = reading switch
            {
                Weighing w => figures with { Mass = w.Mass },
                SizeReading { Across: false } s => figures with { Length = s.Size },
                SizeReading s => figures with { Width = s.Size },
                ThicknessReading t => figures with { Thickness = MeanThickness.Of(t), Map = null, MapRows = null },
                ThicknessMapReading m => figures.With(m),
                _ => figures,
            };
        }

        return figures;
    }

    private PieceFigures With(ThicknessMapReading reading)
    {
        ThicknessMap map = ThicknessMap.Of(reading);
        return this with { Thickness = map.Thickness, Map = map, MapRows = reading.Rows };
    }
}
