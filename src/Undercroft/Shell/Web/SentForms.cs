using System.Security.Cryptography;
using System.Text;

namespace Undercroft.Shell.Web;

/// <summary>
/// Which forms were sent a little while ago: the back button shows a form filled as it was sent, and whoever presses its button again would write everything twice.
/// </summary>
/// <remarks>Kept in memory as digests; nothing of what was typed is.</remarks>
public sealed class SentForms(TimeProvider clock)
{
    private const int Most = 1000;
    private static readonly TimeSpan While = TimeSpan.FromMinutes(30);
    private readonly Lock guard = new();
    private readonly Dictionary<string, DateTimeOffset> sent = [];

    /// <summary>How long ago the very same was sent and done; null where it was not. Asked once, it is forgotten: who sends it again means it.</summary>
    public TimeSpan? Ago(HttpRequest request)
    {
        lock (guard)
            return sent.Remove(Digest(request), out var at) && clock.GetUtcNow() - at is var ago && ago <= While ? ago : null;
    }

    /// <summary>Remembers that it was sent and done.</summary>
    public void Done(HttpRequest request)
    {
        lock (guard)
        {
            if (sent.Count >= Most)
            {
                foreach (var old in sent.OrderBy(form => form.Value).Take(Most / 2).Select(form => form.Key).ToList())
                    sent.Remove(old);
            }

            sent[Digest(request)] = clock.GetUtcNow();
        }
    }

    private static string Digest(HttpRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var words = new StringBuilder(request.Path);
        foreach (var (name, value) in request.Form.Where(field => field.Key != "__RequestVerificationToken").OrderBy(field => field.Key, StringComparer.Ordinal))
            words.Append('\n').Append(name).Append('=').AppendJoin('\t', value.ToArray());
        foreach (var file in request.Form.Files)
            words.Append('\n').Append(file.Name).Append('=').Append(file.FileName).Append(' ').Append(file.Length);
        return Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(words.ToString())));
    }
}
