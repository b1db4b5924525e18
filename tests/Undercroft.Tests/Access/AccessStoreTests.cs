using System.Runtime.Versioning;
using System.Text;
using Undercroft.Access;
using Undercroft.Ledger;
using Undercroft.Shell.Web;
using Xunit;

namespace Undercroft.Tests.Access;

/// <summary>What <c>access.sqlite</c> keeps, and for how long it holds.</summary>
public sealed class AccessStoreTests : IDisposable
{
    private const string Password = "four plain wooden spoons";
    private readonly string folder = Directory.CreateTempSubdirectory("undercroft-access").FullName;
    private readonly Clock clock = new();

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Theory]
    [InlineData("")]
    [InlineData("short")]
    [InlineData("elevensigns")]
    [InlineData("password1234")]
    [InlineData("passwordpassword")]
    [InlineData("123456789012")]
    [InlineData("qwertyuiop12")]
    [InlineData("aaaaaaaaaaaaaaaa")]
    [InlineData("abcabcabcabc")]
    [InlineData("undercroft2026")]
    [InlineData("iloveyou1234")]
    [InlineData("letmein12345")]
    [InlineData("qwerty123456")]
    [InlineData("administrator")]
    public void A_password_that_is_guessed_soon_is_refused(string password)
    {
        using var store = AccessStore.Open(folder, clock);
        Assert.Throws<Refusal>(() => store.SetPassword(password));
        Assert.False(store.HasPassword);
    }

    [Theory]
    [InlineData("four plain wooden spoons")]
    [InlineData("7#kQ!vz2&Lp0")]
    [InlineData("vier blaue Löffel ohne Öse")]
    [InlineData("колодец тихий рыжий кот")]
    [InlineData("🫖 teapot, cracked, on a sill 🪟")]
    [InlineData("rain-kettle-orchard-drawer-window-lantern-pebble-sailor-cotton-ribbon-meadow")]
    public void Any_signs_may_be_in_a_password_and_all_of_them_count(string password)
    {
        using var store = AccessStore.Open(folder, clock);
        store.SetPassword(password);
        Assert.True(store.IsPassword(password));
        Assert.False(store.IsPassword(password[..^1]));
        Assert.False(store.IsPassword(password + " "));
        Assert.False(store.IsPassword(password.ToUpperInvariant()));
    }

    [Fact]
    public void No_password_is_ever_right_where_none_is_set()
    {
        using var store = AccessStore.Open(folder, clock);
        Assert.False(store.IsPassword(""));
        Assert.False(store.IsPassword(Password));
    }

    [Fact]
    [UnsupportedOSPlatform("windows")]
    public void Nothing_that_opens_a_door_stands_in_the_file()
    {
        string secret, code, token;
        using (var store = AccessStore.Open(folder, clock))
        {
            store.SetPassword(Password);
            (_, secret) = store.LetIn("desk", "password");
            (_, token) = store.NewToken("logger", Scope.Measure);
            code = store.NewCode();
        }

        var bytes = File.ReadAllBytes(Path.Combine(folder, "access.sqlite"));
        foreach (var hidden in (string[])[Password, secret, token, code, code.Replace("-", "", StringComparison.Ordinal)])
            Assert.True(bytes.AsSpan().IndexOf(Encoding.UTF8.GetBytes(hidden)) < 0);
        Assert.True(bytes.AsSpan().IndexOf("desk"u8) >= 0, "names are readable there, or this proves nothing");
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(Path.Combine(folder, "access.sqlite")));
    }

    [Fact]
    public void Secrets_are_long_random_and_never_the_same()
    {
        using var store = AccessStore.Open(folder, clock);
        string[] secrets = [.. Enumerable.Range(0, 200).Select(n => n % 2 == 0 ? store.LetIn("d", "code").Secret : store.NewToken("t", Scope.Read).Secret)];
        Assert.Equal(secrets.Length, secrets.Distinct().Count());
        Assert.All(secrets, secret => Assert.True(5 * (secret.Length - 3) >= 128, "fewer than 128 bits"));
    }

    [Fact]
    public void A_code_holds_ten_minutes_and_once()
    {
        using var store = AccessStore.Open(folder, clock);
        var late = store.NewCode();
        clock.Now += TimeSpan.FromMinutes(10);
        Assert.False(store.UseCode(late));
        var first = store.NewCode();
        var second = store.NewCode();
        Assert.False(store.UseCode(first));
        Assert.False(store.UseCode("0000-0000"));
        Assert.True(store.UseCode(second));
        Assert.False(store.UseCode(second));
    }

    [Fact]
    public void A_device_long_away_or_long_in_has_to_sign_in_anew()
    {
        using var store = AccessStore.Open(folder, clock);
        var (_, idle) = store.LetIn("idle", "password");
        var (_, busy) = store.LetIn("busy", "password");
        for (var day = 0; day < 360; day += 40)
        {
            clock.Now += TimeSpan.FromDays(40);
            Assert.NotNull(store.DeviceOf(busy));
        }

        Assert.Null(store.DeviceOf(idle));
        clock.Now += TimeSpan.FromDays(10);
        Assert.Null(store.DeviceOf(busy));
    }

    [Fact]
    public void A_token_holds_until_it_is_ended_and_says_what_for()
    {
        using var store = AccessStore.Open(folder, clock);
        var (token, secret) = store.NewToken("closet logger", Scope.Measure | Scope.Read);
        Assert.Equal(Scope.Measure | Scope.Read, store.TokenOf(secret)!.May);
        Assert.Null(store.TokenOf(secret + "0"));
        Assert.Null(store.TokenOf(""));
        store.Revoke(token.Id.ToLowerInvariant());
        Assert.Null(store.TokenOf(secret));
        Assert.Throws<Refusal>(() => store.Revoke(token.Id));
        Assert.Throws<Refusal>(() => store.NewToken("closet logger", Scope.None));
        Assert.Throws<Refusal>(() => store.NewToken(" \t", Scope.Read));
        Assert.Throws<Refusal>(() => store.NewToken("a\u001b[2Jb", Scope.Read));
    }

    [Theory]
    [InlineData("'; DROP TABLE devices; --")]
    [InlineData("\" OR 1=1")]
    public void A_name_is_never_part_of_a_query(string name)
    {
        using var store = AccessStore.Open(folder, clock);
        var (device, secret) = store.LetIn(name, "password");
        Assert.Equal(name, device.Name);
        Assert.Null(store.DeviceOf(name));
        Assert.Throws<Refusal>(() => store.Revoke(name));
        Assert.NotNull(store.DeviceOf(secret));
    }

    [Fact]
    public void A_foreign_file_is_refused_and_left_alone()
    {
        var path = Path.Combine(folder, "access.sqlite");
        File.WriteAllText(path, "this is no database at all, but a letter to a friend");
        Assert.Throws<Refusal>(() => AccessStore.Open(folder, clock).Dispose());
        Assert.StartsWith("this is no database", File.ReadAllText(path), StringComparison.Ordinal);
    }

    private sealed class Clock : TimeProvider
    {
        internal DateTimeOffset Now { get; set; } = new(2026, 5, 1, 12, 0, 0, TimeSpan.Zero);

        public override DateTimeOffset GetUtcNow() => Now;
    }
}
