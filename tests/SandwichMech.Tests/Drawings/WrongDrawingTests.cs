using CsCheck;
using SandwichMech.Workshop;
using SandwichMech.Workshop.Drawings;

namespace SandwichMech.Tests.Drawings;

/// <summary>Drawings that cannot be used: one line that says where, what, and how to mend it.</summary>
[Trait("Check", "exact")]
public class WrongDrawingTests
{
    private static string Message(string name, string text, DrawingWishes? wishes = null) => Message(name, DrawingWriter.Bytes(text), wishes);

    private static string Message(string name, byte[] bytes, DrawingWishes? wishes = null)
    {
        Problem p = Assert.Single(Assert.Throws<InputException>(() => DrawnOutline.Of(DrawingFiles.Parse(name, bytes, wishes))).Problems);
        Assert.DoesNotContain('\n', p.ToString());
        Assert.DoesNotContain("NaN", p.ToString(), StringComparison.Ordinal);
        Assert.StartsWith(name, p.ToString(), StringComparison.Ordinal);
        return p.ToString();
    }

    private static void Says(string message, params string[] words) => Assert.All(words, w => Assert.Contains(w, message, StringComparison.Ordinal));

    private static string Svg(string content) => DrawingWriter.SvgPage(content);

    private static string Dxf(string content, int unit = 4) => DrawingWriter.Dxf(content, unit);

    private static string G(params object[] groups) => DrawingWriter.Groups(groups);

    private static readonly string Board = DrawingWriter.Polyline("board", (0, 0, 0), (480, 0, 0), (480, 360, 0), (0, 360, 0));

    [Fact]
    public void Files_that_are_no_drawing()
    {
        Says(Message("a.svg", ""), "is empty", "SVG");
        Says(Message("a.dxf", " \n\n"), "is empty");
        Says(Message("a.svg", "<svg><path d='M0 0'"), "line 1", "not XML");
        Says(Message("a.svg", "<svg>\n<g></svg>"), "line 2", "not XML", "plain SVG");
        Says(Message("a.svg", "just words"), "not XML");
        Says(Message("a.svg", "<svg xmlns:\n='x'/>"), "not XML");
        Says(Message("a.svg", "<html><body/></html>"), "first element is <html>");
        Says(Message("a.dxf", [.. "Drafter Binary DXF\r\n"u8, 0x1A, 0, 0, 1]), "binary DXF", "ASCII DXF");
        Says(Message("a.dwg", [0x41, 0x43, 0, 0, 7]), "not a text file");
        Says(Message("a.svgz", [0x1F, 0x8B, 8, 0]), "compressed");
        Says(Message("a.dxf", "hello\nworld\n"), "line 1", "no DXF", "'hello'");
        Says(Message("a.dxf", Dxf(Board)[..^5]), "cut off");
        Says(Message("a.dxf", G(0, "SECTION", 2, "HEADER", 0, "ENDSEC", 0, "EOF")), "no ENTITIES");
        Says(Message("a.csv", "# only a comment\n"), "holds no points");
        Says(Message("a.csv", "x_mm,y_mm\n1,2\n3,4\n"), "only 2 points");
        Says(Message("a.txt", "one word\n"), "holds no points");
        Says(Message("notes.md", "# Notes\n\nSome words, and more words.\n"), "no drawing", ".csv");
        Says(Message("a.svg", new string(' ', 10_000_001)), "larger than 10 MB");
        Says(Message("a.csv", "x_mm,y_mm\n" + string.Join('\n', Enumerable.Range(0, 10_001).Select(i => $"{(i < 5000 ? i : 10_001 - i)},{(i < 5000 ? 0 : 100)}"))), "more than 10000 lines");
    }

