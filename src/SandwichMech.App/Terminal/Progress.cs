using System.Diagnostics;
using System.Globalization;

namespace SandwichMech.App.Terminal;

/// <summary>Says how far a long computation is, one plain line each tenth, once it has taken over a second.</summary>
internal sealed class Progress(TextWriter err)
{
    private readonly Stopwatch _since = Stopwatch.StartNew();
    private int _saidTenths;

    internal void Report(double done)
    {
        int tenths = (int)(done * 10);
        if (tenths > _saidTenths && _since.Elapsed.TotalSeconds > 1)
        {
            _saidTenths = tenths;
            err.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{tenths * 10} % done"));
        }
    }
}
