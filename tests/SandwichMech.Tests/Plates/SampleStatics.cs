using SandwichMech.Core.Outlines;
using SandwichMech.Core.Plates;

namespace SandwichMech.Tests.Plates;

/// <summary>Short ways to write steady loads.</summary>
internal static class SampleStatics
{
    /// <summary>Every push, on the whole plate or on a patch.</summary>
    public static PlateAction[] All(Curve? patch) => [.. Enum.GetValues<PlatePush>().Select(p => new PlateAction(p, patch))];

    /// <summary>Deflection at a corner of the mesh under an even pressure of 1 Pa.</summary>
    public static double UnderPressure(PlateProblem problem, int order, Point at, double area)
    {
        PlateStatics plate = PlateStatics.Of(problem, order);
        IReadOnlyList<PlateResponse> r = plate.Respond([new(PlatePush.Deflect, null), PlateAction.At(at)]);
        return area * PlateStatics.Movement(r[1], r[0]);
    }

    /// <summary>Deflection at a corner of the mesh under 1 N on it.</summary>
    public static double UnderPoint(PlateProblem problem, int order, Point at)
    {
        PlateResponse r = PlateStatics.Of(problem, order).Respond([PlateAction.At(at)])[0];
        return PlateStatics.Movement(r, r);
    }

    /// <summary>A rectangle whose four sides are held as given, in the order y = 0, x = a, y = b, x = 0.</summary>
    public static PlateProblem Rectangle(PlateSection section, double a, double b, int along, int across, params EdgeSupport[] sides) =>
        new(PlateMesh.Rectangle(a, b, along, across), [section], e => sides.Length == 1 ? sides[0] : sides[e.Curve]);
}
