using System.Reflection;
using FlowSim.House.Tests;

namespace FlowSim.Sources.Tests;

/// <summary>The page docs/validation.md is what the tests of this project give.</summary>
public class ValidationReportTests
{
    /// <summary>Names a file that the page is written to; <c>report</c> beside this project sets it.</summary>
    private const string Target = "FLOWSIM_VALIDATION_REPORT";

    [Fact]
    public void Every_class_says_which_publication_it_holds_to()
    {
        Assert.InRange(CheckedClass.Types.Count(), 50, int.MaxValue);
        Assert.Empty(CheckedClass.Types.Where(type => type.GetCustomAttribute<PublicationAttribute>() is null).Select(type => type.Name));
    }

    [Fact]
    public void The_page_is_what_the_tests_give()
    {
        string page = ValidationReport.Write();
        if (Environment.GetEnvironmentVariable(Target) is { Length: > 0 } path)
        {
            File.WriteAllText(path, page);
            return;
        }

        Assert.Equal(Repository.Read("docs", "validation.md"), page);
    }
}
