using System.Text.Json.Serialization;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Taps;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Recordings;

namespace SandwichMech.Workshop.UseCases;

/// <summary>A partial of the piece, over all taps.</summary>
public sealed record PartialRow
{
    /// <summary>Hz.</summary>
    [JsonPropertyName("frequency_hz")] public required double Frequency { get; init; }
    /// <summary>Its standard deviation, Hz.</summary>
    [JsonPropertyName("frequency_sd_hz")] public required double FrequencySd { get; init; }
    /// <summary>Quality factor; nothing where damping is not to be believed.</summary>
    public required double? QualityFactor { get; init; }
    /// <summary>Its standard deviation.</summary>
    public required double? QualityFactorSd { get; init; }
    /// <summary>Decay of the amplitude, 1/s.</summary>
    [JsonPropertyName("decay_per_s")] public required double? Decay { get; init; }
    /// <summary>Its standard deviation, 1/s.</summary>
    [JsonPropertyName("decay_sd_per_s")] public required double? DecaySd { get; init; }
    /// <summary>Time to fall by 60 dB, s.</summary>
    [JsonPropertyName("decay_time_60_db_s")] public required double? DecayTime { get; init; }
    /// <summary>Amplitude at the beginning, dB of full scale.</summary>
    [JsonPropertyName("level_db")] public required double Level { get; init; }
    /// <summary>In how many taps it was found.</summary>
    public required int Taps { get; init; }
}

/// <summary>A tap in the recording.</summary>
public sealed record TapRow
{
    /// <summary>When free vibration begins, s.</summary>
    [JsonPropertyName("time_s")] public required double Time { get; init; }
    /// <summary>How much of it was used, s.</summary>
    [JsonPropertyName("used_s")] public required double Used { get; init; }
    /// <summary>How many partials it showed.</summary>
    public required int Partials { get; init; }
}

/// <summary>What `listen` answers.</summary>
public sealed record ListenResult
{
    /// <summary>The recording's file name.</summary>
    public required string Recording { get; init; }
    /// <summary>How long it is, s.</summary>
    [JsonPropertyName("length_s")] public required double Length { get; init; }
    /// <summary>Samples in a second.</summary>
    [JsonPropertyName("sample_rate_hz")] public required double SampleRate { get; init; }
    /// <summary>Lowest frequency that was looked for, Hz.</summary>
    [JsonPropertyName("low_hz")] public required double Low { get; init; }
    /// <summary>Highest, Hz.</summary>
    [JsonPropertyName("high_hz")] public required double High { get; init; }
    /// <summary>Sound between the taps, root mean square, dB of full scale.</summary>
    [JsonPropertyName("noise_db")] public required double Noise { get; init; }
    /// <summary>The partials, rising.</summary>
    public required IReadOnlyList<PartialRow> Partials { get; init; }
    /// <summary>The taps.</summary>
    public required IReadOnlyList<TapRow> Taps { get; init; }
    /// <summary>Whether damping is to be believed.</summary>
    public required bool DampingUsable { get; init; }
    /// <summary>What is to be known about the recording, in plain words.</summary>
    public required IReadOnlyList<string> Findings { get; init; }
    /// <summary>Number of the piece whose tones these were kept as; nothing where they were not kept.</summary>
    public int? KeptForPiece { get; init; }
}

/// <summary>The result and what the picture needs beside it.</summary>
/// <param name="Result">What is shown and written as JSON.</param>
/// <param name="Report">Partials and taps.</param>
/// <param name="Curves">Spectrum and decay.</param>
public sealed record ListenAnswer(ListenResult Result, TapReport Report, TapCurves Curves);

/// <summary>Listens to a recording of taps.</summary>
public static class ListenRecording
{
    /// <summary>Lowest frequency unless the user says, Hz.</summary>
    public const double Low = 40;

    /// <summary>Highest frequency unless the user says, Hz.</summary>
    public const double High = 2000;