    [Fact]
    public void Other_files_are_never_read()
    {
        string secret = Path.GetTempFileName();
        File.WriteAllText(secret, "M0 0H400V300H0Z");
        try
        {
            string message = Message("a.svg", $"<!DOCTYPE svg [<!ENTITY d SYSTEM \"file://{secret}\">]>\n<svg xmlns='http://www.w3.org/2000/svg'><path d='&d;'/></svg>");
            Says(message, "entity", "plain SVG");
            Says(Message("a.svg", Svg("<use href='other.svg#a'/>")), "'other.svg#a'", "other files are never read");
        }
        finally
        {
            File.Delete(secret);
        }

        // A document type alone does no harm.
        Assert.NotEmpty(DrawingFiles.Parse("a.svg", DrawingWriter.Bytes("<!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\" \"http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd\">\n<svg xmlns='http://www.w3.org/2000/svg' width='1000mm' height='1000mm' viewBox='0 0 1000 1000'><rect width='400' height='300'/></svg>")).Curves);
        // Entities that multiply.
        Says(Message("a.svg", "<!DOCTYPE svg [<!ENTITY a \"aaaa\"><!ENTITY b \"&a;&a;&a;&a;\">]>\n<svg id='&b;'/>"), "entity");
    }

    [Fact]
    public void Svg_that_cannot_be_read()
    {
        Says(Message("a.svg", Svg("<text>only words</text>")), "holds no line", "1 text");
        Says(Message("a.svg", Svg("<path id='p' d='M0 0 L10'/>")), "line 3", "<path> 'p'", "a number is wanted at its end");
        Says(Message("a.svg", Svg("<path d='M0 0 L10 x5'/>")), "a number is wanted at 'x5'");
        Says(Message("a.svg", Svg("<path d='L10 10'/>")), "begins with M");
        Says(Message("a.svg", Svg("<path d='M0 0 B1 1'/>")), "no command B");
        Says(Message("a.svg", Svg("<path d='M0 0 L1e999 0'/>")), "a number is wanted");
        Says(Message("a.svg", Svg("<path d='M0 0A10 10 0 2 0 5 5'/>")), "a flag 0 or 1");
        Says(Message("a.svg", Svg("<g transform='turn(30)'><rect width='400' height='300'/></g>")), "transform 'turn'");
        Says(Message("a.svg", Svg("<g transform='rotate(30'><rect width='400' height='300'/></g>")), "bracket");
        Says(Message("a.svg", Svg("<rect style='transform: rotate(30deg)' width='400' height='300'/>")), "in a style");
        Says(Message("a.svg", Svg("<rect width='4 parsecs' height='300'/>")), "parsecs", "use mm, cm, in");
        Says(Message("a.svg", Svg("<rect width='400em' height='300'/>")), "unit that is not read");
        Says(Message("a.svg", DrawingWriter.SvgPage("<rect width='400' height='300'/>", "viewBox='0 0 0 0' width='1mm'")), "has no size");
        Says(Message("a.svg", Svg("<g id='a'><use href='#a'/></g><rect width='400' height='300'/>")), "in a circle");
        Says(Message("a.svg", Svg(string.Concat(Enumerable.Repeat("<g>", 300)) + string.Concat(Enumerable.Repeat("</g>", 300)))), "nests");
    }

