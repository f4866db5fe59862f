using System.Diagnostics;
using System.Globalization;

namespace SandwichMech.App.Terminal;

/// <summary>Tells how far something long has come, on the error stream, once it has taken a second.</summary>
internal sealed class Progress(TextWriter err)
{
    private readonly Lock _lock = new();
    private readonly Stopwatch _since = Stopwatch.StartNew();
    private int _saidTenths;
    private string _said = "";

    internal void Report(double done) => Report("", done);

    /// <summary>The same of one of several things, from any thread.</summary>
    internal void Report(string what, double done)
    {
        lock (_lock)
        {
            int tenths = (int)(done * 10);
            string thing = what.Split(':')[0];
            if (thing != _said) { (_said, _saidTenths) = (thing, 0); }
            if (tenths > _saidTenths && _since.Elapsed.TotalSeconds > 1)
            {
                _saidTenths = tenths;
                err.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{(what.Length > 0 ? $"{what}, " : "")}{tenths * 10} % done"));
            }
        }
    }
}
