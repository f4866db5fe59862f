using System.CommandLine;
using System.Globalization;
using SandwichMech.Core.Identification;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Log;
using SandwichMech.Workshop.Tables;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.App.Commands;

/// <summary>`piece add`, `list`, `show`, `read`, `correct`: the maker's own pieces and what was read off them.</summary>
internal static class PieceCommand
{
    private const string ShowExample = "sandwichmech piece show 1";

    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("piece", "Your own pieces: skins, core sheets, test strips, and what you have read off them",
            "sandwichmech piece list",
            ShowExample);
        command.SetAction(parsed => List(common, parsed));
        command.Subcommands.Add(Add(common));
        command.Subcommands.Add(ListCommand(common));
        command.Subcommands.Add(Show(common));
        command.Subcommands.Add(Read(common));
        command.Subcommands.Add(Correct(common));
        return command;
    }

    private static WorkCommand Add(CommonOptions common)
    {
        var command = new WorkCommand("add", "A new piece, with what you have read off it so far; it gets a number to pencil on",
            "sandwichmech piece add wood --material \"Sitka spruce\" --name \"left half\" --weight \"88.6 g\" --length \"520 mm\" --width \"200 mm\" --thickness \"2.02 mm, 1.98 mm, 2.03 mm\"",
            "sandwichmech piece add core --material \"aramid honeycomb 3.2-48\" --weight \"9.4 g ± 0.1 g\" --length \"520 mm\" --width \"200 mm\" --thickness \"1.81 mm\"",
            "sandwichmech piece add sandwich --material \"aramid honeycomb 3.2-48\" --outer-wood \"piece 1\" --inner-wood \"Sitka spruce\" --adhesive \"laminating epoxy 100:30\"");
        var kind = new Argument<string>("KIND") { Description = "wood, core or sandwich" };
        kind.AcceptOnlyFromAmong("wood", "core", "sandwich");
        Option<string> material = new("--material") { Description = "Its wood or core by the tables; of a sandwich, its core", HelpName = "NAME", Required = true };
        DescriptionOptions description = new();
        var readings = new ReadingOptions();
        command.Arguments.Add(kind);
        command.Options.Add(material);
        description.AddTo(command);
        readings.AddTo(command);
        command.SetAction(parsed =>
        {
            MaterialTables tables = common.Tables(parsed);
            using ShopLog log = common.Log(parsed);
            PieceWords words = description.Over(parsed, new(KindOf(parsed.GetRequiredValue(kind)), parsed.GetRequiredValue(material), null, null, null, null));
            return common.Show(parsed, AddPiece.Run(log, tables, words, readings.Words(parsed), readings.At(parsed)), (r, screen) => PieceScreen.Changed(r, screen, "added"));
        });
        return command;
    }

    private static WorkCommand ListCommand(CommonOptions common)
    {
        var command = new WorkCommand("list", "All pieces, a line each", "sandwichmech piece list", "sandwichmech piece list --json");
        command.SetAction(parsed => List(common, parsed));
        return command;
    }

    private static int List(CommonOptions common, ParseResult parsed)
    {
        using ShopLog log = common.Log(parsed);
        return common.Show(parsed, ListPieces.Run(log), PieceScreen.List);
    }

    private static WorkCommand Show(CommonOptions common)
    {
        var command = new WorkCommand("show", "One piece: its readings with their dates, its mean thickness, its density by weighing", ShowExample);
        Argument<string> piece = PieceArgument();
        command.Arguments.Add(piece);
        command.SetAction(parsed =>
        {
            int number = (int)Number(parsed, piece, "PIECE");
            using ShopLog log = common.Log(parsed);
            return common.Show(parsed, ShowPiece.Run(log, number), PieceScreen.Show);
        });
        return command;
    }

    private static WorkCommand Read(CommonOptions common)
    {
        var command = new WorkCommand("read", "Something more that you have read off a piece; of each kind the last reading counts",
            "sandwichmech piece read 1 --thickness \"1.90 mm, 1.88 mm\" --at \"2026-03-01 14:30\"",
            "sandwichmech piece read 1 --thickness-map \"2.02 1.98 2.00; 2.05 2.01 1.99; 2.06 2.03 2.01 mm\"",
            "sandwichmech piece read 1 --weight \"88.1 g\" --humidity \"45 %\" --temperature \"21 degC\"");
        Argument<string> piece = PieceArgument();
        var readings = new ReadingOptions();
        command.Arguments.Add(piece);
        readings.AddTo(command);
        command.SetAction(parsed =>
        {
            int number = (int)Number(parsed, piece, "PIECE");
            using ShopLog log = common.Log(parsed);
            return common.Show(parsed, AddPiece.Read(log, number, readings.Words(parsed), readings.At(parsed)), (r, screen) => PieceScreen.Changed(r, screen, "noted"));
        });
        return command;
    }

    private static WorkCommand Correct(CommonOptions common)
    {
        var command = new WorkCommand("correct", "Put an entry right, or take it back; the log keeps the old one and marks it",
            "sandwichmech piece correct 1 2 --weight \"88.2 g\"",
            "sandwichmech piece correct 1 1 --name \"right half\"",
            "sandwichmech piece correct 1 3 --withdraw --why \"read off another piece\"");
        Argument<string> piece = PieceArgument();
        var entry = new Argument<string>("ENTRY") { Description = "The entry's number, as `piece show` lists it" };
        var withdraw = new Option<bool>("--withdraw") { Description = "Take the entry back; entry and piece together where it is the one that says what the piece is" };
        Option<string?> why = ReadingOptions.Value("--why", "Why it is taken back", "TEXT"), material = ReadingOptions.Value("--material", "Its wood or core by the tables", "NAME");
        DescriptionOptions description = new();
        var readings = new ReadingOptions();
        command.Arguments.Add(piece);
        command.Arguments.Add(entry);
        command.Options.Add(withdraw);
        command.Options.Add(why);
        command.Options.Add(material);
        description.AddTo(command);
        readings.AddTo(command);
        command.SetAction(parsed =>
        {
            int number = (int)Number(parsed, piece, "PIECE");
            long wrong = Number(parsed, entry, "ENTRY");
            bool describes = parsed.GetValue(material) is not null || description.AreGiven(parsed), reads = readings.Words(parsed) != new Workshop.Pieces.ReadingWords();
            if (new[] { parsed.GetValue(withdraw), describes, reads }.Count(b => b) > 1 || (parsed.GetValue(why) is not null && !parsed.GetValue(withdraw)))
            {
                throw new InputException("piece correct", "one thing at a time: a reading as it should be, or what the piece is, or --withdraw (with --why)");
            }

            MaterialTables tables = common.Tables(parsed);
            using ShopLog log = common.Log(parsed);
            PieceChanged changed = parsed.GetValue(withdraw) ? AddPiece.Withdraw(log, number, wrong, parsed.GetValue(why) ?? "")
                : describes ? AddPiece.Describe(log, tables, number, wrong, w => description.Over(parsed, w with { Material = parsed.GetValue(material) ?? w.Material }))
                : AddPiece.Correct(log, number, wrong, readings.Words(parsed), readings.At(parsed));
            return common.Show(parsed, changed, (r, screen) => PieceScreen.Changed(r, screen, "corrected"));
        });
        return command;
    }

    private static Argument<string> PieceArgument() => new("PIECE") { Description = "The piece's number" };

    // The library reads 1,000 as 1000 and says nothing; here a number is digits.
    private static long Number(ParseResult parsed, Argument<string> argument, string what)
    {
        string typed = parsed.GetRequiredValue(argument);
        return int.TryParse(typed, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number > 0
            ? number
            : throw new InputException(what, $"'{typed}' is no number of {(what == "PIECE" ? "a piece (`sandwichmech piece list` shows them)" : "an entry (`sandwichmech piece show NUMBER` shows them)")}: write it in digits, as 3");
    }

    private static PieceKind KindOf(string word) => Enum.Parse<PieceKind>(word, ignoreCase: true);

    private sealed class DescriptionOptions
    {
        private readonly Option<string?>
            _name = ReadingOptions.Value("--name", "Your own words for it", "TEXT"),
            _outer = ReadingOptions.Value("--outer-wood", "Wood of a sandwich's outer skin, by the tables or as \"piece 3\"", "WOOD"),
            _inner = ReadingOptions.Value("--inner-wood", "Wood of its inner skin", "WOOD"),
            _adhesive = ReadingOptions.Value("--adhesive", "Its adhesive by the tables", "NAME");

        private Option<string?>[] All => [_name, _outer, _inner, _adhesive];

        internal void AddTo(Command command)
        {
            foreach (Option<string?> option in All)
            {
                command.Options.Add(option);
            }
        }

        internal bool AreGiven(ParseResult parsed) => All.Any(o => parsed.GetValue(o) is not null);

        internal PieceWords Over(ParseResult parsed, PieceWords words) => words with
        {
            Name = parsed.GetValue(_name) ?? words.Name,
            OuterWood = parsed.GetValue(_outer) ?? words.OuterWood,
            InnerWood = parsed.GetValue(_inner) ?? words.InnerWood,
            Adhesive = parsed.GetValue(_adhesive) ?? words.Adhesive,
        };
    }
}