    [Fact]
    public void Dxf_that_cannot_be_read()
    {
        Says(Message("a.dxf", Dxf(G(0, "LINE", 8, "0", 10, 0, 20, 0, 30, 0, 11, 1, 21, 1, 31, 5))), "LINE", "heights from 0 to 5", "flatten");
        Says(Message("a.dxf", Dxf(G(0, "CIRCLE", 8, "0", 10, 0, 20, 0, 40, 200, 210, 1, 220, 0, 230, 0))), "does not lie in the plane");
        Says(Message("a.dxf", Dxf(G(0, "CIRCLE", 8, "a", 10, 0, 20, 0, 40, -5))), "radius -5");
        Says(Message("a.dxf", Dxf(G(0, "CIRCLE", 8, "a", 10, "nan", 20, 0, 40, 5))), "'nan'", "no number");
        Says(Message("a.dxf", Dxf(G(0, "CIRCLE", 8, "a", 10, "1e300", 20, 0, 40, 5))), "no number for a drawing");
        Says(Message("a.dxf", Dxf(G(0, "POLYLINE", 8, "a", 70, 16) + G(0, "VERTEX", 10, 0, 20, 0))), "mesh");
        Says(Message("a.dxf", Dxf(G(0, "SPLINE", 8, "a", 71, 3, 40, 0, 40, 1, 10, 0, 20, 0, 10, 1, 20, 1))), "SPLINE", "control points or more");
        Says(Message("a.dxf", Dxf(G(0, "INSERT", 8, "a", 2, "gone", 10, 0, 20, 0))), "'gone'", "not in the file");
        string self = G(0, "BLOCK", 8, "0", 2, "b", 10, 0, 20, 0) + G(0, "INSERT", 8, "0", 2, "b", 10, 0, 20, 0) + G(0, "ENDBLK", 8, "0");
        Says(Message("a.dxf", DrawingWriter.Dxf(G(0, "INSERT", 8, "0", 2, "b", 10, 0, 20, 0), 4, self)), "into itself");
        Says(Message("a.dxf", Dxf(G(0, "3DSOLID", 8, "0"))), "holds no line", "1 3DSOLID");
    }

    [Fact]
    public void Csv_that_cannot_be_read()
    {
        Says(Message("a.csv", "x_mm,y_in\n0,0\n1,0\n1,1\n"), "line 1", "two units");
        Says(Message("a.csv", "x_ell,y_ell\n0,0\n1,0\n1,1\n"), "'ell' is no unit");
        Says(Message("a.csv", "x_mm,y_mm\n0,0\n480,0\n480,twelve\n"), "line 4", "no row of two numbers");
        Says(Message("a.csv", "station_mm,half_width_mm\n0,0\n100,50\n90,60\n200,0\n"), "line 4", "rising order");
        Says(Message("a.csv", "station_mm,half_width_mm\n0,0\n100,-50\n200,0\n"), "line 3", "less than 0");
        // Half an outline: the way back along the centre line is longer than any step.
        Says(Message("a.csv", "x_mm,y_mm\n0,0\n60,150\n120,180\n240,120\n360,140\n480,0\n"), "is open", "480");
    }

    [Fact]
    public void Units_that_are_missing_or_wrong_with_the_one_that_would_do()
    {
        Says(Message("a.dxf", Dxf(Board, 0)), "does not say in which unit", "in mm its largest curve would be 480.0 mm long", "unit = \"mm\"", "--unit mm");
        Says(Message("a.dxf", Dxf(Board, 1)), "12192.0 mm", "no board", "in mm it would be 480.0 mm", "if that is meant");
        Says(Message("a.dxf", Dxf(Board, 4), new() { Unit = "m" }), "in m its largest curve", "--unit mm");
        Says(Message("a.dxf", Dxf(DrawingWriter.Polyline("a", (0, 0, 0), (19, 0, 0), (19, 14, 0)), 4)), "19.0 mm", "in in it would be 482.6 mm");
        Says(Message("a.svg", DrawingWriter.SvgPage("<rect width='19' height='14'/>", "")), "px of 1/96 in", "in in it would be 482.6 mm");
        Says(Message("a.csv", "0,0\n48,0\n48,36\n"), "does not say", "in cm");
        Says(Message("a.dxf", Dxf(DrawingWriter.Polyline("a", (0, 0, 0), (9e11, 0, 0), (9e11, 9e11, 0)), 4)), "no usual unit");
        Says(Message("a.dxf", Dxf(Board), new() { Unit = "stone" }), "'stone' is no unit");
    }

