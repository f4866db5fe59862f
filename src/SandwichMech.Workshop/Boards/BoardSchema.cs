using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace SandwichMech.Workshop.Boards;

/// <summary>The JSON Schema of board files, for editors; made from <see cref="BoardFields"/>.</summary>
public static class BoardSchema
{
    // Editors warn by it while typing, so it refuses only what no reading could save: no digit, or nothing that could be a unit behind it.
    private const string NumberWithUnit = "[0-9½¼¾⅛⅜⅝⅞⅓⅔].*[A-Za-zµμ°º˚%\"'″”“]";

    /// <summary>The schema, JSON Schema 2020-12.</summary>
    /// <returns>JSON, indented, ending in a line feed.</returns>
    public static string Text()
    {
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream, new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
        {
            Schema().WriteTo(writer);
        }

        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    private static JsonObject Schema()
    {
        BoardTable top = BoardFields.Tables.First(table => table.IsTop);
        JsonObject schema = Table(top);
        var properties = (JsonObject)schema["properties"]!;
        foreach (BoardTable table in BoardFields.Tables.Where(table => !table.IsTop))
        {
            properties[table.Name] = table.IsList
                ? new JsonObject { ["description"] = table.Help, ["type"] = "array", ["items"] = Table(table) }
                : Table(table);
        }

        schema["required"] = new JsonArray([.. BoardFields.Tables.Where(t => t is { IsTop: false, IsList: false } && BoardFields.In(t).Any(f => f.Required)).Select(t => (JsonNode)t.Name)]);
        JsonNode[] eitherOr = [.. BoardFields.All.Where(field => field.Unless.Count > 0).Select(field => new JsonObject
        {
            ["anyOf"] = new JsonArray([.. field.Unless.Prepend(field).Select(f => (JsonNode)Needs(f))]),
        })];
        schema["allOf"] = new JsonArray(eitherOr);

        var whole = new JsonObject
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["title"] = "Board file of sandwichmech",
            ["description"] = "A sandwich soundboard as wished: two wooden skins on a light core. Every value is a text with its unit.",
        };
        foreach (var (name, node) in schema)
        {
            if (!whole.ContainsKey(name))
            {
                whole[name] = node?.DeepClone();
            }
        }

        return whole;
    }

    private static JsonObject Table(BoardTable table)
    {
        var properties = new JsonObject();
        foreach (BoardField field in BoardFields.In(table))
        {
            properties[field.Key] = Field(field);
        }

        var schema = new JsonObject
        {
            ["description"] = table.Help,
            ["type"] = "object",
            ["additionalProperties"] = false,
            ["properties"] = properties,
        };
        JsonNode[] required = [.. BoardFields.In(table).Where(field => field is { Required: true, Unless.Count: 0 }).Select(field => (JsonNode)field.Key)];
        if (required.Length > 0)
        {
            schema["required"] = new JsonArray(required);
        }

        return schema;
    }

    private static JsonObject Needs(BoardField field) => new()
    {
        ["properties"] = new JsonObject { [field.Table.Name] = new JsonObject { ["required"] = new JsonArray(field.Key) } },
        ["required"] = new JsonArray(field.Table.Name),
    };

    private static JsonObject Field(BoardField field)
    {
        var schema = new JsonObject
        {
            ["description"] = field.Help + (field.Kind is TypedKind typed ? $" Possible: {typed.Possible}; usual: {typed.Usual}."
                : field.Kind is NameKind { Of: not MaterialKind.Adhesive } ? " A name of the tables, or a piece of your log, as 'piece 14'." : ""),
            ["type"] = "string",
        };
        switch (field.Kind)
        {
            case TypedKind { Words.Count: > 0 } kind:
                schema["anyOf"] = new JsonArray(
                    new JsonObject { ["enum"] = new JsonArray([.. kind.Words.Keys.Select(word => (JsonNode)word)]) },
                    new JsonObject { ["pattern"] = NumberWithUnit });
                break;
            case TypedKind:
                schema["pattern"] = NumberWithUnit;
                break;
            case PlacesKind kind:
                schema.Remove("type");
                schema["anyOf"] = new JsonArray(
                    new JsonObject { ["type"] = "array", ["minItems"] = kind.Fewest, ["items"] = new JsonObject { ["type"] = "string", ["pattern"] = NumberWithUnit } },
                    new JsonObject { ["type"] = "string", ["pattern"] = NumberWithUnit });
                break;
            case ChoiceKind kind:
                schema["enum"] = new JsonArray([.. kind.Words.Select(word => (JsonNode)word)]);
                break;
            case TextKind kind:
                schema["minLength"] = 1;
                schema["maxLength"] = kind.Longest;
                break;
            default:
                schema["minLength"] = 1;
                break;
        }

        if (field.Default is not null)
        {
            schema["default"] = field.Default;
        }

        schema["examples"] = new JsonArray(field.Example);
        return schema;
    }
}
