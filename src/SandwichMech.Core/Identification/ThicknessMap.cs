using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Identification;

/// <summary>A change of thickness from one end of a piece to the other.</summary>
/// <param name="Whole">From the lower to the upper end, or from the left to the right, m.</param>
/// <param name="Deviation">Its standard deviation, m.</param>
public sealed record ThicknessFall(double Whole, double Deviation);

/// <summary>What a map of a piece's thickness says: its mean, which way it gets thinner, and where it is thinnest.</summary>
/// <remarks>
/// Each reading stands for the middle of one of equal fields, so that their mean is the plate's. A plane by least squares, t = a + bx + cy, takes the even
/// grading out; on such a grid its terms are independent: b = Σ xt/Σ x², u(b) = s/√(Σ x²), s² = Σ (t − plane)²/(n − 3). What the callipers are wrong by at all places
/// alike changes the mean and no fall.
/// </remarks>
/// <param name="Thickness">Mean with its spread, over all places, extremes.</param>
/// <param name="Along">Fall from the lower end to the upper.</param>
/// <param name="Across">Fall from the left to the right.</param>
/// <param name="Scatter">Standard deviation of the single places about that plane, m.</param>
/// <param name="MiddleLessEdge">How much thicker the inner fields are than those at the edge, m; nothing without inner ones.</param>
/// <param name="ThinRow">Row of the thinnest place, from 0 at the lower end.</param>
/// <param name="ThinPlace">Its place in the row, from 0 at the left.</param>
public sealed record ThicknessMap(
    MeanThickness Thickness, ThicknessFall Along, ThicknessFall Across, double Scatter, double? MiddleLessEdge, int ThinRow, int ThinPlace)
{
    private const int FewPlaces = 6;

    /// <summary>What a map says.</summary>
    /// <param name="reading">Two rows or more of two places or more, all alike long.</param>
    /// <returns>u² of the mean = u(instrument)² + s²/n, as the even grading is seen by all fields alike (JCGM 100:2008, 4.2.3 and 5.2).</returns>
    public static ThicknessMap Of(ThicknessMapReading reading)
    {
        int rows = reading.Rows.Count, places = reading.Rows[0].Count, n = rows * places;
        double[] all = [.. reading.Rows.SelectMany(r => r)];
        double mean = all.Average(), sumXX = 0, sumYY = 0, sumXT = 0, sumYT = 0;
        for (int i = 0; i < n; i++)
        {
            (double x, double y) = (Middle(i / places, rows), Middle(i % places, places));
            sumXX += x * x;
            sumYY += y * y;
            sumXT += x * all[i];
            sumYT += y * all[i];
        }

        double along = sumXT / sumXX, across = sumYT / sumYY, squares = 0, total = 0;
        for (int i = 0; i < n; i++)
        {
            double off = all[i] - mean - along * Middle(i / places, rows) - across * Middle(i % places, places);
            squares += off * off;
            total += (all[i] - mean) * (all[i] - mean);
        }

        // One or two degrees of freedom may come out as nothing by chance: then no place is taken to be known better than the instrument is.
        double scatter = Math.Max(Math.Sqrt(squares / (n - 3)), n < FewPlaces ? reading.Instrument : 0), deviation = Math.Sqrt(reading.Instrument * reading.Instrument + scatter * scatter / n);
        int thinnest = Array.IndexOf(all, all.Min());
        bool hasInner = rows > 2 && places > 2;
        bool Inner(int i) => i / places > 0 && i / places < rows - 1 && i % places > 0 && i % places < places - 1;
        return new(
            new(Estimate.FromSd(mean, deviation), Math.Sqrt(total / (n - 1)), all.Min(), all.Max(), n),
            new(along, scatter / Math.Sqrt(sumXX)), new(across, scatter / Math.Sqrt(sumYY)), scatter,
            hasInner ? all.Where((_, i) => Inner(i)).Average() - all.Where((_, i) => !Inner(i)).Average() : null,
            thinnest / places, thinnest % places);
    }

    /// <summary>Where the middle of a field lies, in parts of the whole from its middle.</summary>
    /// <param name="index">Number of the field, from 0.</param>
    /// <param name="count">How many there are.</param>
    /// <returns>Between -1/2 and 1/2.</returns>
    public static double Middle(int index, int count) => (index + 0.5) / count - 0.5;
}
