namespace SandwichMech.Core.Building;

/// <summary>A piece of wood without glue that goes through the same bag, so that the water that leaves the board is not taken for missing adhesive.</summary>
public static class WaterWitness
{
    /// <summary>Lightest piece whose change of moisture shows on a scale: dry mass × change is one step.</summary>
    /// <param name="step">The scale's step, kg, positive.</param>
    /// <param name="change">Change that has to show, a share of the dry mass.</param>
    /// <param name="moisture">Moisture content of the piece, a share of its dry mass.</param>
    /// <returns>Its mass as it is weighed, kg.</returns>
    public static double LeastMass(double step, double change, double moisture) => step / change * (1 + moisture);

    /// <summary>Water that wood gives off.</summary>
    /// <param name="mass">As weighed, kg.</param>
    /// <param name="moisture">Its moisture content, a share of its dry mass.</param>
    /// <param name="change">Change of it.</param>
    /// <returns>kg.</returns>
    public static double Water(double mass, double moisture, double change) => mass / (1 + moisture) * change;
}
