using SandwichMech.Figures.Drawing;
using SandwichMech.Workshop.Units;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Figures;

/// <summary>Stiffness against areal density: the board and its family among solid tops, with lines of equal merit.</summary>
internal static class ComparePicture
{
    private const int Width = 1400, Height = 940;
    private const double Top = 170, Bottom = 800, PanelWidth = 575;

    // How much of the picture lies around the board and its solids, as factors.
    private const double Lighter = 1.5, Heavier = 1.35, Softer = 2.6, Stiffer = 3.2;

    internal static Picture Of(CompareResult r, UnitSystem units)
    {
        var say = new Say(units);
        var picture = new Picture($"{r.Board}: stiffness and weight beside solid tops", Width, Height);
        Header.Write(picture, r.Board, "stiffness and weight beside solid tops", [Headline(r, say), NamedLine(r, say)]);
        Scale mass = MassScale(r, say);
        new ComparePanel(picture, new Box(90, Top, 90 + PanelWidth, Bottom), r, say, mass, Grain.Along).Draw();
        new ComparePanel(picture, new Box(1365 - PanelWidth, Top, 1365, Bottom), r, say, mass, Grain.Across).Draw();
        Header.Foot(
            picture,
            "Cross: 90 % of such boards, thick part 50 %. Numbers along the curves are thicknesses: of the outer skin (the inner keeps its ratio), of the plate on the solids.",
            "Dotted grey: equal merit, stiffness / (mass per area)³. A plate on 2 × is twice as stiff as the solid, 1 ×, at equal weight, and so on. A solid wood's own line is one of them.");
        return picture;
    }

    /// <summary>One axis of mass for both panels, so that the same board stands above the same number.</summary>
    private static Scale MassScale(CompareResult r, Say say)
    {
        IEnumerable<double> shown = new[] { r.ArealDensity.Low90, r.ArealDensity.High90 }
            .Concat([Grain.Along.EqualSolid(r).Mass.Value / r.Area, Grain.Across.EqualSolid(r).Mass.Value / r.Area])
            .Concat(r.NamedSolid is { } named ? [named.Mass / r.Area] : []);
        double[] all = [.. shown.Select(m => say.In(m, Shown.ArealDensity))];
        return Scale.Log(all.Min() / Lighter, all.Max() * Heavier, PanelWidth, 56);
    }

    /// <summary>One axis of stiffness around what is shown on it.</summary>
    internal static Scale StiffnessScale(IEnumerable<double> shown, double length) =>
        Scale.Log(shown.Min() / Softer, shown.Max() * Stiffer, length, 34);

    private static string Headline(CompareResult r, Say say)
    {
        SolidRow row = r.Solids.FirstOrDefault(s => s.Criterion == r.Criterion) ?? r.Solids[0];
        string saved = row.Saved.Value >= 0 ? "saves" : "weighs more by";
        return $"As stiff as solid {Say.Short(row.Wood)}, {say.Text(row.Thickness.Value, Shown.Thickness)} ({row.Criterion}{(row.By == "layup" ? "" : $", {row.By}")}); "
            + $"{saved} {say.Text(Math.Abs(row.Saved.Value), Shown.Mass)} of {say.Text(row.Mass.Value, Shown.Mass)} ({Say.Percent(Math.Abs(row.SavedShare.Value))}) on {say.Text(r.Area, Shown.Area)}.";
    }

    private static string NamedLine(CompareResult r, Say say) => r.NamedSolid is { } named
        ? $"Against your solid {Say.Short(named.Wood)}, {say.Text(named.Thickness, Shown.Thickness)}: {Times(named.Along.Value)} the stiffness along, {Times(named.Across.Value)} across, {Times(named.MassRatio.Value)} the mass."
        : $"The board: {say.WithRange(r.StiffnessAlong, Shown.BendingStiffness)} along, {say.WithRange(r.StiffnessAcross, Shown.BendingStiffness)} across, {say.WithRange(r.ArealDensity, Shown.ArealDensity)}; in brackets the 90 % interval.";

    private static string Times(double ratio) => $"{ratio.ToString("0.00", System.Globalization.CultureInfo.InvariantCulture)} times";
}
