using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace SandwichMech.Tests.EndToEnd;

/// <summary>The bond sheet as a browser prints it: one page on either paper, and readable at arm's length. Fails where no browser is installed.</summary>
[Trait("Check", "exact")]
public partial class SheetPageTests
{
    private static readonly string[] All = ["--margin", "10 mm", "--cup", "12.4 g", "--temperature", "32 °C", "--vacuum", "60 kPa", "--letin-coverage", "150 g/m²", "--bead", "0.25 g/in", "--bead-line", "12 in", "--scale-step", "0.01 g"];

    // A coverage that is warned of adds a line.
    private static readonly string[] Warned = [.. All, "--mixed", "0.18 g/in²"];

    public static TheoryData<string, string, string, string> Sheets()
    {
        var data = new TheoryData<string, string, string, string>();
        foreach (string paper in new[] { "A4", "letter" })
        {
            data.Add("outline.toml", "metric", "all", paper);
            data.Add("outline.toml", "inch", "warned", paper);
            data.Add("regions.toml", "metric", "warned", paper);
            data.Add("board.toml", "inch", "none", paper);
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Sheets))]
    public void A_sheet_is_one_page(string board, string units, string options, string paper)
    {
        using var folder = new TemporaryFolder();
        string sheet = folder.File("bond.html"), toml = folder.File("board.toml");
        // A long name is cut at the edge of the page, not carried over to a second line.
        File.WriteAllText(toml, File.ReadAllText(Repository.File("shared", "demo", board)).Replace("name = \"demo board", $"name = \"{new string('n', 66)} demo board", StringComparison.Ordinal));
        string[] typed = options switch { "all" => All, "warned" => Warned, _ => [] };
        Commanded run = Commanded.Run(["bond", toml, "--units", units, "--sheet", sheet, .. typed]);
        Assert.True(run.Code == 0, run.Err);
        string html = File.ReadAllText(sheet);
        Assert.Equal(1, Pages(folder, html, paper));
        if (options == "none" || paper == "A4") { return; }
        // Can it fail? With 45 mm more it is two.
        Assert.Equal(2, Pages(folder, html.Replace("<h1>", "<div style=\"height: 45mm\"> </div><h1>", StringComparison.Ordinal), paper));
    }

    [Fact]
    public void Nothing_on_a_sheet_is_smaller_than_12_points_and_what_is_weighed_is_18_and_more()
    {
        using var folder = new TemporaryFolder();
        string sheet = folder.File("bond.html");
        Assert.Equal(0, Commanded.Run("bond", Commanded.Demo, "--sheet", sheet).Code);
        string html = File.ReadAllText(sheet);
        double[] sizes = [.. Size().Matches(html).Select(m => double.Parse(m.Groups[2].Value, CultureInfo.InvariantCulture))];
        Assert.True(sizes.Length >= 5);
        Assert.All(sizes, s => Assert.True(s >= 12));
        foreach (string weighed in new[] { ".big .do", ".big .reads" })
        {
            Match rule = Regex.Match(html, $@"{Regex.Escape(weighed)} {{ font-size: (\d+)pt");
            Assert.True(int.Parse(rule.Groups[1].Value, CultureInfo.InvariantCulture) >= 18, weighed);
        }
    }

    private static int Pages(TemporaryFolder folder, string html, string paper)
    {
        string page = folder.File("page.html"), pdf = folder.File("page.pdf");
        File.WriteAllText(page, html.Replace("@page {", $"@page {{ size: {paper};", StringComparison.Ordinal));
        File.Delete(pdf);
        var start = new ProcessStartInfo("chromium",
            ["--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer", $"--user-data-dir={folder.File("profile")}", $"--print-to-pdf={pdf}", new Uri(page).AbsoluteUri])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        try
        {
            using Process browser = Process.Start(start)!;
            Task<string> output = browser.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
            string error = browser.StandardError.ReadToEnd();
            browser.WaitForExit();
            Assert.True(browser.ExitCode == 0 && File.Exists(pdf), $"{error}{output.Result}");
        }
        catch (Win32Exception)
        {
            Assert.Fail("no browser to print the sheet: apt-get install --no-install-recommends chromium (Debian)");
        }

        return PdfPage().Count(Encoding.Latin1.GetString(File.ReadAllBytes(pdf)));
    }

    [GeneratedRegex(@"/Type\s*/Page\b(?!s)")]
    private static partial Regex PdfPage();

    [GeneratedRegex(@"(font-size|font): ([0-9.]+)pt")]
    private static partial Regex Size();
}
