using System.Text.Json.Nodes;
using Json.Schema;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Tables;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace SandwichMech.Tests.Boards;

/// <summary>The schema for editors: the file is the generated one, and it takes what the reader takes.</summary>
[Trait("Check", "exact")]
public class BoardSchemaTests
{
    private static readonly string File = Path.Combine(BoardCases.Repository, "shared", "schemas", "board.schema.json");
    private static readonly Lazy<JsonSchema> Schema = new(() => JsonSchema.FromText(BoardSchema.Text()));

    [Fact]
    public void The_file_is_the_generated_one()
    {
        if (Environment.GetEnvironmentVariable("SANDWICHMECH_APPROVE") == "1")
        {
            System.IO.File.WriteAllText(File, BoardSchema.Text());
        }

        Assert.Equal(BoardSchema.Text(), System.IO.File.ReadAllText(File));
    }

    [Fact]
    public void The_schema_is_one_of_JSON_Schema_2020_12()
    {
        JsonNode? schema = JsonNode.Parse(BoardSchema.Text());
        Assert.Equal("https://json-schema.org/draft/2020-12/schema", (string?)schema!["$schema"]);
        Assert.True(Valid(MetaSchemas.Draft202012, schema));
    }

    [Fact]
    public void Every_field_is_in_it_once_with_its_help()
    {
        var schema = JsonNode.Parse(BoardSchema.Text())!;
        foreach (BoardField field in BoardFields.All)
        {
            JsonNode? table = field.Table.IsTop ? schema : schema["properties"]![field.Table.Name];
            table = field.Table.IsList ? table!["items"] : table;
            Assert.StartsWith(field.Help, (string?)table!["properties"]![field.Key]!["description"], StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("board.toml")]
    [InlineData("board-foam.toml")]
    [InlineData("regions.toml")]
    public void A_demo_board_is_valid(string demo)
    {
        string text = System.IO.File.ReadAllText(BoardCases.Demo(demo));
        Assert.StartsWith("#:schema ../schemas/board.schema.json\n", text, StringComparison.Ordinal);
        Assert.True(Valid(Schema.Value, Json(text)));
    }

    [Fact]
    public void A_new_board_and_the_good_board_are_valid()
    {
        Assert.True(Valid(Schema.Value, Json(BoardText.New(BoardFields.Questions.ToDictionary(f => f.Name, f => f.Offered)))));
        Assert.True(Valid(Schema.Value, Json(BoardCases.GoodBoard)));
    }

    [Theory]
    [InlineData("unknown-key.txt")]
    [InlineData("unknown-table.txt")]
    [InlineData("key-in-wrong-table.txt")]
    [InlineData("missing-key.txt")]
    [InlineData("missing-table.txt")]
    [InlineData("bare-number.txt")]
    [InlineData("not-a-text.txt")]
    [InlineData("dotted-key.txt")]
    [InlineData("missing-unit.txt")]
    public void What_an_editor_can_see_is_invalid(string kind)
    {
        foreach (BoardCase one in BoardCases.In(kind))
        {
            // TOML's dotted keys make the same tree, so the schema cannot mind them, nor a date that becomes a text.
            if (one.ToString() is not ("dotted-key: at the top" or "not-a-text: a date"))
            {
                Assert.False(Valid(Schema.Value, Json(one.Text)), one.ToString());
            }
        }
    }

    [Fact]
    public void What_is_unusual_is_valid() =>
        Assert.All(BoardCases.In("unusual.txt"), one => Assert.True(Valid(Schema.Value, Json(one.Text)), one.ToString()));

    [Theory]
    [InlineData("½ in")]
    [InlineData("30 thou")]
    [InlineData("0,76 mm ± 0,05 mm sd")]
    [InlineData("0.030\"")]
    [InlineData("0.030 in ± 5 %")]
    public void What_the_reader_takes_the_schema_takes(string typed)
    {
        Assert.Null(FieldReader.Read(BoardFields.CoreHeight, typed.Replace("½", "⅛", StringComparison.Ordinal), MaterialTables.BuiltIn()).Problem);
        Assert.True(Valid(Schema.Value, Json(BoardText.WithValue(BoardCases.GoodBoard, "core", "height", typed))));
    }

    private static bool Valid(JsonSchema schema, JsonNode? json) =>
        schema.Evaluate(System.Text.Json.JsonSerializer.SerializeToElement(json)).IsValid;

    /// <summary>The tree as an editor's TOML plug-in hands it to the schema.</summary>
    private static JsonObject Json(string toml)
    {
        DocumentSyntax document = SyntaxParser.ParseStrict(toml);
        var root = new JsonObject();
        Fill(root, document.KeyValues);
        foreach (TableSyntaxBase table in document.Tables)
        {
            JsonObject at = root;
            string[] parts = [.. Parts(table.Name!)];
            foreach (string part in table is TableArraySyntax ? parts[..^1] : parts)
            {
                at = Child(at, part);
            }

            if (table is TableArraySyntax)
            {
                var item = new JsonObject();
                ((JsonArray)(at[parts[^1]] ??= new JsonArray())).Add(item);
                at = item;
            }

            Fill(at, table.Items.OfType<KeyValueSyntax>());
        }

        return root;
    }

    private static void Fill(JsonObject target, IEnumerable<KeyValueSyntax> pairs)
    {
        foreach (KeyValueSyntax pair in pairs)
        {
            string[] parts = [.. Parts(pair.Key!)];
            JsonObject at = target;
            foreach (string part in parts[..^1])
            {
                at = Child(at, part);
            }

            at[parts[^1]] = Value(pair.Value!);
        }
    }

    private static JsonObject Child(JsonObject parent, string name) => (JsonObject)(parent[name] ??= new JsonObject());

    private static JsonNode? Value(ValueSyntax value) => value switch
    {
        StringValueSyntax text => text.Value,
        IntegerValueSyntax number => number.Value,
        FloatValueSyntax number => double.IsFinite(number.Value) ? number.Value : 0,
        BooleanValueSyntax truth => truth.Value,
        ArraySyntax array => new JsonArray([.. array.Items.Select(item => Value(item.Value!))]),
        InlineTableSyntax inline => Inline(inline),
        _ => value.ToString().Trim(),
    };

    private static JsonObject Inline(InlineTableSyntax inline)
    {
        var table = new JsonObject();
        Fill(table, inline.Items.Select(item => item.KeyValue!));
        return table;
    }

    private static IEnumerable<string> Parts(KeySyntax key) =>
        key.DotKeys.Select(dotted => dotted.Key!).Prepend(key.Key!).Select(part => part is StringValueSyntax text ? text.Value! : part.ToString().Trim());
}
