using System.Globalization;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;
using MarkerShape = ScottPlot.MarkerShape;

namespace SandwichMech.Figures;

/// <summary>Stiffness over mass of the boards than which none is both lighter and stiffer, and below it the level that they gain or lose beside the chosen one.</summary>
internal sealed class ChoosePicture
{
    private const int Width = 1100, Height = 960;
    private const double Left = 105, Right = 1050, LabelSize = 15;
    private static readonly Box Upper = new(Left, 165, Right, 570), Lower = new(Left, 670, Right, 825);

    private readonly Picture _picture;
    private readonly ChooseResult _r;
    private readonly ChosenRow _best;
    private readonly Say _say;
    private readonly Scale _mass;
    private readonly FrontRow? _own;

    private ChoosePicture(ChooseResult r, ChosenRow best, Say say)
    {
        (_r, _best, _say) = (r, best, say);
        _picture = new Picture($"{r.Board}: what lightness costs", Width, Height);
        double[] masses = [.. r.Front.Select(f => M(f.Mass)), M(best.Mass), .. NearSolid is { } solid ? [M(solid.Mass)] : Array.Empty<double>()];
        _mass = Scale.Around(masses.Min() * 0.99, masses.Max() * 1.005, 9);
        _own = r.Front.FirstOrDefault(f => f.Fields.SequenceEqual(best.Fields));
    }

    internal static Picture Of(ChooseResult r, ChosenRow best, UnitSystem units)
    {
        var picture = new ChoosePicture(r, best, new(units));
        picture.Draw();
        return picture._picture;
    }

    private (double Mass, double Stiffness)? NearSolid => _r is { SolidMass: { } m, SolidStiffness: { } d } && m < 1.8 * _best.Mass ? (m, d) : null;

    private void Draw()
    {
        Header.Write(_picture, _r.Board, "what lightness costs",
        [
            $"Chosen: {_say.Text(_best.Mass, Shown.Mass)}, {Short(_best.Fields)}; chance {Say.Percent(_best.Chance)} to meet all of:",
            string.Join("; ", _r.Targets),
        ]);
        Panel upper = Stiffness();
        Level();
        Header.Foot(_picture, "On the line no board is both lighter and stiffer than another; each meets all targets but those of stiffness.",
            "Level: by mass and stiffness of the layup alone.");
        Names(upper);
    }

    private Panel Stiffness()
    {
        double[] stiffness = [.. _r.Front.Select(f => D(f.Stiffness)), .. NearSolid is { } s ? [D(s.Stiffness)] : Array.Empty<double>()];
        var panel = new Panel(_picture, Upper, _mass, Scale.Around(stiffness.Min(), stiffness.Max(), 7));
        panel.WriteTicks();
        panel.WriteTitles($"mass, {_say.Unit(Shown.Mass)}", $"{_r.Traded}, {_say.Unit(Shown.BendingStiffness)}", Left - 60);
        panel.Line(_r.Front.Select(f => (M(f.Mass), D(f.Stiffness))), Palette.Board);
        panel.Points(_r.Front.Where(f => f != _own).Select(f => (M(f.Mass), D(f.Stiffness))), MarkerShape.FilledCircle, 9, Palette.Board.Colour);
        if (NearSolid is { } solid)
        {
            panel.Points([(M(solid.Mass), D(solid.Stiffness))], MarkerShape.FilledSquare, 13, Palette.Solids[0].Colour);
        }

        panel.Points([(M(_best.Mass), D(Chosen))], MarkerShape.FilledDiamond, 18, Palette.Ink);
        return panel;
    }

    private void Names(Panel panel)
    {
        panel.Write(AroundPoint.Places(panel.PixelX(M(_best.Mass)), panel.PixelY(D(Chosen)), new Words("", 0, 0, LabelSize) { Bold = true }, ["chosen"], AroundPoint.Left), needed: true);
        if (NearSolid is { } solid)
        {
            panel.Write(AroundPoint.Places(panel.PixelX(M(solid.Mass)), panel.PixelY(D(solid.Stiffness)), new Words("", 0, 0, LabelSize) { Bold = true, Colour = Palette.Solids[0].Colour }, ["your solid top"], AroundPoint.Left), needed: true);
        }

        foreach (FrontRow f in _r.Front.Where(f => f != _own))
        {
            panel.Write(AroundPoint.Places(panel.PixelX(M(f.Mass)), panel.PixelY(D(f.Stiffness)), new Words("", 0, 0, 13) { Colour = Palette.Muted }, [Short(f.Fields)], AroundPoint.Right), needed: false);
        }
    }

    private void Level()
    {
        double[] level = [.. _r.Front.Select(f => f.LevelChange), 0];
        var panel = new Panel(_picture, Lower, _mass, Scale.Around(level.Min() - 0.3, level.Max() + 0.3, 5));
        panel.WriteTicks();
        panel.WriteTitles($"mass, {_say.Unit(Shown.Mass)}", "louder than the chosen board, dB", Left - 60);
        panel.Line([(_mass.Low, 0), (_mass.High, 0)], new(Palette.Frame, 1.2, Dash.Dotted));
        panel.Line(_r.Front.Select(f => (M(f.Mass), f.LevelChange)), Palette.Board);
        panel.Points(_r.Front.Where(f => f != _own).Select(f => (M(f.Mass), f.LevelChange)), MarkerShape.FilledCircle, 9, Palette.Board.Colour);
        panel.Points([(M(_best.Mass), 0)], MarkerShape.FilledDiamond, 18, Palette.Ink);
    }

    private double Chosen => _r.ChosenStiffness!.Value;

    private double M(double mass) => _say.In(mass, Shown.Mass);

    private double D(double stiffness) => _say.In(stiffness, Shown.BendingStiffness);

    // "0.7 mm / 2 mm / 0.45 mm": the values alone; what they are of stands in the table.
    private static string Short(IReadOnlyList<ChosenField> fields) => string.Join(", ", fields.Select(f => string.Create(CultureInfo.InvariantCulture, $"{Part(f.Field)} {f.Value}")));

    private static string Part(string field) => field.Replace(".thickness", "", StringComparison.Ordinal).Replace(".height", "", StringComparison.Ordinal).Replace('.', ' ').Replace('_', ' ');
}
