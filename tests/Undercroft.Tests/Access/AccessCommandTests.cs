using System.Text.Json;
using Undercroft.Shell;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Tests.Access;

/// <summary><c>undercroft access …</c>, on the machine itself.</summary>
public sealed class AccessCommandTests : IDisposable
{
    private readonly string folder = Path.Combine(Path.GetTempPath(), "undercroft-access-" + Guid.NewGuid().ToString("N"));

    public void Dispose()
    {
        if (Directory.Exists(folder))
            Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task The_password_is_read_from_standard_input_and_opens_the_door()
    {
        var (refused, _, why) = await BuiltProgram.Run("serve", "--data", folder, "--urls", "http://0.0.0.0:0");
        Assert.Equal(1, refused);
        Assert.Contains("undercroft access password", why, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder));

        Assert.Equal(0, (await Run("four plain wooden spoons\n", "access", "password")).Exit);
        await using var program = await BuiltProgram.ServeAt(folder, "http://0.0.0.0:0");
        using var client = new HttpClient { BaseAddress = new($"http://127.0.0.1:{program.Address.Port}") };
        Assert.Equal("ready", await client.GetStringAsync("/health", TestContext.Current.CancellationToken));
        Assert.Contains("Sign in", await client.GetStringAsync("/", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("kurz+7\n")]
    [InlineData("passwordpassword\n")]
    public async Task A_bad_password_is_refused_and_leaves_nothing_behind(string typed)
    {
        var ran = await Run(typed, "access", "password");
        Assert.Equal(1, ran.Exit);
        Assert.Equal("", ran.Out);
        if (typed.Trim().Length > 0)
            Assert.DoesNotContain(typed.Trim(), ran.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder));
    }

    [Fact]
    public async Task Tokens_and_codes_are_made_listed_and_ended()
    {
        Assert.Equal(0, (await Run("", "add", "--blend", "Evening ribbon")).Exit);
        Assert.Equal(1, (await Run("", "access", "code")).Exit);
        Assert.Equal(0, (await Run("four plain wooden spoons\n", "access", "password")).Exit);
        var made = Json(await Run("", "access", "token", "closet logger", "--scope", "measure,read", "--json"));
        Assert.StartsWith("uc_", made.GetProperty("token").GetString(), StringComparison.Ordinal);
        Assert.Equal("read,measure", made.GetProperty("scopes").GetString());
        Assert.Matches("^....-....$", Json(await Run("", "access", "code", "--json")).GetProperty("code").GetString());

        var id = made.GetProperty("id").GetString()!;
        var listed = Json(await Run("", "access", "list", "--json"));
        Assert.True(listed.GetProperty("password").GetBoolean());
        Assert.Equal(id, listed.GetProperty("tokens")[0].GetProperty("id").GetString());
        Assert.DoesNotContain(made.GetProperty("token").GetString()!, listed.ToString(), StringComparison.Ordinal);
        Assert.Equal(0, (await Run("", "access", "revoke", id)).Exit);
        Assert.True(Json(await Run("", "access", "list", "--json")).GetProperty("tokens")[0].GetProperty("revoked").GetBoolean());
        Assert.Equal(1, (await Run("", "access", "revoke", id)).Exit);
        Assert.Equal(1, (await Run("", "access", "token", "x", "--scope", "everything")).Exit);
        Assert.Equal(2, (await Run("", "access", "token", "x")).Exit);
    }

    [Fact]
    public async Task Reading_where_there_is_no_cellar_is_refused_and_makes_nothing()
    {
        Assert.Equal(1, (await Run("", "access", "list")).Exit);
        Assert.False(Directory.Exists(folder));
    }

    [Fact]
    public async Task What_lets_people_in_is_in_no_backup_and_no_export()
    {
        Assert.Equal(0, (await Run("", "add", "--blend", "Evening ribbon")).Exit);
        Assert.Equal(0, (await Run("four plain wooden spoons\n", "access", "password")).Exit);
        var (zip, tables) = (folder + ".zip", folder + "-tables");
        try
        {
            Assert.Equal(0, (await Run("", "backup", "--out", zip)).Exit);
            Assert.Equal(0, (await Run("", "export", "--out", tables)).Exit);
            await using var archive = await System.IO.Compression.ZipFile.OpenReadAsync(zip, TestContext.Current.CancellationToken);
            Assert.NotEmpty(archive.Entries);
            Assert.DoesNotContain(archive.Entries, entry => entry.FullName.Contains("access", StringComparison.Ordinal) || entry.FullName.Contains("keys", StringComparison.Ordinal));
            Assert.DoesNotContain(Directory.EnumerateFiles(tables, "*", SearchOption.AllDirectories), file => Path.GetFileName(file).Contains("access", StringComparison.Ordinal));
        }
        finally
        {
            File.Delete(zip);
            if (Directory.Exists(tables))
                Directory.Delete(tables, recursive: true);
        }
    }

    private static JsonElement Json((int Exit, string Out, string Error) ran)
    {
        Assert.True(ran.Exit == 0, ran.Error);
        using var document = JsonDocument.Parse(ran.Out);
        return document.RootElement.Clone();
    }

    private async Task<(int Exit, string Out, string Error)> Run(string input, params string[] words)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        using var typed = new StringReader(input);
        var line = new CommandLine(new Terminal(output, error, TimeProvider.System, _ => null, Path.GetTempPath()) { ReadSecret = _ => typed.ReadLine() });
        var exit = await line.Run(Commands.In(line), [.. words, "--data", folder]);
        return (exit, output.ToString(), error.ToString());
    }
}
