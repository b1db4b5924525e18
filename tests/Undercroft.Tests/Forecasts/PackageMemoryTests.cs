using Undercroft.Forecasts;
using Undercroft.Forecasts.Due;
using Undercroft.Keeping.Adding;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Tests.Forecasts;

public sealed class PackageMemoryTests
{
    private static readonly DateOnly Today = new(2026, 5, 16);

    private static AddRequest Jar => new("Test", "burley", "ribbon", "100g", "512g", "412g", Container: "jar-473", Sealed: "2024-05-16", Place: "closet", Moisture: "14%");

    [Fact]
    public void A_weight_for_one_jar_leaves_what_is_known_of_the_other()
    {
        var (one, memory) = (new OneCellar(), new PackageMemory());
        var id = one.Add(Jar);
        var other = one.Add(Jar with { Blend = "Other" });
        Assert.Equal(2, Asked());
        Assert.Equal(0, Asked());
        Write(one, new Fact.PackageWeighed(id, new Mass(0.511), false, new Mass(0.0001), "511 g"));
        Assert.Equal(1, Asked());
        Write(one, new Fact.ContainerStated(other, new Container("jar-237")));
        Assert.Equal(2, Asked());
        Assert.Equal(2, Asked(Today.AddDays(1)));

        int Asked(DateOnly? today = null)
        {
            var cellar = one.Cellar;
            var asked = 0;
            foreach (var package in cellar.Here)
                memory.Of(cellar, package, today ?? Today, "any", () => $"{++asked}");
            return asked;
        }
    }

    [Fact]
    public void A_due_list_from_memory_is_the_due_list()
    {
        var (one, memory) = (new OneCellar(), new PackageMemory());
        var id = one.Add(Jar with { Container = "bag-zip" });
        one.Add(Jar with { Blend = "Other" });
        Assert.Equivalent(DueList.Of(one.Cellar, Today, 60), DueList.Of(one.Cellar, Today, 60, memory: memory), strict: true);
        Write(one, new Fact.PackageWeighed(id, new Mass(0.505), false, new Mass(0.0001), "505 g"));
        Assert.Equivalent(DueList.Of(one.Cellar, Today, 60), DueList.Of(one.Cellar, Today, 60, memory: memory), strict: true);
        Write(one, new Fact.PackageRemoved(id, RemovedAs.Given));
        Assert.Equivalent(DueList.Of(one.Cellar, Today, 60), DueList.Of(one.Cellar, Today, 60, memory: memory), strict: true);
    }

    private static void Write(OneCellar one, Fact fact) => one.Say("2026-05-16", fact);
}
