using CsCheck;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Tests.Ledger;

public class StatedTests
{
    [Theory]
    [InlineData("50g", Evenness.Exact, 50, 50)]
    [InlineData("0.05 kg", Evenness.Exact, 50, 50)]
    [InlineData("~50g", Evenness.About, 45, 55)]
    [InlineData("about 50 g", Evenness.About, 45, 55)]
    [InlineData("ca. 50g", Evenness.About, 45, 55)]
    [InlineData("50g?", Evenness.About, 45, 55)]
    [InlineData("40g..60g", Evenness.Between, 40, 60)]
    [InlineData("40-60g", Evenness.Between, 40, 60)]
    [InlineData("40 – 60 g", Evenness.Between, 40, 60)]
    [InlineData("between 40 and 60 g", Evenness.Between, 40, 60)]
    [InlineData("40g to 0.06kg", Evenness.Between, 40, 60)]
    [InlineData("42,5..50 g", Evenness.Between, 42.5, 50)]
    [InlineData("-4g", Evenness.Exact, -4, -4)]
    public void Reads_masses(string text, Evenness evenness, double low, double high)
    {
        Assert.True(StatedMass.TryParse(text, SaidBy.Label, out var mass, out var why), why);
        Assert.Equal(evenness, mass.Si.Evenness);
        Assert.Equal(low, mass.Low!.Value.Grams, 9);
        Assert.Equal(high, mass.High!.Value.Grams, 9);
        Assert.Equal((low + high) / 2, mass.Mid!.Value.Grams, 9);
        Assert.Equal(SaidBy.Label, mass.By);
        Assert.Equal(text, mass.Text);
    }

    [Theory]
    [InlineData("")]
    [InlineData("unknown")]
    [InlineData("??")]
    [InlineData(null)]
    public void Nobody_knows(string? text)
    {
        Assert.True(StatedMass.TryParse(text, SaidBy.Memory, out var mass, out _));
        Assert.False(mass.IsKnown);
        Assert.Null(mass.Low);
        Assert.Null(mass.Mid);
        Assert.Null(mass.High);
    }

    [Theory]
    [InlineData("50", "has no unit")]
    [InlineData("40..60", "has no unit")]
    [InlineData("60g..40g", "runs backwards")]
    [InlineData("a handful", "is not a mass")]
    [InlineData("50ml", "is not a unit of mass")]
    public void Refuses_with_the_reason(string text, string reason)
    {
        Assert.False(StatedMass.TryParse(text, SaidBy.Label, out var mass, out var why));
        Assert.Contains(reason, why, StringComparison.Ordinal);
        Assert.False(mass.IsKnown);
        Assert.Contains(reason, Assert.Throws<Refusal>(() => StatedMass.Parse(text)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Reads_the_other_quantities()
    {
        Assert.Equal(473, StatedVolume.Parse("473ml").Mid!.Value.Millilitres, 9);
        Assert.Equal(0.65, StatedFraction.Parse("65%").Mid!.Value, 12);
        Assert.Equal((0.45, 0.6), (StatedFraction.Parse("45-60%").Low!.Value, StatedFraction.Parse("45-60%").High!.Value));
        Assert.Equal(16, StatedTemperature.Parse("16C..22C").Low!.Value.Celsius, 9);
        Assert.Equal(22, StatedTemperature.Parse("16C..22C").High!.Value.Celsius, 9);
        Assert.Equal(20, StatedTemperature.Parse("68F").Mid!.Value.Celsius, 9);
        Assert.Equal(500, StatedLength.Parse("500m").Mid!.Value.Metres, 9);
    }

    [Fact]
    public void Printing_and_reading_back_gives_the_same_amount()
    {
        Gen.Select(Gen.Double[1e-4, 100], Gen.Double[0, 10], Gen.Int[0, 3]).Sample(
            (first, more, kind) =>
            {
                var mass = kind switch
                {
                    0 => StatedMass.Unknown,
                    1 => StatedMass.Exactly(new Mass(first)),
                    2 => StatedMass.About(new Mass(first)),
                    _ => StatedMass.Between(new Mass(first), new Mass(first + more)),
                };
                var again = StatedMass.Parse(mass.ToString());
                Assert.Equal(mass.Si with { Text = again.Text }, again.Si);
            },
            seed: Gens.Seed);
    }

    [Theory]
    [InlineData("50 g or so", 45, 55)]
    [InlineData("50g or so", 45, 55)]
    [InlineData("100 g approx.", 90, 110)]
    public void What_is_said_to_be_so_or_so_is_about(string text, double low, double high)
    {
        var mass = StatedMass.Parse(text);
        Assert.Equal((Evenness.About, low, high), (mass.Si.Evenness, Math.Round(mass.Low!.Value.Grams, 9), Math.Round(mass.High!.Value.Grams, 9)));
    }

    [Fact]
    public void A_missing_unit_is_named_whatever_stands_behind_the_number() =>
        Assert.Contains("'50' has no unit", Assert.Throws<Refusal>(() => StatedMass.Parse("50 or so")).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("12.50 EUR", 12.5, 12.5, "EUR")]
    [InlineData("€9,50", 9.5, 9.5, "€")]
    [InlineData("~ $12", 10.8, 13.2, "$")]
    [InlineData("10..12 GBP", 10, 12, "GBP")]
    [InlineData("20EUR..80EUR", 20, 80, "EUR")]
    [InlineData("20 EUR to 80 EUR", 20, 80, "EUR")]
    [InlineData("£20-£80", 20, 80, "£")]
    [InlineData("20 to 80 EUR", 20, 80, "EUR")]
    public void Reads_money_and_keeps_the_currency_as_written(string text, double low, double high, string currency)
    {
        var money = Money.Parse(text, SaidBy.Receipt)!;
        Assert.Equal(((decimal)low, (decimal)high, currency), (money.Low, money.High, money.Currency));
        var again = Money.Parse(money.ToString(), SaidBy.Receipt)!;
        Assert.Equal(money with { Text = null }, again with { Text = null });
    }

    [Theory]
    [InlineData("12")]
    [InlineData("EUR")]
    [InlineData("EUR 12 USD")]
    [InlineData("12..10 EUR")]
    [InlineData("20EUR..80USD")]
    [InlineData("20EUR..80")]
    public void Refuses_what_is_no_money(string text) => Assert.Throws<Refusal>(() => Money.Parse(text));

    [Fact]
    public void Parsers_never_throw_on_any_text() => Gen.String.Sample(
        text =>
        {
            StatedMass.TryParse(text, SaidBy.Guess, out _, out _);
            StatedFraction.TryParse(text, SaidBy.Guess, out _, out _);
            Money.TryParse(text, SaidBy.Guess, out _, out _);
        },
        seed: Gens.Seed);
}
