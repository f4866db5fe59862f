using System.CommandLine;

namespace SandwichMech.App.Commands;

/// <summary>`completion SHELL`: the script that lets a shell complete commands, options and names.</summary>
internal static class CompletionCommand
{
    private static readonly Dictionary<string, string> Scripts = new()
    {
        ["bash"] = """
            _sandwichmech() {
              local IFS=$'\n'
              COMPREPLY=($(sandwichmech "[suggest:$COMP_POINT]" "$COMP_LINE" 2>/dev/null))
            }
            complete -o default -F _sandwichmech sandwichmech
            """,
        ["zsh"] = """
            _sandwichmech() {
              local -a found
              found=("${(@f)$(sandwichmech "[suggest:$CURSOR]" "$BUFFER" 2>/dev/null)}")
              compadd -- $found
              _files
            }
            compdef _sandwichmech sandwichmech
            """,
        ["fish"] = """
            complete -c sandwichmech -a '(sandwichmech "[suggest:"(commandline -C)"]" (commandline) 2>/dev/null)'
            """,
        ["pwsh"] = """
            Register-ArgumentCompleter -Native -CommandName sandwichmech -ScriptBlock {
              param($word, $line, $at)
              sandwichmech "[suggest:$at]" "$line" | ForEach-Object { [System.Management.Automation.CompletionResult]::new($_) }
            }
            """,
    };

    internal static Command Create(CommonOptions common)
    {
        var command = new WorkCommand("completion", "The script that lets your shell complete commands and options", "sandwichmech completion bash");
        var shell = new Argument<string>("SHELL") { Description = string.Join(", ", Scripts.Keys) };
        shell.AcceptOnlyFromAmong([.. Scripts.Keys]);
        command.Arguments.Add(shell);
        command.SetAction(parsed =>
        {
            common.Console.Out.WriteLine(Scripts[parsed.GetRequiredValue(shell)]);
            return Cli.Done;
        });
        return command;
    }
}
