using SandwichMech.Core.Outlines;

namespace SandwichMech.Workshop.Drawings;

/// <summary>Why a path or transform could not be read.</summary>
internal sealed class SvgSyntaxException(string message) : Exception(message);

/// <summary>Reads path data: the `d` of an SVG path (SVG 1.1, section 8.3).</summary>
internal sealed class SvgPath
{
    private readonly SvgScanner _scan;
    private readonly List<List<Bezier>> _strokes = [];
    private List<Bezier> _stroke = [];
    private Point _at, _start, _handle;
    // The letter of the last curve: a smooth one mirrors the handle of its own kind only.
    private char _last = ' ';

    private SvgPath(string d) => _scan = new(d);

    /// <summary>The strokes of a path, each a chain of segments.</summary>
    /// <exception cref="SvgSyntaxException">The data are wrong somewhere; the message says where.</exception>
    internal static List<List<Bezier>> Read(string d)
    {
        var path = new SvgPath(d);
        path.Read();
        return path._strokes;
    }

    private void Read()
    {
        char command = ' ';
        while (_scan.Letter() is var letter && (letter != ' ' || !_scan.AtEnd))
        {
            if (letter == ' ')
            {
                // More numbers repeat the last command; after a move they are lines.
                command = command switch { 'M' => 'L', 'm' => 'l', _ => command };
            }
            else
            {
                command = letter;
            }

            if (command is ' ' or 'Z' or 'z' && letter == ' ') { throw _scan.Wrong("a command is wanted, such as M or L"); }
            if (_strokes.Count == 0 && _stroke.Count == 0 && _last == ' ' && char.ToUpperInvariant(command) != 'M') { throw _scan.Wrong("a path begins with M"); }
            Step(char.ToUpperInvariant(command), char.IsAsciiLetterLower(command));
            _last = char.ToUpperInvariant(command);
        }

        End();
    }

    private void Step(char command, bool relative)
    {
        Point origin = relative ? _at : new(0, 0);
        switch (command)
        {
            case 'M':
                End();
                _at = _start = origin + Pair();
                break;
            case 'Z':
                LineTo(_start);
                End();
                break;
            case 'L':
                LineTo(origin + Pair());
                break;
            case 'H':
                LineTo(new(origin.X + _scan.Number(), _at.Y));
                break;
            case 'V':
                LineTo(new(_at.X, origin.Y + _scan.Number()));
                break;
            case 'C':
                CurveTo(origin + Pair(), origin + Pair(), origin + Pair());
                break;
            case 'S':
                CurveTo(_last is 'C' or 'S' ? 2 * _at - _handle : _at, origin + Pair(), origin + Pair());
                break;
            case 'Q':
                QuadraticTo(origin + Pair(), origin + Pair());
                break;
            case 'T':
                QuadraticTo(_last is 'Q' or 'T' ? 2 * _at - _handle : _at, origin + Pair());
                break;
            case 'A':
                double rx = _scan.Number(), ry = _scan.Number(), turn = _scan.Number() * Math.PI / 180;
                bool large = _scan.Flag(), rises = _scan.Flag();
                ArcTo(Math.Abs(rx), Math.Abs(ry), turn, large, rises, origin + Pair());
                break;
            default:
                throw _scan.Wrong($"there is no command {command}");
        }
    }

    private Point Pair() => new(_scan.Number(), _scan.Number());

    private void End()
    {
        if (_stroke.Count > 0) { _strokes.Add(_stroke); }
        _stroke = [];
        _at = _start;
    }

    private void LineTo(Point to)
    {
        if (to != _at) { _stroke.Add(Bezier.Line(_at, to)); }
        _at = to;
    }

    private void CurveTo(Point first, Point second, Point to)
    {
        _stroke.Add(new(_at, first, second, to));
        (_at, _handle) = (to, second);
    }

    private void QuadraticTo(Point control, Point to)
    {
        _stroke.Add(new(_at, _at + 2.0 / 3 * (control - _at), to + 2.0 / 3 * (control - to), to));
        (_at, _handle) = (to, control);
    }

    // SVG 1.1, F.6.5 and F.6.6: from the ends to the centre; radii too small to reach are enlarged.
    private void ArcTo(double rx, double ry, double turn, bool large, bool rises, Point to)
    {
        if (to == _at) { return; }
        if (rx == 0 || ry == 0)
        {
            LineTo(to);
            return;
        }

        Point half = (0.5 * (_at - to)).Turned(-turn);
        double reach = half.X * half.X / (rx * rx) + half.Y * half.Y / (ry * ry);
        double enlarged = Math.Sqrt(Math.Max(1, reach));
        (rx, ry) = (enlarged * rx, enlarged * ry);
        double offset = (large == rises ? -1 : 1) * Math.Sqrt(Math.Max(0, 1 / Math.Max(reach, double.Epsilon) - 1));
        if (reach >= 1) { offset = 0; }
        Point centre = new(offset * rx * half.Y / ry, -offset * ry * half.X / rx);
        Point from = new((half.X - centre.X) / rx, (half.Y - centre.Y) / ry), end = new((-half.X - centre.X) / rx, (-half.Y - centre.Y) / ry);
        double sweep = from.AngleTo(end);
        if (rises && sweep < 0) { sweep += 2 * Math.PI; }
        if (!rises && sweep > 0) { sweep -= 2 * Math.PI; }
        Point middle = centre.Turned(turn) + 0.5 * (_at + to);
        Bezier[] arc = [.. Shapes.EllipseArc(middle, new Point(rx, 0).Turned(turn), new Point(0, ry).Turned(turn), Math.Atan2(from.Y, from.X), sweep).Segments];
        // The ends are as written, not as computed.
        arc[0] = arc[0] with { P0 = _at };
        arc[^1] = arc[^1] with { P3 = to };
        _stroke.AddRange(arc);
        _at = to;
    }
}
