using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Schema;
using System.Text.Json.Serialization.Metadata;
using SandwichMech.Workshop.Log;

namespace SandwichMech.Workshop.UseCases;

/// <summary>Results as JSON, SI units in the field names, and the schemas made from the same records.</summary>
public static class ResultJson
{
    private static readonly JsonSerializerOptions Options = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
        WriteIndented = true,
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        TypeInfoResolver = new DefaultJsonTypeInfoResolver { Modifiers = { LogJson.Name } },
        RespectNullableAnnotations = true,
        Converters = { LogJson.Stages, LogJson.Quantities },
    };

    /// <summary>One JSON document.</summary>
    /// <typeparam name="T">A result record.</typeparam>
    /// <param name="result">The result.</param>
    /// <returns>Indented JSON.</returns>
    public static string Write<T>(T result) => JsonSerializer.Serialize(result, Options);

    /// <summary>The JSON Schema of a result.</summary>
    /// <param name="result">The result's record type.</param>
    /// <returns>Indented JSON Schema.</returns>
    public static string Schema(Type result)
    {
        JsonNode node = Options.GetJsonSchemaAsNode(result, new() { TreatNullObliviousAsNonNullable = true });
        return node.ToJsonString(Options) + "\n";
    }
}
