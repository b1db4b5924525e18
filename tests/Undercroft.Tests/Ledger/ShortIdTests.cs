using Undercroft.Ledger;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Tests.Ledger;

public class ShortIdTests
{
    private const string Alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

    [Fact]
    public void The_sequence_never_changes() =>
        Assert.Equal("QG9XS YB8CC 589DR D9QFH 579H3 308JA", string.Join(' ', ShortId.From(0).Take(6)));

    [Fact]
    public void The_check_character_is_crockfords_modulo_37()
    {
        foreach (var id in ShortId.From(0).Take(5000))
        {
            var text = id.ToString();
            var value = text[..4].Aggregate(0, (sum, symbol) => (sum * 32) + Alphabet.IndexOf(symbol, StringComparison.Ordinal));
            Assert.Equal(Alphabet[value % 37], text[4]);
        }
    }

    [Fact]
    public void Every_wrong_letter_and_every_swap_of_neighbours_is_noticed()
    {
        foreach (var text in ShortId.From(0).Take(300).Select(id => id.ToString()))
        {
            for (var i = 0; i < 5; i++)
            {
                foreach (var wrong in Alphabet.Where(symbol => symbol != text[i]))
                    Assert.False(ShortId.TryParse(text[..i] + wrong + text[(i + 1)..], out _, out _));
            }

            for (var i = 0; i < 4; i++)
            {
                if (text[i] != text[i + 1])
                    Assert.False(ShortId.TryParse(text[..i] + text[i + 1] + text[i] + text[(i + 2)..], out _, out _), $"{text} at {i}");
            }
        }
    }

    [Fact]
    public void All_differ_and_say_where_in_the_sequence_they_stand()
    {
        ShortId[] ids = [.. ShortId.From(0).Take(50_000)];
        Assert.Equal(ids.Length, ids.Distinct().Count());
        Assert.Equal(ids, ids.Order());
        Assert.Equal(ids[777], ShortId.From(ids[777].Counter).First());
        Assert.DoesNotContain("00000", ids.Select(id => id.ToString()));
    }

    [Fact]
    public void Neighbours_in_the_sequence_share_at_most_two_places()
    {
        string[] ids = [.. ShortId.From(0).Take(2000).Select(id => id.ToString())];
        foreach (var (a, b) in ids.Zip(ids.Skip(1)))
            Assert.True(a.Zip(b).Count(pair => pair.First == pair.Second) <= 2, $"{a} {b}");
    }

    [Fact]
    public void Reading_forgives_how_people_write()
    {
        var id = ShortId.From(0).First(candidate => candidate.ToString().Contains('1') && candidate.ToString().Contains('0'));
        foreach (var text in new[] { id.ToString().ToLowerInvariant(), id.ToString().Replace('1', 'l'), id.ToString().Replace('1', 'I'), id.ToString().Replace('0', 'o'), " " + id.ToString()[..2] + "-" + id.ToString()[2..] + " " })
        {
            Assert.True(ShortId.TryParse(text, out var read, out var why), why);
            Assert.Equal(id, read);
        }
    }

    [Theory]
    [InlineData("", "is not an ID")]
    [InlineData("12", "is not an ID")]
    [InlineData("UUUUU", "is not an ID")]
    [InlineData("12345", "is mistyped")]
    public void Refuses_with_the_reason(string text, string reason)
    {
        Assert.False(ShortId.TryParse(text, out _, out var why));
        Assert.Contains(reason, why, StringComparison.Ordinal);
    }

    [Fact]
    public void Nearest_counts_swaps_as_one_slip()
    {
        Assert.Equal(1, Nearest.Slips("ABCDE", "ABDCE"));
        Assert.Equal(1, Nearest.Slips("ABCDE", "ABCD"));
        Assert.Equal(3, Nearest.Slips("kitten", "sitting"));
        Assert.Equal("7K3QX", Nearest.To("7k3qy", ["ZZZZZ", "7K3QX", "7K000"], 1).Single());
    }

    [Fact]
    public void Words_of_lists_read_back()
    {
        foreach (var finding in Enum.GetValues<Undercroft.Ledger.Events.Finding>())
            Assert.Equal(finding, CodeWords.Find<Undercroft.Ledger.Events.Finding>(CodeWords.Of(finding).ToUpperInvariant().Replace('-', ' ')));
        Assert.Null(CodeWords.Find<Undercroft.Ledger.Events.Finding>("nothing of the sort"));
    }
}
