using ScottPlot;

namespace SandwichMech.Figures.Drawing;

/// <summary>
/// Takes the dashes off the paint that all shapes of a plot share. A broken line leaves them there, and marks that are
/// drawn next make Skia complain on the error stream when the picture is an SVG.
/// </summary>
internal sealed class PlainPaint : IPlottable
{
    /// <inheritdoc/>
    public bool IsVisible { get; set; } = true;

    /// <inheritdoc/>
    public IAxes Axes { get; set; } = new Axes();

    /// <inheritdoc/>
    public IEnumerable<LegendItem> LegendItems => [];

    /// <inheritdoc/>
    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    /// <inheritdoc/>
    public void Render(RenderPack rp) => rp.Paint.SKPaint.PathEffect = null;
}
