using System.Net;
using Undercroft.Keeping.Adding;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Readings;
using Undercroft.Shell;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Tests.Places;

public sealed class PlacePageTests : IAsyncLifetime
{
    private readonly OpenPage page = new();

    public async ValueTask InitializeAsync()
    {
        await page.InitializeAsync();
        await Add("House", null, null);
        await Add("Closet", "House", "cupboard");
        await Add("Attic", "House", "attic");
    }

    public ValueTask DisposeAsync() => page.DisposeAsync();

    [Fact]
    public async Task A_place_has_its_page_by_name_and_by_id()
    {
        var closet = (await page.Cellar()).FindPlace("Closet").Id;
        var byName = await page.Read("/places/Closet");
        Assert.Contains("House › Closet", WebUtility.HtmlDecode(byName), StringComparison.Ordinal);
        Assert.Contains("class=\"verdict\"", byName, StringComparison.Ordinal);
        Assert.Contains("Rests on the room kind cupboard", byName, StringComparison.Ordinal);
        Assert.Contains("<svg", byName, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", byName, StringComparison.Ordinal);
        Assert.Contains("Mean kinetic temperature", await page.Read($"/places/{closet}"), StringComparison.Ordinal);
        Assert.Contains($"/places/{closet}", await page.Read("/places"), StringComparison.Ordinal);
        using var missing = await page.Send(HttpMethod.Get, "/places/Nowhere");
        Assert.Equal(HttpStatusCode.NotFound, missing.StatusCode);
    }

    [Fact]
    public async Task Readings_change_the_page_and_a_spell_is_asked_there()
    {
        var now = new DateTimeOffset(OpenPage.Today, new TimeOnly(9, 0), TimeSpan.Zero);
        await page.Cellars.ImportAsync(
            cellar => new ReadingBatch(
                Guid.CreateVersion7(now), PlaceCli.Year(OpenPage.Today.AddDays(-40), 365, 16.4, 3, 1, 58),
                taken => [CellarEvent.New(taken.Fact(new Fact.ReadingsImported(cellar.FindPlace("Closet").Id, "logger.csv", "9f86d081")), taken.Happened, now)]),
            TestContext.Current.CancellationToken);
        var shown = await page.Read("/places/Closet");
        Assert.Contains("8761 readings", shown, StringComparison.Ordinal);
        Assert.Contains("40 days ago", shown, StringComparison.Ordinal);
        Assert.Contains("id=\"sensors\"", shown, StringComparison.Ordinal);
        Assert.Contains("stuck: its humidity has not moved", shown, StringComparison.Ordinal); // 58 % throughout
        Assert.Contains("mean of a logged week", shown, StringComparison.Ordinal);
        Assert.Contains("Climate from its own log, last read", await page.Read("/places"), StringComparison.Ordinal);
        var spell = await page.Read("/places/Closet?From=2026-07-01&To=2026-07-10");
        Assert.Contains("than usual", spell, StringComparison.Ordinal);
        using var refused = await page.Send(HttpMethod.Get, "/places/Closet?From=2026-07-10&To=2026-07-01");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
    }

    [Fact]
    public async Task Places_are_compared_by_ticking_them()
    {
        Assert.Contains("type=\"checkbox\"", await page.Read("/places/compare"), StringComparison.Ordinal);
        var cellar = await page.Cellar();
        var found = await page.Read($"/places/compare?Place={cellar.FindPlace("Closet").Id}&Place={cellar.FindPlace("Attic").Id}");
        Assert.Contains("class=\"verdict\"", found, StringComparison.Ordinal);
        Assert.Contains("its room kind alone", found, StringComparison.Ordinal);
        Assert.Contains("No difference", await page.Read($"/places/compare?Place=Closet&Place=Closet"), StringComparison.Ordinal);
        using var refused = await page.Send(HttpMethod.Get, "/places/compare?Place=Closet&Place=Nowhere");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
    }

    [Fact]
    public async Task The_year_outdoors_is_written_down_on_the_page()
    {
        var id = (await page.Cellar()).FindPlace("House").Id;
        using var done = await page.Fill($"/places/{id}", "outdoors", ("Monthly", "1,2,5,9,14,17,19,18,15,10,5,2C"), ("Altitude", "450m"));
        Assert.Equal(HttpStatusCode.Redirect, done.StatusCode);
        Assert.NotNull((await page.Cellar()).OutdoorsAt(id));
        Assert.Contains("stated year outdoors", await page.Read("/places/Attic"), StringComparison.Ordinal);
        using var refused = await page.Fill($"/places/{id}", "outdoors", ("Monthly", "1,2C"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
    }

    [Fact]
    public async Task A_weather_file_is_handed_in_on_the_page()
    {
        var id = (await page.Cellar()).FindPlace("House").Id;
        var file = System.Text.Encoding.UTF8.GetBytes(PlaceCli.WeatherText());
        Assert.True(file.Length > 300_000, "Larger than any other form may be.");
        using (var done = await page.FillWithFile($"/places/{id}", "outdoors", "Weather", file))
            Assert.Equal(HttpStatusCode.Redirect, done.StatusCode);
        var cellar = await page.Cellar();
        Assert.Contains("Harrow Fell", cellar.OutdoorsAt(id)!.Text, StringComparison.Ordinal);
        Assert.Equal(310, cellar.AltitudeAt(id).Mid!.Value.Metres, 0.5);
        using var refused = await page.FillWithFile($"/places/{id}", "outdoors", "Weather", "not weather"u8.ToArray());
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains("LOCATION", await refused.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    private async Task Add(string name, string? inside, string? room) =>
        await AddPlace.To(page.Cellars, name, inside, room, null, null, null, cellar => Present.Of(OpenPage.Today, cellar, TimeProvider.System));
}
