using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;

namespace Undercroft.Tests.Ledger;

/// <summary>A small invented household: a cupboard, a lot of ribbon sealed in two jars in March 2016, and events with IDs that count up.</summary>
internal sealed class Household
{
    private readonly List<CellarEvent> events = [];

    internal Household()
    {
        ShortId[] ids = [.. ShortId.From(0).Take(5)];
        Cupboard = new PlaceId(ids[0]);
        Loft = new PlaceId(ids[1]);
        Ribbon = new LotId(ids[2]);
        Jar = new PackageId(ids[3]);
        Other = new PackageId(ids[4]);
        AddCupboard = Add(new Fact.PlaceAdded(Cupboard, "Cupboard", RoomKind: "cupboard"));
        Add(new Fact.PlaceAdded(Loft, "Loft"));
        AddRibbon = Add(new Fact.LotAdded(Ribbon, new Blend("Evening ribbon", [new LeafShare("flue-cured")], "ribbon"), UnevenDate.Parse("2015"), StatedMass.Parse("200g", SaidBy.Label)));
        AddJars = Add(new Fact.PackagesAdded(
            Ribbon,
            [Jar, Other],
            new Container("jar-473", Tare: StatedMass.Parse("400g", SaidBy.Weighed)),
            StatedMass.Parse("100g", SaidBy.Label),
            StatedMass.Parse("500g", SaidBy.Weighed),
            Sealed: UnevenDate.Parse("2016-03-10"),
            Place: Cupboard));
    }

    internal PlaceId Cupboard { get; }

    internal PlaceId Loft { get; }

    internal LotId Ribbon { get; }

    internal PackageId Jar { get; }

    internal PackageId Other { get; }

    internal CellarEvent AddCupboard { get; }

    internal CellarEvent AddRibbon { get; }

    internal CellarEvent AddJars { get; }

    internal IReadOnlyList<CellarEvent> Events => events;

    internal Cellar Cellar => Cellar.Fold(events);

    internal Package TheJar => Cellar.Packages[Jar];

    /// <summary>An ID that counts up, and a minute of recording that does too, from noon of 1 May 2020.</summary>
    internal static CellarEvent New(int number, Fact fact, string? happened = null) => new(
        0,
        new Guid(number, 0, 0, [0, 0, 0, 0, 0, 0, 0, 1]),
        UnevenDate.Parse(happened),
        new DateTimeOffset(2020, 5, 1, 12, 0, 0, TimeSpan.Zero).AddMinutes(number),
        fact);

    internal CellarEvent Next(Fact fact, string? happened = null) => New(events.Count + 1, fact, happened);

    /// <summary>Adds what the rules allow.</summary>
    internal CellarEvent Add(Fact fact, string? happened = null)
    {
        var line = Next(fact, happened);
        Rules.Check(Cellar, [line]);
        line = line with { Version = events.Count + 1 };
        events.Add(line);
        return line;
    }

    internal string Refused(Fact fact, string? happened = null) => Xunit.Assert.Throws<Refusal>(() => Rules.Check(Cellar, [Next(fact, happened)])).Message;

    internal Fact.PackageWeighed Weighed(double grams, bool net = false) => new(Jar, Mass.FromGrams(grams), net, Mass.FromGrams(0.1));
}
