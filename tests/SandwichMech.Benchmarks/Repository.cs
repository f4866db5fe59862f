namespace SandwichMech.Benchmarks;

/// <summary>Where the checkout lies.</summary>
internal static class Repository
{
    /// <summary>The folder that holds the solution.</summary>
    internal static string Root { get; } = Find();

    private static string Find()
    {
        for (DirectoryInfo? d = new(AppContext.BaseDirectory); d is not null; d = d.Parent)
        {
            if (File.Exists(Path.Combine(d.FullName, "SandwichMech.sln")))
            {
                return d.FullName;
            }
        }

        throw new InvalidOperationException("The benchmarks run inside a checkout: no SandwichMech.sln was found above them.");
    }
}