    /// <summary>Reads and listens.</summary>
    /// <param name="path">The recording.</param>
    /// <param name="low">Lowest frequency wanted, Hz.</param>
    /// <param name="high">Highest, Hz; less where the recording does not hold so high ones.</param>
    /// <exception cref="InputException">The recording cannot be read, or there is no tap in it.</exception>
    public static ListenAnswer Run(string path, double low = Low, double high = High)
    {
        if (low >= high) { throw new InputException("--low", FormattableString.Invariant($"{low:0.#} Hz is not below --high, {high:0.#} Hz{(high == High ? " unless you say" : "")}: give a lower --low or a higher --high")); }
        WavSound sound = WavFile.Read(path);
        Recording recording = sound.Recording;
        double most = 0.45 * recording.SampleRate;
        if (low >= most) { throw new InputException(path, FormattableString.Invariant($"holds sound up to {most:0} Hz, which is below what is asked for: give a lower --low")); }
        double to = Math.Min(high, most);
        TapReport report = TapListening.Of(recording, low, to);
        if (report.Taps.Count == 0 || report.Partials.Count == 0)
        {
            throw new InputException(path, FormattableString.Invariant($"no tap that rings was found in {recording.Duration:0.0} s: tap the piece some five times, two seconds apart, with the microphone a hand's breadth away and nothing else sounding"));
        }

        bool damping = report.DampingUsable;
        return new(new()
        {
            Recording = Path.GetFileName(path),
            Length = recording.Duration,
            SampleRate = recording.SampleRate,
            Low = low,
            High = to,
            Noise = report.Noise,
            Partials = [.. report.Partials.Select(p => Row(p, damping))],
            Taps = [.. report.Taps.Select(t => new TapRow { Time = t.Time, Used = t.Length, Partials = t.Partials.Count })],
            DampingUsable = damping,
            Findings = [.. sound.Notes.Select(n => $"{char.ToUpperInvariant(n[0])}{n[1..]}."), .. to < high ? [FormattableString.Invariant($"The recording holds sound up to {to:0} Hz only.")] : (string[])[], .. report.Notes.Select(n => ListeningWords.Of(n, report))],
        }, report, TapCurves.Of(recording, report, low, to));
    }

    /// <summary>Keeps the partials as tap tones of a piece: those that half of the taps have.</summary>
    /// <param name="log">The log.</param>
    /// <param name="piece">The piece's number.</param>
    /// <param name="answer">What was heard.</param>
    /// <returns>The same, and that it was kept.</returns>
    /// <exception cref="InputException">There is no such piece, it is a bare core sheet, or no partial was heard in more than one tap; nothing was written.</exception>
    public static ListenAnswer Keep(ShopLog log, int piece, ListenAnswer answer)
    {
        ListenResult r = answer.Result;
        if (log.Piece(piece).Kind == PieceKind.Core) { throw new InputException("--piece", FormattableString.Invariant($"piece {piece} is a bare core sheet, which has no tap tones of use: glue a strip of sandwich from it")); }
        IReadOnlyList<Tone> tones = answer.Report.Tones();
        if (tones.Count == 0) { throw new InputException(r.Recording, "no partial was heard in half of the taps, so none is kept: tap one place, in the same way each time"); }
        log.AddReading(piece, new TapReading(tones), $"listen {r.Recording}");
        return answer with { Result = r with { KeptForPiece = piece } };
    }

    private static PartialRow Row(TapPartial p, bool damping) => new()
    {
        Frequency = p.Frequency,
        FrequencySd = p.FrequencySd,
        QualityFactor = damping ? p.Q : null,
        QualityFactorSd = damping ? p.QSd : null,
        Decay = damping ? p.Decay : null,
        DecaySd = damping ? p.DecaySd : null,
        DecayTime = damping ? p.T60 : null,
        Level = p.Level,
        Taps = p.Taps,
    };
}
