using SandwichMech.Core.Choosing;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;
using MarkerShape = ScottPlot.MarkerShape;

namespace SandwichMech.Figures;

/// <summary>Four panels over one thickness: stiffness along and across with the solid of equal stiffness, mass with what is saved, and the first modes.</summary>
internal sealed class OneThickness(Picture picture, SweepResult r, Say say)
{
    private const int MostMarked = 15, MostModes = 3;
    private const double LineStep = 20, Wide = 0.15, Likely = 0.25;
    private static readonly Stroke Solid = Palette.Solids[0];
    private readonly double[] _x = [.. r.Rows.Select(row => say.In(row.Values[0], Shown.Thickness))];
    private readonly Scale _across = SweepPicture.Across(r, say);

    internal void Draw()
    {
        bool guidesAcross = r.Criterion == BoardFields.NameOf(StiffnessCriterion.Across);
        Stiffness(SweepPicture.Place(0, 0), "along", row => new(row.StiffnessAlong, row.StiffnessAlongLow50, row.StiffnessAlongHigh50, row.StiffnessAlongLow90, row.StiffnessAlongHigh90, []), r.NamedSolid?[0], !guidesAcross);
        Stiffness(SweepPicture.Place(1, 0), "across", row => new(row.StiffnessAcross, row.StiffnessAcrossLow50, row.StiffnessAcrossHigh50, row.StiffnessAcrossLow90, row.StiffnessAcrossHigh90, []), r.NamedSolid?[1], guidesAcross);
        Mass(SweepPicture.Place(0, 1));
        if (r.Rows.All(row => row.Modes.Count > 0))
        {
            Modes(SweepPicture.Place(1, 1));
            Header.Foot(picture, r.Edge is null
                ? $"Modes: {r.Means}."
                : $"Modes on the board's outline, edge {r.Edge}, with the air on both faces; numerical error at most {(100 * r.RelativeNumericalError!.Value).ToString("F2", System.Globalization.CultureInfo.InvariantCulture)} %.");
        }
        else
        {
            Equal(SweepPicture.Place(1, 1));
        }
    }

    private void Stiffness(Box place, string word, Func<SweepRow, Prediction> pick, double? named, bool guides)
    {
        double D(double si) => say.In(si, Shown.BendingStiffness);
        var rows = r.Rows.Select(pick).ToList();
        double low = D(rows.Min(d => d.Low90)), high = D(rows.Max(d => d.High90));
        double? level = named is { } n ? D(n) : null, solid = SweepPicture.Near(level, low, high);
        var panel = new Panel(picture, place, _across, Scale.Around(Math.Min(low, solid ?? low), Math.Max(high, solid ?? high), 7));
        panel.WriteTicks();
        panel.WriteTitles(SweepPicture.TitleOf(r.Varied[0], say), $"bending stiffness {word}, {say.Unit(Shown.BendingStiffness)}", place.Left - SweepPicture.LeftRoom);
        Bands(panel, rows, D);
        if (guides)
        {
            Guides(panel, [.. rows.Select(d => D(d.Value))], solid);
        }

        DrawLine(panel, rows.Select(d => D(d.Value)), Palette.Board);
        SweepPicture.NamedSolid(panel, r, say, level);
    }

    /// <summary>From the curve to the right edge at round thicknesses of the solid: as a scale of its own.</summary>
    private void Guides(Panel panel, double[] stiffness, double? named)
    {
        double[] solids = [.. r.Rows.Select(row => say.In(row.SolidThickness, Shown.Thickness))];
        Box data = panel.Data;
        string wood = TextWidth.Fit(r.SolidWood, 190, Panel.TickSize);
        picture.Add(new Words($"as stiff as solid {wood}, {say.Unit(Shown.Thickness)}", data.Right + SweepPicture.RightRoom, data.Top - 24, Panel.TickSize) { Anchor = Anchor.End, Colour = Solid.Colour });
        double lastY = double.PositiveInfinity;
        foreach (Tick tick in solids.Min() < solids.Max() ? Scale.Linear(solids.Min(), solids.Max(), 6).Ticks : [])
        {
            (double x, double y) = CurvePoint(solids, stiffness, tick.Value);
            double pixel = panel.PixelY(y);
            if (lastY - pixel < 18)
            {
                continue;
            }

            // The line of the solid that the file names serves as its own guide.
            if (named is not { } level || Math.Abs(panel.PixelY(level) - pixel) > 6)
            {
                // The thinnest of lines, as the grid is: words may stand on it, and none is cut for its sake.
                panel.Line([(x, y), (_across.High, y)], new(Solid.Colour, 1.2, Dash.Dotted), keepClear: false);
            }

            picture.Add(new Words(tick.Label, data.Right + 10, pixel, Panel.TickSize) { Colour = Solid.Colour });
            lastY = pixel;
        }
    }

