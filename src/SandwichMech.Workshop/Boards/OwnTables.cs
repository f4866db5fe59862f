using SandwichMech.Workshop.Tables;

namespace SandwichMech.Workshop.Boards;

/// <summary>The maker's own tables that a board file names.</summary>
internal static class OwnTables
{
    /// <summary>The tables with the maker's own rows; null where these cannot be read, which is reported.</summary>
    /// <param name="tables">The tables so far.</param>
    /// <param name="given">The field that names the folder.</param>
    /// <param name="folder">The folder as typed, relative to the board file.</param>
    /// <param name="findings">Takes the mistakes; one in a table has that table's file and line.</param>
    internal static MaterialTables? Read(MaterialTables tables, GivenField given, string folder, Findings findings)
    {
        string path = Path.Combine(Path.GetDirectoryName(findings.Path) ?? "", folder);
        if (!Directory.Exists(path))
        {
            Report(File.Exists(path)
                ? $"'{folder}' is a file: write the folder that holds it"
                : $"there is no folder '{folder}' beside the board file: write the folder that holds your woods.csv, cores.csv or adhesives.csv");
            return null;
        }

        try
        {
            return tables.With(path);
        }
        catch (InputException wrong)
        {
            foreach (Problem problem in wrong.Problems)
            {
                if (problem.Where == path)
                {
                    Report(problem.Message);
                }
                else
                {
                    findings.Report(problem);
                }
            }
        }
        catch (Exception wrong) when (wrong is IOException or UnauthorizedAccessException)
        {
            Report($"a table in '{folder}' cannot be read: see who may read it, and whether another program holds it");
        }

        return null;

        void Report(string message) => findings.Report(given.Entry.Line, given.Field.Name, message);
    }
}
