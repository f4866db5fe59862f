namespace SandwichMech.Tests;

/// <summary>Where the checkout lies.</summary>
internal static class Repository
{
    /// <summary>The folder that holds the solution.</summary>
    internal static string Root { get; } = Find();

    /// <summary>A file of the checkout.</summary>
    internal static string File(params string[] parts) => Path.Combine([Root, .. parts]);

    private static string Find()
    {
        for (DirectoryInfo? d = new(AppContext.BaseDirectory); d is not null; d = d.Parent)
        {
            if (System.IO.File.Exists(Path.Combine(d.FullName, "SandwichMech.sln")))
            {
                return d.FullName;
            }
        }

        throw new InvalidOperationException("The tests run inside a checkout: no SandwichMech.sln was found above them.");
    }
}