    [Fact]
    public void Curves_that_are_open_cross_or_leave_a_choice()
    {
        string gap = DrawingWriter.Line(new(0, 0), new(400, 0), "edge") + DrawingWriter.Line(new(400, 1.5), new(400, 600), "edge") + DrawingWriter.Line(new(400, 600), new(0, 600), "edge") + DrawingWriter.Line(new(0, 600), new(0, 0), "edge");
        Says(Message("a.dxf", Dxf(gap)), "'edge' is open by 1.5", "(400, 0)", "(400, 1.5)", "join");
        Says(Message("a.dxf", Dxf(gap + G(0, "CIRCLE", 8, "hole", 10, 200, 20, 300, 40, 60))), "open by 1.50 mm", "'hole'");
        Says(Message("a.dxf", Dxf(gap + G(0, "CIRCLE", 8, "hole", 10, 200, 20, 300, 40, 60)), new() { Part = "edge" }), "open by 1.50 mm");
        Says(Message("a.svg", Svg("<path id='bow' d='M0 0L480 360L480 0L0 360Z'/>")), "'bow' crosses itself at (240, 180)", "without a loop");
        Says(Message("a.svg", Svg("<path id='fold' d='M0 0H480V360H300V500V360H0Z'/>")), "'fold' runs back over itself");
        string two = "<rect id='left' width='300' height='400'/><rect id='right' x='400' width='300' height='401'/>";
        Says(Message("a.svg", Svg(two)), "several curves", "'left' (300.0 × 400.0 mm)", "'right' (300.0 × 401.0 mm)", "part = \"right\"");
        Says(Message("a.svg", Svg(two), new() { Part = "rihgt" }), "did you mean 'right'?");
        Says(Message("a.svg", Svg("<rect id='sheet' width='900' height='600'/><ellipse id='board' cx='300' cy='300' rx='250' ry='180'/>")), "rectangle 'sheet'", "'board'");
        Says(Message("a.svg", Svg("<path d='M0 0H400V390L200 380L100 300Z'/>")), "which way the grain runs", "along = \"up\"");
        DrawnOutline one = DrawnOutline.Of(DrawingFiles.Parse("a.svg", DrawingWriter.Bytes(Svg("<rect id='b' width='300' height='400'/>"))));
        Says(Assert.Throws<InputException>(() => one.InsideCurve("hole")).Message, "no closed curve 'hole'", "there is none at all");
    }

    [Fact]
    public void A_file_that_is_damaged_anywhere_is_read_or_refused_in_one_line() => Gen.Select(Gen.Int[0, 2], Gen.Int[0, 1 << 20], Gen.Char[' ', '~'], Gen.Int[0, 2]).Sample((which, place, letter, way) =>
    {
        string good = which switch
        {
            0 => Svg("<g transform='rotate(20)'><path id='a' d='M0 0C10 300 200 300 300 200S480 300 480 0A30 20 0 0 1 0 0Z'/></g>"),
            1 => Dxf(Board + G(0, "SPLINE", 8, "a", 71, 2, 40, 0, 40, 0, 40, 0, 40, 1, 40, 1, 40, 1, 10, 0, 20, 0, 10, 9, 20, 9, 10, 5, 20, 5) + G(0, "ELLIPSE", 8, "a", 10, 9, 20, 9, 11, 50, 21, 0, 40, 0.5)),
            _ => "x_mm,y_mm\n0,0\n480,0\n480,360\n0,360\n",
        };
        int at = place % good.Length;
        string bad = way switch { 0 => good[..at], 1 => good.Remove(at, 1), _ => good[..at] + letter + good[(at + 1)..] };
        try
        {
            DrawnOutline o = DrawnOutline.Of(DrawingFiles.Parse("a", DrawingWriter.Bytes(bad)));
            Assert.True(double.IsFinite(o.Area) && o.Area > 0);
        }
        catch (InputException e)
        {
            Assert.DoesNotContain("NaN", e.Message, StringComparison.Ordinal);
            Assert.DoesNotContain('\n', Assert.Single(e.Problems).ToString());
        }
    }, iter: 1500);
}
