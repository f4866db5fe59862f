using SandwichMech.Core.Layups;
using SandwichMech.Core.Outlines;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>Joints along the board in a skin or in the core: what their glue weighs.</summary>
internal static class Joints
{
    // The glue lies in a strip this wide, m: far narrower than a wave of any mode in question, and wide enough for the mesh.
    private const double Strip = 0.02;

    private static readonly BoardTable Table = new("joint", "A joint along the board in a skin or in the core; its glue has a mass, and the parts are as stiff as one piece.") { IsList = true };

    private static readonly BoardField
        Of_ = new(Table, "of", new ChoiceKind("part with a joint", ["outer", "inner", "core"]), "What is joined: the outer skin, the inner skin or the core.", "core") { Required = true },
        Aside = FieldForms.Length(Table, "aside", "the distance from the centre line", "-1 m to 1 m", "-30 cm to 30 cm", "From the centre line to the joint, to the left positive.", "60 mm") with { Default = "0 mm" },
        Glue = new(Table, "glue", new TypedKind(Dimension.LineDensity, "a joint's glue", FieldForms.Range(Dimension.LineDensity, "0.01 g/m to 200 g/m"), FieldForms.Range(Dimension.LineDensity, "0.1 g/m to 20 g/m"), ["g/m", "g/in"]) { TakesSpread = true },
            "Mass of its glue per length: weigh before and after, or splice an offcut.", "4 g/m")
        { Required = true };

    /// <summary>The fields, in the order of the file.</summary>
    internal static IReadOnlyList<BoardField> Fields { get; } = [Of_, Aside, Glue];

    /// <summary>Reports joints that do not lie on the board.</summary>
    internal static void Check(ReadFields board, Curve outline, Findings findings)
    {
        foreach (ReadFields item in board.Items(Table))
        {
            if (item.Reading(Glue) is not null && Length(Place(item), outline, []) <= 0)
            {
                findings.Report(item.LineOrNull(Aside), Aside.Name, "there the joint runs past the board: move it nearer to the centre line");
            }
        }
    }

    /// <summary>The joints as regions of the board.</summary>
    internal static IEnumerable<FiledRegion> Of(ReadFields board, Curve outline, IReadOnlyList<Curve> holes)
    {
        Box box = outline.Bounds();
        foreach (ReadFields item in board.Items(Table))
        {
            double y = Place(item);
            TypedValue glue = item.Typed(Glue)!;
            Curve strip = Shapes.Rectangle(new(box.MinX - Strip, y - Strip / 2, box.MaxX + Strip, y + Strip / 2));
            string of = item.Reading(Of_)!.Name!;
            yield return new(
                new($"joint of the {(of == "core" ? "core" : $"{of} skin")}", [strip], strip.Contains, new AddedMass(new(0, 0))) { IsPart = false },
                item.LineOrNull(Aside), Aside.Name, Estimate.FromSd(glue.Value, glue.StandardDeviation).Times(Length(y, outline, holes)));
        }
    }

    private static double Place(ReadFields item) => item.Typed(Aside)?.Value ?? 0;

    /// <summary>Length of a line along the board that lies on it, m.</summary>
    private static double Length(double y, Curve outline, IReadOnlyList<Curve> holes)
    {
        Box box = outline.Bounds();
        Curve line = Shapes.Polygon([new(box.MinX - Strip, y), new(box.MaxX + Strip, y)], closed: false);
        double[] at = [.. holes.Prepend(outline).SelectMany(c => Crossings.Between(line, c)).Select(m => m.At.X).Order()];
        double sum = 0;
        for (int i = 1; i < at.Length; i++)
        {
            var middle = new Point((at[i - 1] + at[i]) / 2, y);
            sum += outline.Contains(middle) && !holes.Any(h => h.Contains(middle)) ? at[i] - at[i - 1] : 0;
        }

        return sum;
    }
}
