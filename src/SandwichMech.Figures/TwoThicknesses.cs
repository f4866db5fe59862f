using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Figures;

/// <summary>Four panels over the first thickness, one line for each value of the second: light to dark as it grows.</summary>
internal sealed class TwoThicknesses(Picture picture, SweepResult r, Say say)
{
    private const int MostLabels = 8;
    private const double LabelStep = 18;
    private readonly Scale _across = SweepPicture.Across(r, say);
    private readonly string[] _labels = SweepPicture.Labels(r.Varied[1].Values, say);

    internal void Draw()
    {
        Lines(SweepPicture.Place(0, 0), $"bending stiffness along, {say.Unit(Shown.BendingStiffness)}", row => say.In(row.StiffnessAlong, Shown.BendingStiffness), r.NamedSolid?[0]);
        Lines(SweepPicture.Place(1, 0), $"bending stiffness across, {say.Unit(Shown.BendingStiffness)}", row => say.In(row.StiffnessAcross, Shown.BendingStiffness), r.NamedSolid?[1]);
        Lines(SweepPicture.Place(0, 1), $"areal density, {say.Unit(Shown.ArealDensity)}", row => say.In(row.ArealDensity, Shown.ArealDensity), null);
        Lines(SweepPicture.Place(1, 1), $"as stiff as solid {TextWidth.Fit(r.SolidWood, 170, Panel.TitleSize, true)}, {say.Unit(Shown.Thickness)}", row => say.In(row.SolidThickness, Shown.Thickness), null);
    }

    private void Lines(Box place, string title, Func<SweepRow, double> pick, double? named)
    {
        double low = r.Rows.Min(pick), high = r.Rows.Max(pick);
        double? level = named is { } n ? say.In(n, Shown.BendingStiffness) : null, solid = SweepPicture.Near(level, low, high);
        var panel = new Panel(picture, place, _across, Scale.Around(Math.Min(low, solid ?? low), Math.Max(high, solid ?? high), 7));
        panel.WriteTicks();
        string second = $"{SweepPicture.NameOf(r.Varied[1])}, {say.Unit(Shown.Thickness)}";
        panel.WriteTitles(SweepPicture.TitleOf(r.Varied[0], say), title, place.Left - SweepPicture.LeftRoom);
        picture.Add(new Words(second, place.Right + SweepPicture.RightRoom, place.Top - 24, Panel.TickSize) { Anchor = Anchor.End, Colour = Palette.Ordered(1) });
        int count = r.Varied[1].Values.Count;
        for (int j = 0; j < count; j++)
        {
            panel.Line(r.Rows.Where((_, i) => i % count == j).Select(row => (say.In(row.Values[0], Shown.Thickness), pick(row))), new(Palette.Ordered(Share(j)), 2.5));
        }

        SweepPicture.NamedSolid(panel, r, say, level);
        LabelEnds(panel, [.. r.Rows.TakeLast(count).Select(pick)]);
    }

    /// <summary>The second thickness at the right end of its line; of many lines some, the first and the last among them.</summary>
    private void LabelEnds(Panel panel, double[] ends)
    {
        int step = Math.Max(1, (int)Math.Ceiling((ends.Length - 1.0) / (MostLabels - 1))), last = ends.Length - 1;
        int[] labelled = [.. Enumerable.Range(0, ends.Length).Where(j => j == last || (j % step == 0 && (j == 0 || last - j >= step / 2.0)))];
        double[] y = Spread([.. labelled.Select(j => panel.PixelY(ends[j]))], LabelStep, panel.Data.Top, panel.Data.Bottom);
        for (int i = 0; i < labelled.Length; i++)
        {
            int j = labelled[i];
            picture.Add(new Words(_labels[j], panel.Data.Right + 10, y[i], Panel.TickSize) { Bold = true, Colour = Palette.Ordered(0.3 + 0.7 * Share(j)) });
        }
    }

    /// <summary>Heights moved as little as is needed to keep a distance between neighbours, within two ends that leave room for all.</summary>
    internal static double[] Spread(double[] wanted, double distance, double from, double to)
    {
        // Neighbours that come too near are joined into a group that is centred on what its members want.
        (double Middle, List<int> Members) Group(List<int> members)
        {
            double half = (members.Count - 1) * distance / 2;
            return (Math.Clamp(members.Average(m => wanted[m]), from + half, to - half), members);
        }

        var groups = new List<(double Middle, List<int> Members)>();
        foreach (int i in Enumerable.Range(0, wanted.Length).OrderBy(i => wanted[i]))
        {
            (double Middle, List<int> Members) group = Group([i]);
            while (groups.Count > 0 && group.Middle - groups[^1].Middle < distance * (group.Members.Count + groups[^1].Members.Count) / 2)
            {
                List<int> before = groups[^1].Members;
                groups.RemoveAt(groups.Count - 1);
                group = Group([.. before, .. group.Members]);
            }

            groups.Add(group);
        }

        var placed = new double[wanted.Length];
        foreach ((double middle, List<int> members) in groups)
        {
            for (int k = 0; k < members.Count; k++)
            {
                placed[members[k]] = middle + (k - (members.Count - 1) / 2.0) * distance;
            }
        }

        return placed;
    }

    private double Share(int j) => r.Varied[1].Values.Count == 1 ? 1 : (double)j / (r.Varied[1].Values.Count - 1);
}
