using System.Text;
using SandwichMech.App;

Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
return Cli.Run(args, new(Console.In, Console.Out, Console.Error, !Console.IsOutputRedirected, !Console.IsInputRedirected));
