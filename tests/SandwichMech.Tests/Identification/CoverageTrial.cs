using SandwichMech.Core.Identification;
using SandwichMech.Core.Numerics;
using SandwichMech.Core.Plates.Reduced;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Tests.Taps;

namespace SandwichMech.Tests.Identification;

/// <summary>What trials gave: see <see cref="CoverageTrial"/>.</summary>
/// <param name="Cases">Invented pieces.</param>
/// <param name="Properties">Of each property: its symbol, how many of its 90 % intervals held, and its middle spread before and after.</param>
/// <param name="WrongModes">Pieces of which some tone was taken for another mode.</param>
internal sealed record CoverageResult(int Cases, IReadOnlyList<(string Symbol, int Held, double Before, double After)> Properties, int WrongModes);

/// <summary>An invented piece.</summary>
/// <param name="Truth">What it is.</param>
/// <param name="Read">What is read off it.</param>
/// <param name="Tones">Its tones, and which of its modes each is.</param>
internal sealed record InventedPiece(Sample Truth, IReadOnlyList<Observation> Read, IReadOnlyList<(Tone Tone, int Mode)> Tones);

/// <summary>Invented pieces, read with invented errors, and how many of the 90 % intervals hold.</summary>
/// <remarks>
/// Truths are drawn from what is known beforehand, errors from what they are said to be: each reading's own, the scatter of tones about their modes, and what all
/// tones are off by alike. Of the first modes some are heard, as often as it is supposed; the maker names none. All pieces of a trial share one plate, which learns as it goes.
/// </remarks>
internal sealed class CoverageTrial(PieceBefore before, IReadOnlyList<Reading> tests)
{
    private const double SpreadOfTone = 2e-3, Heard = 0.7;
    private const int FewestTones = 3;

    // So many pieces are solved on the mesh first; what sums of their modes give for the others is near enough.
    private const int Learnt = 40;

    /// <summary>Inputs whose truths lie off, in their standard deviations.</summary>
    internal IReadOnlyDictionary<string, double> Off { get; init; } = new Dictionary<string, double>();

    /// <summary>Runs.</summary>
    /// <param name="modes">How many of the first modes may be heard.</param>
    /// <param name="cases">Pieces.</param>
    /// <param name="seed">Of the chance.</param>
    internal CoverageResult Run(int modes, int cases, ulong seed)
    {
        Xorshift chance = DesignSample.Random(seed);
        TappedPlate plate = Plate(modes, chance);
        int wrong = 0;
        int[] held = new int[before.Properties.Count];
        double[][] after = [.. held.Select(_ => new double[cases])], table = [.. held.Select(_ => new double[cases])];
        for (int c = 0; c < cases; c++)
        {
            InventedPiece piece = Draw(plate, modes, chance);
            Identified found = Identify.Run(before, piece.Read, null, plate);
            wrong += AreWrong(plate, piece, found) ? 1 : 0;
            for (int i = 0; i < held.Length; i++)
            {
                PropertyFound p = found.Properties[i];
                held[i] += Math.Abs(Math.Log(p.Found.Value / p.Property.Of(piece.Truth))) <= Propagation.Z90 * p.Found.Spread ? 1 : 0;
                (table[i][c], after[i][c]) = (p.Table.Spread, p.Found.Spread);
            }
        }

        return new(cases, [.. before.Properties.Select((p, i) => (p.Symbol, held[i], Middle(table[i]), Middle(after[i])))], wrong);
    }

    /// <summary>A plate that knows some pieces.</summary>
    internal TappedPlate Plate(int modes, Xorshift chance)
    {
        TappedPlate plate = Identify.PlateFor(before.Start, modes);
        for (int i = 0; i < Learnt; i++) { plate.Prove(Truth(chance)); }
        return plate;
    }

    /// <summary>One piece.</summary>
    internal InventedPiece Draw(TappedPlate plate, int modes, Xorshift chance)
    {
        Sample truth = Truth(chance);
        IReadOnlyList<TapMode> all = plate.Solve(truth);
        double alike = Observations.Root(Observations.ToneBias, before.Sizes) * TapTrial.Gauss(chance);
        int[] heard;
        do { heard = [.. Enumerable.Range(0, modes).Where(_ => chance.Next() < Heard)]; } while (heard.Length < FewestTones);
        double off = Observations.Root(SpreadOfTone, Observations.ToneScatter);
        (Tone Tone, int Mode)[] tones = [.. heard.Select(m => (new Tone(new(all[m].Frequency * Math.Exp(alike + off * TapTrial.Gauss(chance)), SpreadOfTone)), m))];
        return new(
            truth,
            [
                .. tests.SelectMany(t => Observations.Of(t, before.Sizes)).Select(o => o with { Value = o.Of!(truth) * Math.Exp(o.Spread * TapTrial.Gauss(chance)) }),
                .. Observations.Of(new TapReading([.. tones.Select(t => t.Tone)]), before.Sizes),
            ],
            tones);
    }

    private Sample Truth(Xorshift chance) => before.Inputs.Aggregate(before.Start, (s, i) => i.Shift(s, i.Spread * (TapTrial.Gauss(chance) + Off.GetValueOrDefault(i.Name))));

    private static bool AreWrong(TappedPlate plate, InventedPiece piece, Identified found)
    {
        IReadOnlyList<TapMode> all = plate.Counted(piece.Truth);
        return piece.Tones.Any(t =>
        {
            ReadingUsed used = found.Readings.Single(r => r.Observation.Tone == t.Tone);
            return used.Expected is null || used.Lines != all[t.Mode].Lines;
        });
    }

    private static double Middle(double[] values) => values.Order().ElementAt(values.Length / 2);
}
