using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using SandwichMech.Core.Building;
using SandwichMech.Core.Identification;
using SandwichMech.Core.Uncertainty;

namespace SandwichMech.Workshop.Log;

/// <summary>What the log keeps, as JSON: SI units in the field names, shortest digits that read back as the same number.</summary>
public static class LogJson
{
    // Of a stage's reading: not in logs written before there was bending.
    private const string Kind = "kind", Bending = "bending";

    private static readonly Dictionary<Type, string> Kinds = new()
    {
        [typeof(Weighing)] = "weight",
        [typeof(SizeReading)] = "size",
        [typeof(ThicknessReading)] = "thickness",
        [typeof(ThicknessMapReading)] = "thickness-map",
        [typeof(BendingReading)] = "bending",
        [typeof(TapReading)] = "taps",
        [typeof(MoistureReading)] = "moisture",
    };

    // Core's records carry no units in their names.
    private static readonly Dictionary<string, string> Names = new()
    {
        [Key(nameof(Weighing), nameof(Weighing.Mass))] = "mass_kg",
        [Key(nameof(SizeReading), nameof(SizeReading.Size))] = "size_m",
        [Key(nameof(ThicknessReading), nameof(ThicknessReading.Thicknesses))] = "thicknesses_m",
        [Key(nameof(ThicknessReading), nameof(ThicknessReading.Instrument))] = "instrument_m",
        [Key(nameof(ThicknessMapReading), nameof(ThicknessMapReading.Rows))] = "rows_m",
        [Key(nameof(ThicknessMapReading), nameof(ThicknessMapReading.Instrument))] = "instrument_m",
        [Key(nameof(BendingReading), nameof(BendingReading.Span))] = "span_m",
        [Key(nameof(BendingReading), nameof(BendingReading.LoadSpan))] = "load_span_m",
        [Key(nameof(BendingReading), nameof(BendingReading.Load))] = "load_kg",
        [Key(nameof(BendingReading), nameof(BendingReading.Deflection))] = "deflection_m",
        [Key(nameof(BendingReading), nameof(BendingReading.Plunger))] = "plunger_n",
        [Key(nameof(Tone), nameof(Tone.Frequency))] = "frequency_hz",
        [Key(nameof(MoistureReading), nameof(MoistureReading.Content))] = "content_percent",
        [Key(nameof(MoistureReading), nameof(MoistureReading.Humidity))] = "humidity_percent",
        [Key(nameof(MoistureReading), nameof(MoistureReading.Temperature))] = "temperature_c",
        [Key(nameof(BuildReading), nameof(BuildReading.Values))] = "values_si",
        [Key(nameof(BuildReading), nameof(BuildReading.Deviation))] = "deviation_si",
        [Key(nameof(BuildStart), nameof(BuildStart.Margin))] = "margin_m",
    };

    /// <summary>Stages by their names.</summary>
    internal static JsonConverter Stages { get; } = new JsonStringEnumConverter<BuildStage>(JsonNamingPolicy.SnakeCaseLower);

    /// <summary>Quantities by their names.</summary>
    internal static JsonConverter Quantities { get; } = new JsonStringEnumConverter<BuildQuantity>(JsonNamingPolicy.SnakeCaseLower);

    private static readonly JsonSerializerOptions Compact = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        TypeInfoResolver = new DefaultJsonTypeInfoResolver { Modifiers = { Name, Require } },
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        AllowOutOfOrderMetadataProperties = true,
        Converters = { Stages, Quantities },
    };

    private static readonly JsonSerializerOptions Indented = new(Compact) { WriteIndented = true, NewLine = "\n" };

    /// <summary>The kind of a reading, as its entry names it.</summary>
    /// <param name="reading">The reading.</param>
    /// <returns>"weight", "size", "thickness", "thickness-map", "bending", "taps" or "moisture".</returns>
    public static string KindOf(Reading reading) => Kinds[reading.GetType()];

    /// <summary>Gives readings the names of their fields and kinds; for any JSON in which readings stand.</summary>
    /// <param name="type">What is to be named.</param>
    public static void Name(JsonTypeInfo type)
    {
        if (type.Type.Assembly != typeof(Reading).Assembly)
        {
            return;
        }

        if (type.Type == typeof(Reading))
        {
            type.PolymorphismOptions = new() { TypeDiscriminatorPropertyName = Kind, UnknownDerivedTypeHandling = JsonUnknownDerivedTypeHandling.FailSerialization };
            foreach ((Type derived, string kind) in Kinds)
            {
                type.PolymorphismOptions.DerivedTypes.Add(new(derived, kind));
            }
        }

        // What is worked out of the rest is not kept.
        if (type.Type == typeof(BuildReading))
        {
            foreach (JsonPropertyInfo mean in type.Properties.Where(p => p.Name == "mean").ToArray()) { type.Properties.Remove(mean); }
        }

        foreach (JsonPropertyInfo property in type.Properties)
        {
            if (property.AttributeProvider is System.Reflection.MemberInfo member && Names.TryGetValue(Key(type.Type.Name, member.Name), out string? name))
            {
                property.Name = name;
            }
        }
    }

    // A text and no pair of values: it is looked up in every JSON result, and pairs are not compiled ahead.
    private static string Key(string type, string member) => $"{type}.{member}";

    // A number that is left out must not be read as 0.
    private static void Require(JsonTypeInfo type)
    {
        if (type.Type == typeof(Estimate) || type.Type == typeof(Tone) || type.Type == typeof(BuildReading) || type.Type == typeof(BuildStart) || type.Type == typeof(GivenPrediction) || Kinds.ContainsKey(type.Type))
        {
            foreach (JsonPropertyInfo property in type.Properties)
            {
                property.IsRequired = property.Name != Bending;
            }
        }
    }

    /// <summary>What the log keeps of a value: JSON on one line.</summary>
    /// <typeparam name="T">As what it is to be read again; <see cref="Reading"/> for readings.</typeparam>
    /// <param name="value">The value.</param>
    /// <returns>JSON.</returns>
    /// <exception cref="ArgumentException">A number is not finite.</exception>
    public static string Payload<T>(T value) => JsonSerializer.Serialize(value, Compact);

    /// <summary>Reads what <see cref="Payload"/> wrote.</summary>
    /// <typeparam name="T">What it is.</typeparam>
    /// <param name="json">JSON.</param>
    /// <returns>The value.</returns>
    /// <exception cref="JsonException">It is something else, or incomplete.</exception>
    public static T Read<T>(string json) => JsonSerializer.Deserialize<T>(json, Compact) ?? throw new JsonException("it is null");

    internal static BuildStage StageOf(string word) => Read<BuildStage>($"\"{word}\"");

    internal static string Document<T>(T value) => JsonSerializer.Serialize(value, Indented);

    /// <summary>Whether a text can be kept as it is: half a character, as some programs pass on, cannot.</summary>
    /// <param name="text">The text.</param>
    /// <returns>True where every character is whole.</returns>
    public static bool IsWhole(string text)
    {
        for (int i = 0; i < text.Length; i++)
        {
            if (char.IsHighSurrogate(text[i]) && i + 1 < text.Length && char.IsLowSurrogate(text[i + 1]))
            {
                i++;
            }
            else if (char.IsSurrogate(text[i]))
            {
                return false;
            }
        }

        return true;
    }
}
