using System.Text;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop;
using SkiaSharp;

namespace SandwichMech.Figures;

/// <summary>A picture ready to be written: panels with axes and curves, and words on top of them.</summary>
public sealed class Picture
{
    private readonly List<Panel> _panels = [];
    private readonly List<Words> _words = [];

    internal Picture(string title, int width, int height) => (Title, Width, Height) = (title, width, height);

    /// <summary>Width, pixels.</summary>
    public int Width { get; }

    /// <summary>Height, pixels.</summary>
    public int Height { get; }

    /// <summary>What it shows, in one line.</summary>
    public string Title { get; }

    internal IReadOnlyList<Panel> Panels => _panels;

    internal IReadOnlyList<Words> Words => _words;

    /// <summary>Writes the picture whole or not at all.</summary>
    /// <param name="path">A file name that ends in .png or .svg; an existing file is replaced.</param>
    /// <returns>The file that was written. Without any font on the machine a .png would have no words: the .svg of the same name is written in its place, and the note says so.</returns>
    /// <exception cref="InputException">The name ends in something else.</exception>
    /// <exception cref="IOException">The file cannot be written; the message says which and why.</exception>
    public SavedPicture Save(string path) => Save(path, Fonts.OfThisMachine);

    /// <summary>Refuses a name that no picture can have, before anything is done.</summary>
    /// <param name="path">The name.</param>
    /// <exception cref="InputException">It ends in something else than .png or .svg.</exception>
    public static void CheckName(string path)
    {
        if (Path.GetExtension(path).ToUpperInvariant() is not (".PNG" or ".SVG")) { throw NoPicture(path); }
    }

    internal SavedPicture Save(string path, Func<string, bool, SKTypeface?> fonts)
    {
        switch (Path.GetExtension(path).ToUpperInvariant())
        {
            case ".SVG":
                WholeFile.Write(path, Encoding.UTF8.GetBytes(Svg()), "the picture");
                return new(path, null);
            case ".PNG" when Fonts.AnyUsable(fonts):
                WholeFile.Write(path, Png(fonts), "the picture");
                return new(path, null);
            case ".PNG":
                string beside = Path.ChangeExtension(path, ".svg");
                WholeFile.Write(beside, Encoding.UTF8.GetBytes(Svg()), "the picture");
                return new(beside, $"no font was found on this machine and {Path.GetFileName(path)} would have no words: wrote {Path.GetFileName(beside)} instead; for a .png {Fonts.HowToInstall}");
            default:
                throw NoPicture(path);
        }
    }

    internal void Add(Panel panel) => _panels.Add(panel);

    internal void Add(Words words) => _words.Add(words);

    internal string Svg()
    {
        using var stream = new MemoryStream();
        using (SKCanvas canvas = SKSvgCanvas.Create(new SKRect(0, 0, Width, Height), stream))
        {
            DrawShapes(canvas);
        }

        return SvgDocument.Write(Encoding.UTF8.GetString(stream.ToArray()), Title, _words);
    }

    private static InputException NoPicture(string path) => new(path, "a picture is written as .png or as .svg: end its name in one of them");

    private byte[] Png(Func<string, bool, SKTypeface?> fonts)
    {
        using var surface = SKSurface.Create(new SKImageInfo(Width, Height, SKColorType.Rgba8888, SKAlphaType.Premul));
        DrawShapes(surface.Canvas);
        using SKTypeface? regular = Fonts.Find(fonts, bold: false), bold = Fonts.Find(fonts, bold: true);
        foreach (Words words in _words)
        {
            Draw(surface.Canvas, words, words.Bold ? bold ?? regular : regular);
        }

        using SKImage image = surface.Snapshot();
        using SKData data = image.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    private void DrawShapes(SKCanvas canvas)
    {
        using var paper = new SKPaint { Color = SKColors.White };
        using var nothing = new SKNoDrawCanvas(Width, Height);
        canvas.DrawRect(0, 0, Width, Height, paper);
        var all = new ScottPlot.PixelRect(0, Width, Height, 0);
        foreach (Panel panel in _panels)
        {
            // A plot draws itself twice the first time, and what is half transparent would come out darker than later.
            if (panel.Plot.RenderManager.RenderCount == 0)
            {
                panel.Plot.Render(nothing, all);
            }

            panel.Plot.Render(canvas, all);
        }
    }

    private static void Draw(SKCanvas canvas, Words words, SKTypeface? face)
    {
        using var font = new SKFont(face, (float)words.Size) { Subpixel = true, Hinting = SKFontHinting.None };
        using var paint = new SKPaint { IsAntialias = true, Color = SKColor.Parse(words.Colour) };
        SKTextAlign align = words.Anchor switch { Anchor.Start => SKTextAlign.Left, Anchor.Middle => SKTextAlign.Center, _ => SKTextAlign.Right };
        float x = (float)words.X, baseline = (float)(words.Y + Drawing.Words.CapitalMiddle * words.Size);
        canvas.Save();
        canvas.RotateDegrees((float)words.Angle, x, (float)words.Y);
        if (words.Halo)
        {
            using var rim = new SKPaint
            {
                IsAntialias = true,
                Color = SKColors.White,
                IsStroke = true,
                StrokeWidth = (float)SvgDocument.HaloWidth(words),
                StrokeJoin = SKStrokeJoin.Round,
            };
            canvas.DrawText(words.Text, x, baseline, align, font, rim);
        }

        canvas.DrawText(words.Text, x, baseline, align, font, paint);
        canvas.Restore();
    }
}