    /// <summary>Where on the curve the solid has a given thickness; straight between the rows.</summary>
    private (double X, double Y) CurvePoint(double[] solids, double[] stiffness, double thickness)
    {
        int i = Enumerable.Range(1, solids.Length - 1).First(k => (solids[k - 1] - thickness) * (solids[k] - thickness) <= 0);
        double share = solids[i] == solids[i - 1] ? 0 : (thickness - solids[i - 1]) / (solids[i] - solids[i - 1]);
        return (_x[i - 1] + share * (_x[i] - _x[i - 1]), stiffness[i - 1] + share * (stiffness[i] - stiffness[i - 1]));
    }

    private void Mass(Box place)
    {
        double G(double si) => say.In(si, Shown.Mass);
        var own = r.Rows.Select(row => new Prediction(row.Mass, row.MassLow50, row.MassHigh50, row.MassLow90, row.MassHigh90, [])).ToList();
        double[] board = [.. r.Rows.Select(row => G(row.Mass))], solid = [.. r.Rows.Select(row => say.In(row.Mass + row.Saved, Shown.Mass))];
        Scale mass = Scale.Around(Math.Min(G(own.Min(m => m.Low90)), solid.Min()), Math.Max(G(own.Max(m => m.High90)), solid.Max()), 7);
        var panel = new Panel(picture, place, _across, mass);
        panel.WriteTicks();
        panel.WriteTitles(SweepPicture.TitleOf(r.Varied[0], say), $"mass, {say.Unit(Shown.Mass)}", place.Left - SweepPicture.LeftRoom);
        ArealDensityScale(panel);
        Bands(panel, own, G);
        DrawLine(panel, board, Palette.Board);
        DrawLine(panel, solid, Solid);
        // Where the gap is widest, short of the ends where the lines' names stand.
        int k = Enumerable.Range(r.Rows.Count / 4, r.Rows.Count * 3 / 5 - r.Rows.Count / 4 + 1).MaxBy(i => Math.Abs(r.Rows[i].Saved));
        SweepRow at = r.Rows[k];
        panel.Arrow((_x[k], solid[k]), (_x[k], board[k]), new(Palette.Ink, 2));
        string amount = $"{(at.Saved >= 0 ? "saves" : "costs")} {say.Text(Math.Abs(at.Saved), Shown.Mass)}", share = $"({Say.Percent(Math.Abs(at.Saved / (at.Mass + at.Saved)))})";
        panel.Write(BesideArrow(panel.PixelX(_x[k]), panel.PixelY(solid[k]), panel.PixelY(board[k]), amount, share), needed: true);
        SweepPicture.Label(panel, _x.Zip(board), "the board", Palette.Board.Colour, above: board[^1] > solid[^1]);
        SweepPicture.Label(panel, _x.Zip(solid), $"solid {r.SolidWood}, as stiff", Solid.Colour, above: board[^1] <= solid[^1]);
    }

    // Beside the arrow, half-way down first, on one line or on two: lines that rise to the right leave most room below and right of it.
    private static IEnumerable<Words[]> BesideArrow(double x, double from, double to, string amount, string share)
    {
        foreach (string[] lines in new string[][] { [$"{amount} {share}"], [amount, share] })
        {
            foreach (double part in new[] { 0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2 })
            {
                foreach (Anchor anchor in new[] { Anchor.Start, Anchor.End })
                {
                    double y = from + part * (to - from) - (lines.Length - 1) * LineStep / 2;
                    yield return Block(lines, anchor == Anchor.Start ? x + 10 : x - 10, y, anchor);
                }
            }
        }

        // Lines too near each other for words between them.
        for (double off = 24; off < 120; off += LineStep / 2)
        {
            yield return Block([$"{amount} {share}"], x, Math.Max(from, to) + off, Anchor.Middle);
            yield return Block([$"{amount} {share}"], x, Math.Min(from, to) - off, Anchor.Middle);
        }

        static Words[] Block(string[] lines, double x, double y, Anchor anchor) =>
            [.. lines.Select((line, i) => new Words(line, x, y + i * LineStep, SweepPicture.LabelSize) { Anchor = anchor, Bold = true, Halo = true })];
    }

