using System.Globalization;

namespace SandwichMech.Workshop.Drawings;

/// <summary>Takes commands, numbers and flags from path data, point lists and transforms, where separators may be left out.</summary>
internal sealed class SvgScanner(string text)
{
    private int _at;

    internal bool AtEnd
    {
        get
        {
            Skip();
            return _at >= text.Length;
        }
    }

    /// <summary>A letter, if one comes next; else a space.</summary>
    internal char Letter()
    {
        Skip();
        return _at < text.Length && char.IsAsciiLetter(text[_at]) ? text[_at++] : ' ';
    }

    /// <summary>A name with its opening bracket, as "rotate(".</summary>
    internal string Function()
    {
        Skip();
        int open = text.IndexOf('(', _at);
        if (open < 0) { throw Wrong("a bracket is wanted"); }
        string name = text[_at..open].Trim();
        _at = open + 1;
        return name;
    }

    /// <summary>Whether a closing bracket comes next, which is then passed.</summary>
    internal bool Closes()
    {
        Skip();
        if (_at >= text.Length) { throw Wrong("a closing bracket is wanted"); }
        if (text[_at] != ')') { return false; }
        _at++;
        return true;
    }

    internal double Number()
    {
        Skip();
        int end = _at;
        if (end < text.Length && text[end] is '+' or '-') { end++; }
        end = Digits(end);
        if (end < text.Length && text[end] == '.') { end = Digits(end + 1); }
        if (end < text.Length && text[end] is 'e' or 'E')
        {
            int exponent = end + 1 < text.Length && text[end + 1] is '+' or '-' ? end + 2 : end + 1;
            int behind = Digits(exponent);
            if (behind > exponent) { end = behind; }
        }

        if (MachineNumber.Read(text.AsSpan(_at, end - _at)) is not { } value) { throw Wrong("a number is wanted"); }
        _at = end;
        return value;
    }

    /// <summary>0 or 1, behind which a separator may be left out.</summary>
    internal bool Flag()
    {
        Skip();
        if (_at >= text.Length || text[_at] is not ('0' or '1')) { throw Wrong("a flag 0 or 1 is wanted"); }
        return text[_at++] == '1';
    }

    internal SvgSyntaxException Wrong(string wanted)
    {
        string rest = _at >= text.Length ? "at its end" : $"at '{Units.TypedText.Short(Units.TypedText.OneLine(text[_at..Math.Min(text.Length, _at + 20)]))}' (character {(_at + 1).ToString(CultureInfo.InvariantCulture)})";
        return new($"{wanted} {rest}");
    }

    private void Skip()
    {
        while (_at < text.Length && (char.IsWhiteSpace(text[_at]) || text[_at] == ',')) { _at++; }
    }

    private int Digits(int at)
    {
        while (at < text.Length && char.IsAsciiDigit(text[at])) { at++; }
        return at;
    }
}
