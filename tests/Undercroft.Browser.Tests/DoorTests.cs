using Microsoft.Playwright;
using Undercroft.Access;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Browser.Tests;

/// <summary>Two devices at one cellar: sign-in, a wrong password, pairing by a code, and history that says who.</summary>
public sealed class DoorTests(Chromium chromium) : IDisposable
{
    private const string Password = "four plain wooden spoons";
    private readonly string folder = Directory.CreateTempSubdirectory("undercroft-door").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Theory]
    [InlineData(360)]
    [InlineData(1280)]
    public async Task Two_devices_write_in_one_cellar_and_one_is_shown_out(int width)
    {
        using (var store = AccessStore.Open(folder, TimeProvider.System))
            store.SetPassword(Password);
        await using var program = await BuiltProgram.ServeAt(folder, "http://0.0.0.0:0", "--today", "2026-11-24");
        var home = new Uri($"http://127.0.0.1:{program.Address.Port}/");
        var desk = await chromium.Open(width, 900, script: false);
        await desk.GotoAsync(home + "places");
        await desk.GetByLabel("What this device is called").FillAsync("desk");
        await desk.GetByLabel("Password").FillAsync("something else altogether");
        await desk.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await Assertions.Expect(desk.Locator(".note.refused")).ToContainTextAsync("That is not the password");
        await Assertions.Expect(desk.GetByLabel("What this device is called")).ToHaveValueAsync("desk");
        await Pictures.Look(desk, $"sign-in-{width}");
        await Measures.NoSidewaysScroll(desk);
        await Measures.GenerousTargets(desk);
        await desk.GetByLabel("Password").FillAsync(Password);
        await desk.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await Assertions.Expect(desk.GetByRole(AriaRole.Heading, new() { Name = "Places", Exact = true })).ToBeVisibleAsync();

        await desk.GotoAsync(home + "access");
        await desk.GetByRole(AriaRole.Button, new() { Name = "Make a code" }).ClickAsync();
        var code = await desk.Locator("p.code").TextContentAsync();
        await Pictures.Look(desk, $"pairing-{width}");

        var phone = await chromium.Open(360, 800, script: false);
        await phone.GotoAsync(home.ToString());
        await phone.GetByLabel("What this device is called").FillAsync("Ada's phone");
        await phone.GetByLabel("or a code from a device").FillAsync(code!);
        await phone.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await phone.GotoAsync(home + "add");
        await phone.GetByLabel("What you call it").First.FillAsync("<b>Evening</b> ribbon");
        await phone.GetByRole(AriaRole.Button, new() { Name = "Write these down" }).ClickAsync();
        await Assertions.Expect(phone.Locator(".note.done")).ToContainTextAsync("1 package");

        await desk.GotoAsync(home + "history");
        await Assertions.Expect(desk.Locator("main")).ToContainTextAsync("Ada's phone");
        await Assertions.Expect(desk.Locator("main")).ToContainTextAsync("<b>Evening</b> ribbon");
        await desk.GotoAsync(home + "access");
        await desk.GetByRole(AriaRole.Button, new() { Name = "Show it out" }).ClickAsync();
        await phone.GotoAsync(home + "packages");
        await Assertions.Expect(phone.GetByRole(AriaRole.Heading, new() { Name = "Sign in" })).ToBeVisibleAsync();
    }
}
