using SandwichMech.Core.Choosing;
using SandwichMech.Workshop.Units;

namespace SandwichMech.Workshop.Boards;

/// <summary>Checks what no field shows on its own.</summary>
internal static class FieldsTogether
{
    /// <summary>How far the board's thickness may be from the sum of its parts, m: what callipers and rounding do.</summary>
    private const double ThicknessAgreement = 0.05e-3;

    // An area that was worked out by hand is rounded.
    private const double AreaRounding = 1.005;

    // A circle fills 0.79 of its square; common practice, no source: a waisted outline fills some 0.7 to 0.9.
    private const double LeastFilling = 0.4;

    /// <summary>Checks all; what is wrong or unusual goes to the findings.</summary>
    internal static void Check(ReadFields fields, Findings findings)
    {
        DrawnShape.Read(fields, findings);
        CheckSize(fields, findings);
        CheckThickness(fields, findings);
        CheckPair(BoardFields.BeadMass, BoardFields.BeadLine);
        CheckPair(BoardFields.BeadLine, BoardFields.BeadMass);
        CheckCriterion(fields, findings);
        ShapeMaking.Check(fields, findings);

        void CheckPair(BoardField given, BoardField missing)
        {
            if (fields.Reading(given) is not null && !fields.IsGiven(missing))
            {
                findings.Report(fields.Line(given), given.Name,
                    $"{given.Key} and {missing.Key} go together: write {missing.Key} = {BoardText.Quoted(missing.Example)}, or what yours is, too");
            }
        }
    }

    private static void CheckSize(ReadFields fields, Findings findings)
    {
        if (fields.Typed(BoardFields.Length)?.Value is not { } length || fields.Typed(BoardFields.Width)?.Value is not { } width)
        {
            return;
        }

        if (length < width)
        {
            findings.Warn(fields.Line(BoardFields.Length), BoardFields.Length.Name,
                $"{Show(length, Shown.Length)} along the grain is less than the width of {Show(width, Shown.Length)}: are the two swapped?");
        }

        if (fields.Typed(BoardFields.Area)?.Value is not { } area)
        {
            return;
        }

        double rectangle = length * width;
        string said = $"{Show(area, Shown.Area)} in a rectangle of {Show(length, Shown.Length)} by {Show(width, Shown.Length)}, which is {Show(rectangle, Shown.Area)}";
        if (area > rectangle * AreaRounding)
        {
            findings.Report(fields.Line(BoardFields.Area), BoardFields.Area.Name, $"{said}: an outline cannot be larger; mend one of the three");
        }
        else if (area < rectangle * LeastFilling)
        {
            findings.Warn(fields.Line(BoardFields.Area), BoardFields.Area.Name,
                $"{said}: it fills only {Show(area / rectangle, Shown.Percent)}; is one of the three wrong?");
        }
    }

    private static void CheckThickness(ReadFields fields, Findings findings)
    {
        if (fields.Typed(BoardFields.TotalThickness)?.Value is not { } total
            || fields.Typed(BoardFields.Outer.Thickness)?.Value is not { } outer
            || fields.Typed(BoardFields.Inner.Thickness)?.Value is not { } inner)
        {
            return;
        }

        double skins = outer + inner, left = total - skins;
        var core = (TypedKind)BoardFields.CoreHeight.Kind;
        string leave = $"of {Show(total, Shown.Thickness)} the skins leave {Show(left, Shown.Thickness)} for the core";
        if (left <= 0)
        {
            Report($"the skins together are as thick as the board or thicker: {Show(skins, Shown.Thickness)} of {Show(total, Shown.Thickness)}; mend one of the three");
        }
        else if (fields.Typed(BoardFields.CoreHeight)?.Value is { } height)
        {
            if (Math.Abs(left - height) > ThicknessAgreement * (1 + 1e-9))
            {
                Report($"{leave}, but {BoardFields.CoreHeight.Name} says {Show(height, Shown.Thickness)}: mend one of them, or leave one out");
            }
        }
        else if (!fields.IsGiven(BoardFields.CoreHeight) && !core.Possible.Contains(left))
        {
            Report($"{leave}: {core.Possible} is possible");
        }
        else if (!fields.IsGiven(BoardFields.CoreHeight) && !core.Usual.Contains(left))
        {
            findings.Warn(fields.Line(BoardFields.TotalThickness), BoardFields.TotalThickness.Name, $"{leave}: unusual (usual: {core.Usual})");
        }

        void Report(string message) => findings.Report(fields.Line(BoardFields.TotalThickness), BoardFields.TotalThickness.Name, message);
    }

    private static void CheckCriterion(ReadFields fields, Findings findings)
    {
        if (fields.Reading(BoardFields.Criterion)?.Name is not { } words || !StiffnessMeasure.NeedsRectangle(BoardFields.CriterionOf(words))
            || fields.IsGiven(BoardFields.OutlineFile) || fields.IsGiven(BoardFields.OutlineLower))
        {
            return;
        }

        BoardField[] missing = [.. new[] { BoardFields.Length, BoardFields.Width }.Where(field => !fields.IsGiven(field))];
        if (missing.Length > 0)
        {
            findings.Report(fields.Line(BoardFields.Criterion), BoardFields.Criterion.Name,
                $"'{words}' needs length and width: write {string.Join(" and ", missing.Select(field => field.Key))} under [{missing[0].Table.Name}], or another criterion");
        }
    }

    private static string Show(double si, Shown kind) => Display.Text(si, kind, UnitSystem.Metric);
}
