using System.Reflection;
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using System.Text.RegularExpressions;
using Xunit;

namespace Undercroft.Tests.House;

/// <summary>Dependencies run one way: Physics ← Ledger (quantities only) ← Forecasts ← Undercroft; folders of the program never use each other.</summary>
public sealed class DependencyRulesTests
{
    [Fact]
    public void Physics_references_the_base_class_library_alone() =>
        Assert.All(References("Undercroft.Physics"), name => Assert.StartsWith("System.", name, StringComparison.Ordinal));

    [Fact]
    public void Ledger_references_physics_and_its_store_alone() =>
        Assert.All(
            References("Undercroft.Ledger").Where(name => !name.StartsWith("System.", StringComparison.Ordinal)),
            name => Assert.Contains(name, new[] { "Undercroft.Physics", "Microsoft.Data.Sqlite", "SQLitePCLRaw.core" }));

    [Fact]
    public void Ledger_uses_of_physics_only_its_quantities() =>
        Assert.All(
            NamespacesUsed("Undercroft.Ledger").Where(name => name.StartsWith("Undercroft.Physics", StringComparison.Ordinal)),
            name => Assert.Equal("Undercroft.Physics.Quantities", name));

    [Fact]
    public void Forecasts_references_physics_and_the_ledger_alone() =>
        Assert.All(
            References("Undercroft.Forecasts").Where(name => !name.StartsWith("System.", StringComparison.Ordinal)),
            name => Assert.Contains(name, new[] { "Undercroft.Physics", "Undercroft.Ledger" }));

    [Fact]
    public void Forecasts_does_not_know_the_store() =>
        Assert.DoesNotContain(NamespacesUsed("Undercroft.Forecasts"), name => name.StartsWith("Undercroft.Ledger.Sqlite", StringComparison.Ordinal));

    [Fact]
    public void Solving_knows_no_leaf()
    {
        foreach (var file in Repository.Sources("src/Undercroft.Physics/Solving"))
            Assert.DoesNotMatch(@"Undercroft\.Physics\.(Leaf|Storage|Barrier|Catalogue|Climate|Air)", File.ReadAllText(file));
    }

    [Fact]
    public void Folders_of_the_program_use_no_sibling_but_the_shell()
    {
        var program = Path.Combine(Repository.Root, "src", "Undercroft");
        var folders = Directory.GetDirectories(program).Select(folder => Path.GetFileName(folder)!)
            .Where(name => name is not ("Shell" or "wwwroot" or "bin" or "obj" or "Properties")).ToArray();
        Assert.NotEmpty(folders);
        foreach (var folder in folders.Where(name => name != "Serving")) // it lists what the pages need, as Program.cs lists the commands
        {
            var others = string.Join('|', folders.Where(other => other != folder).Append("NoSuchFolder").Select(Regex.Escape));
            var forbidden = new Regex($@"(using\s+(static\s+)?|@using\s+|[\s(<,:]Undercroft\.)(Undercroft\.)?({others})\b(?=[.;\s])");
            foreach (var file in Repository.Sources(Path.Combine("src", "Undercroft", folder)))
            {
                var hit = forbidden.Match(File.ReadAllText(file));
                Assert.False(hit.Success, $"{Path.GetRelativePath(Repository.Root, file)} uses a sibling folder: '{hit.Value.Trim()}'.");
            }
        }
    }

    [Fact]
    public void A_command_never_builds_the_web_host()
    {
        foreach (var file in Repository.Sources("src/Undercroft").Where(file => !file.Contains("/Serving/", StringComparison.Ordinal)))
            Assert.DoesNotContain("WebApplication.Create", File.ReadAllText(file), StringComparison.Ordinal);
    }

    [Fact]
    public void No_source_file_is_longer_than_400_lines() =>
        Assert.All(
            new[] { "src", "tests" }.SelectMany(Repository.Sources),
            file => Assert.True(File.ReadLines(file).Count() <= 400, $"{file} has more than 400 lines: it is two rooms in one."));

    [Fact]
    public void Program_stays_under_60_lines() =>
        Assert.True(File.ReadLines(Path.Combine(Repository.Root, "src", "Undercroft", "Program.cs")).Count() < 60);

    private static string[] References(string assembly) =>
        Assembly.Load(assembly).GetReferencedAssemblies().Select(name => name.Name!).Where(name => name is not ("netstandard" or "mscorlib")).ToArray();

    private static string[] NamespacesUsed(string assembly)
    {
        using var stream = File.OpenRead(Assembly.Load(assembly).Location);
        using var image = new PEReader(stream);
        var metadata = image.GetMetadataReader();
        return metadata.TypeReferences.Select(handle => metadata.GetString(metadata.GetTypeReference(handle).Namespace)).Distinct().ToArray();
    }
}
