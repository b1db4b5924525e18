using System.Reflection;
using System.Text.Json.Serialization;

namespace Undercroft.Ledger.Events;

/// <summary>The registered names of facts, as <see cref="Fact"/> lists them.</summary>
public static class FactNames
{
    private static readonly Dictionary<Type, string> Names = typeof(Fact).GetCustomAttributes<JsonDerivedTypeAttribute>()
        .ToDictionary(listed => listed.DerivedType, listed => (string)listed.TypeDiscriminator!);

    /// <summary>Every registered name, in the order of the list.</summary>
    public static IReadOnlyCollection<string> All => Names.Values;

    /// <summary>The name of a case.</summary>
    /// <exception cref="InvalidOperationException">The case is not registered.</exception>
    public static string Of(Type fact) => Names.TryGetValue(fact, out var name) ? name : throw new InvalidOperationException($"{fact} has no registered name.");
}
