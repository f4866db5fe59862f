using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Core.Identification;

/// <summary>Something read off a piece, SI.</summary>
public abstract record Reading;

/// <summary>The whole piece on the scale.</summary>
/// <param name="Mass">kg.</param>
public sealed record Weighing(Estimate Mass) : Reading;

/// <summary>Length along the grain (of a core sheet: along the ribbon) or width across it.</summary>
/// <param name="Across">Whether it is the width.</param>
/// <param name="Size">m.</param>
public sealed record SizeReading(bool Across, Estimate Size) : Reading;

/// <summary>Thickness at some places, or at one.</summary>
/// <param name="Thicknesses">m.</param>
/// <param name="Instrument">Standard deviation of what the instrument is wrong by at all places alike, m: it does not average out.</param>
public sealed record ThicknessReading(IReadOnlyList<double> Thicknesses, double Instrument) : Reading;

/// <summary>Thickness all over the piece: in the middle of each of equal fields.</summary>
/// <param name="Rows">From the lower end up; in each row from left to right, seen from outside, m.</param>
/// <param name="Instrument">Standard deviation of what the instrument is wrong by at all places alike, m: it does not average out.</param>
public sealed record ThicknessMapReading(IReadOnlyList<IReadOnlyList<double>> Rows, double Instrument) : Reading;

/// <summary>Bending over two supports under a weight: at mid-span, or shared between two lines.</summary>
/// <param name="Across">Whether the span runs across the grain.</param>
/// <param name="Span">Between the supports, m.</param>
/// <param name="LoadSpan">Between the two lines of load, m; 0 for one at mid-span.</param>
/// <param name="Load">Weight laid on, kg.</param>
/// <param name="Deflection">What mid-span goes down by when the weight is laid on, m.</param>
/// <param name="Plunger">Force by which the gauge itself presses more on the lower than on the upper reading, N; 0 where nothing touches the piece.</param>
public sealed record BendingReading(bool Across, Estimate Span, double LoadSpan, Estimate Load, Estimate Deflection, double Plunger) : Reading;

/// <summary>Tap tones of the piece lying free, on foam or hanging.</summary>
/// <param name="Tones">The tones, rising.</param>
public sealed record TapReading(IReadOnlyList<Tone> Tones) : Reading;

/// <summary>One tap tone.</summary>
/// <param name="Frequency">Hz, with the spread of its reading alone.</param>
/// <param name="Along">Nodal lines that cross the grain direction's run: those of the mode, where the maker knows it.</param>
/// <param name="Across">Nodal lines along the grain, where known.</param>
/// <param name="Loss">Loss factor 1/Q, where a recording gave it.</param>
public sealed record Tone(Estimate Frequency, int? Along = null, int? Across = null, Estimate? Loss = null);

/// <summary>Moisture of the piece, by a meter or by the air that it has lain in.</summary>
/// <param name="Content">Percent of the dry mass by a meter; nothing without one.</param>
/// <param name="Humidity">Relative humidity of the room, percent.</param>
/// <param name="Temperature">Of the room, °C.</param>
public sealed record MoistureReading(double? Content, double? Humidity, double? Temperature) : Reading;
