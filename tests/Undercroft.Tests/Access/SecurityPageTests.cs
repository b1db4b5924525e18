using System.Globalization;
using System.Text.RegularExpressions;
using Undercroft.Access;
using Undercroft.Serving;
using Undercroft.Tests.House;
using Xunit;

namespace Undercroft.Tests.Access;

/// <summary><c>docs/security.md</c> says what is so: every test that it names is there, every number is the program's.</summary>
public sealed class SecurityPageTests
{
    private static readonly string Page = File.ReadAllText(Path.Combine(Repository.Root, "docs", "security.md"));

    [Fact]
    public void Every_requirement_names_a_test_that_exists()
    {
        var tests = typeof(SecurityPageTests).Assembly.GetTypes()
            .SelectMany(type => type.GetMethods().Where(method => method.GetCustomAttributes(typeof(FactAttribute), inherit: true).Length > 0).Select(method => $"{type.Name}.{method.Name}"))
            .ToHashSet(StringComparer.Ordinal);
        string[] rows = [.. Page.Split('\n').Where(line => line.StartsWith("| V", StringComparison.Ordinal))];
        Assert.True(rows.Length >= 50, $"{rows.Length} rows");
        foreach (var row in rows)
        {
            var named = Regex.Match(row, @"\| `(?<test>[A-Za-z]+\.[A-Za-z0-9_]+)` \|\s*$").Groups["test"].Value;
            Assert.True(tests.Contains(named), $"No such test: {row}");
        }
    }

    [Fact]
    public void The_limits_of_the_page_are_those_of_the_program()
    {
        foreach (var said in (string[])[
            $"{PasswordRule.Shortest} letters or more", $"{Number(AccessStore.IdleAtMost.TotalDays)} days without use", "ten attempts in five minutes", "sixty from all", "ten minutes, once",
            $"Forms may have {RequestGate.FormBytes / 1024} kB", $"sheets {RequestGate.UploadBytes / 1024 / 1024} MB", $"readings {Undercroft.Api.PostReadings.MostBytes / 1024 / 1024} MB"])
            Assert.Contains(said, Page, StringComparison.Ordinal);
        Assert.Equal((10, 60, 10.0, 365.0), (SignInLimit.FromOneAddress, SignInLimit.FromAll, AccessStore.CodeHolds.TotalMinutes, AccessStore.SignedInAtMost.TotalDays));
    }

    [Fact]
    public void Every_scope_of_the_program_is_on_the_page() =>
        Assert.All(ScopeWords.Choices, choice => Assert.Contains($"`{choice.Word}`", Page, StringComparison.Ordinal));

    [Fact]
    public void No_cipher_is_used_by_this_code() => Assert.All(
        Repository.Sources("src"), file => Assert.DoesNotMatch(@"\b(Aes|AesGcm|AesCcm|DES|TripleDES|RC2|RSA|CipherMode|PaddingMode)\b", File.ReadAllText(file)));

    [Fact]
    public void No_broken_hash_is_used() => Assert.All(
        Repository.Sources("src"), file => Assert.DoesNotMatch(@"\b(MD5|SHA1|HMACMD5|HMACSHA1)\b", File.ReadAllText(file)));

    [Fact]
    public void A_weak_library_is_reported_by_every_build()
    {
        foreach (var file in Directory.EnumerateFiles(Repository.Root, "*.props").Concat(Directory.EnumerateFiles(Path.Combine(Repository.Root, "src"), "*.csproj", SearchOption.AllDirectories)))
        {
            var settings = File.ReadAllText(file);
            Assert.DoesNotMatch("(?i)<NuGetAudit>\\s*(false|disable)", settings);
            Assert.DoesNotMatch("<NoWarn>[^<]*NU190", settings);
        }
    }

    private static string Number(double value) => value.ToString("0", CultureInfo.InvariantCulture);
}
