using SandwichMech.App;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>One run of the command line, in this process, from the checkout's root.</summary>
internal sealed record Commanded(int Code, string Out, string Err)
{
    /// <summary>Runs a command from its words.</summary>
    internal static Commanded Run(params string[] words) => WithAnswers("", words);

    /// <summary>Runs a command that asks, with the answers to give.</summary>
    internal static Commanded WithAnswers(string answers, params string[] words)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        int code = Cli.Run(words, new(new StringReader(answers), output, error, IsTerminal: false, CanAsk: true));
        return new(code, output.ToString(), error.ToString());
    }

    /// <summary>The demo board.</summary>
    internal static string Demo { get; } = Repository.File("shared", "demo", "board.toml");

    /// <summary>Splits a line as a shell does: blanks part words, double quotes keep them together, \" is a quote within.</summary>
    internal static string[] Words(string line)
    {
        var words = new List<string>();
        var word = new System.Text.StringBuilder();
        bool quoted = false, any = false;
        for (int i = 0; i < line.Length; i++)
        {
            char c = line[i];
            if (c == '"')
            {
                (quoted, any) = (!quoted, true);
            }
            else if (c == ' ' && !quoted)
            {
                if (any || word.Length > 0)
                {
                    words.Add(word.ToString());
                }

                word.Clear();
                any = false;
            }
            else
            {
                word.Append(c);
            }
        }

        if (any || word.Length > 0)
        {
            words.Add(word.ToString());
        }

        return [.. words];
    }
}

/// <summary>A folder that goes away with the test.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    /// <summary>Its path.</summary>
    internal string Path { get; } = Directory.CreateTempSubdirectory("sandwichmech-").FullName;

    /// <summary>A file in it.</summary>
    internal string File(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
