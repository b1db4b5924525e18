using Microsoft.Data.Sqlite;
using Undercroft.Ledger;
using Undercroft.Shell.Web;

namespace Undercroft.Access;

public sealed partial class AccessStore
{
    private const string TokenColumns = "SELECT id, name, scopes, made, used, revoked FROM tokens";

    /// <summary>Tokens that were made, the latest first; revoked ones too.</summary>
    public IReadOnlyList<Token> Tokens => [.. Rows(TokenColumns, TokenOf).OrderBy(token => token.Revoked).ThenByDescending(token => token.Made)];

    /// <summary>Makes a token for a program.</summary>
    /// <param name="name">As history shall call the program.</param>
    /// <param name="may">What it may do; at least one thing.</param>
    /// <returns>The token, and its secret, which is never shown again.</returns>
    /// <exception cref="Refusal">No name, or nothing that it may do.</exception>
    public (Token Token, string Secret) NewToken(string? name, Scope may)
    {
        if (may == Scope.None)
            throw new Refusal($"A token must be good for something: {ScopeWords.All}.");
        var (id, secret) = (Secrets.Id(), Secrets.Token());
        Write("INSERT INTO tokens (id, name, digest, scopes, made) VALUES ($1, $2, $3, $4, $5)", id, Named(name), Secrets.Digest(secret), ScopeWords.Of(may), Now);
        return (Tokens.Single(token => token.Id == id), secret);
    }

    /// <summary>The token of a secret, where it holds; null otherwise.</summary>
    public Token? TokenOf(string secret)
    {
        var token = Rows(TokenColumns + " WHERE digest = $1 AND revoked IS NULL", TokenOf, Secrets.Digest(secret)).SingleOrDefault();
        if (token is not null && !(clock.GetUtcNow() - token.Used < SeenStep))
            Write("UPDATE tokens SET used = $2 WHERE id = $1", token.Id, Now);
        return token;
    }

    private static Token TokenOf(SqliteDataReader row) => new(
        row.GetString(0), row.GetString(1), ScopeWords.Read(row.GetString(2)), Instant(row.GetString(3)), row.IsDBNull(4) ? null : Instant(row.GetString(4)), !row.IsDBNull(5));
}