    /// <summary>The same heights read as mass per area, on the right: the area is one and the same.</summary>
    private void ArealDensityScale(Panel panel)
    {
        // With let-in wood mass is not all on one areal density.
        if (r.Rows.Any(row => Math.Abs(row.ArealDensity / row.Mass * r.Rows[0].Mass / r.Rows[0].ArealDensity - 1) > 1e-6)) { return; }
        double perMass = say.In(r.Rows[0].ArealDensity, Shown.ArealDensity) / say.In(r.Rows[0].Mass, Shown.Mass);
        Scale areal = Scale.Linear(panel.Y.Low * perMass, panel.Y.High * perMass, 6);
        foreach (Tick tick in areal.Ticks)
        {
            picture.Add(new Words(tick.Label, panel.Data.Right + 10, panel.PixelY(tick.Value / perMass), Panel.TickSize) { Colour = Palette.Muted });
        }

        picture.Add(new Words($"per area, {say.Unit(Shown.ArealDensity)}", panel.Data.Right + SweepPicture.RightRoom, panel.Data.Top - 24, Panel.TickSize) { Anchor = Anchor.End, Colour = Palette.Muted });
    }

    private void Modes(Box place)
    {
        int count = Math.Min(MostModes, r.Rows.Min(row => row.Modes.Count));
        var panel = new Panel(picture, place, _across, Scale.Around(r.Rows.Min(row => row.ModesLow90.Take(count).Min()), r.Rows.Max(row => row.ModesHigh90.Take(count).Max()), 7));
        panel.WriteTicks();
        panel.WriteTitles(SweepPicture.TitleOf(r.Varied[0], say), $"lowest modes{(r.RelativeNumericalError is null ? ", approximate" : " in air")}, {say.Unit(Shown.Frequency)}", place.Left - SweepPicture.LeftRoom);
        string[] names = ["first", "second", "third"];
        for (int i = 0; i < count; i++)
        {
            Bands(panel, [.. r.Rows.Select(row => new Prediction(row.Modes[i], row.ModesLow50[i], row.ModesHigh50[i], row.ModesLow90[i], row.ModesHigh90[i], []))], hz => hz);
        }

        for (int i = 0; i < count; i++)
        {
            DrawLine(panel, r.Rows.Select(row => row.Modes[i]), Palette.Board with { Dash = (Dash)i });
        }

        for (int i = 0; i < count; i++)
        {
            SweepPicture.Label(panel, r.Rows.Select((row, k) => (_x[k], row.Modes[i])), names[i], Palette.Board.Colour, above: true);
        }
    }

    private void Equal(Box place)
    {
        double[] solids = [.. r.Rows.Select(row => say.In(row.SolidThickness, Shown.Thickness))];
        var panel = new Panel(picture, place, _across, Scale.Around(solids.Min(), solids.Max(), 7));
        panel.WriteTicks();
        panel.WriteTitles(SweepPicture.TitleOf(r.Varied[0], say), $"solid of equal stiffness, {say.Unit(Shown.Thickness)}", place.Left - SweepPicture.LeftRoom);
        DrawLine(panel, solids, Solid);
    }

    /// <summary>Both intervals, the 50 % one darker within the 90 % one.</summary>
    private void Bands(Panel panel, IReadOnlyList<Prediction> rows, Func<double, double> shown)
    {
        panel.Band(rows.Zip(_x, (p, x) => (x, shown(p.Low90), shown(p.High90))), Palette.Board.Colour, Wide);
        panel.Band(rows.Zip(_x, (p, x) => (x, shown(p.Low50), shown(p.High50))), Palette.Board.Colour, Likely);
    }

    private void DrawLine(Panel panel, IEnumerable<double> y, Stroke stroke)
    {
        (double, double)[] points = [.. _x.Zip(y)];
        panel.Line(points, stroke);
        if (points.Length <= MostMarked)
        {
            panel.Points(points, MarkerShape.FilledCircle, 7, stroke.Colour);
        }
    }
}
