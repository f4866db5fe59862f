using SandwichMech.Core.Choosing;
using SandwichMech.Core.Uncertainty;
using SandwichMech.Workshop.Boards;
using SandwichMech.Workshop.UseCases;

namespace SandwichMech.Figures;

/// <summary>Along or across: which of a result's two stiffnesses a panel shows.</summary>
internal sealed record Grain(
    string Word,
    StiffnessCriterion Criterion,
    Func<CompareResult, Prediction> OfBoard,
    Func<MeritPoint, double> OfPoint,
    Func<NamedSolid, double> OfNamed)
{
    internal static readonly Grain Along = new("along", StiffnessCriterion.Along, r => r.StiffnessAlong, p => p.Along, n => n.StiffnessAlong);

    internal static readonly Grain Across = new("across", StiffnessCriterion.Across, r => r.StiffnessAcross, p => p.Across, n => n.StiffnessAcross);

    /// <summary>The solid whose stiffness this way is the board's.</summary>
    internal SolidRow EqualSolid(CompareResult r) => r.Solids.First(s => s.Criterion == BoardFields.NameOf(Criterion));
}
