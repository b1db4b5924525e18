using System.Text.Json;

namespace Undercroft.Ledger.Events;

/// <summary>The rows of a sheet that were doubted.</summary>
internal static partial class QuickLine
{
    private static Fact.RowDoubted? Doubted(ref Utf8JsonReader reader)
    {
        reader.Read();
        if (!Words(ref reader, "file"u8, out var file) || file is null || !Words(ref reader, "sha256"u8, out var sha256) || sha256 is null
            || !Named(ref reader, "row"u8) || !reader.TryGetInt32(out var row) || !Next(ref reader, "cells"u8) || reader.TokenType != JsonTokenType.StartArray)
            return null;
        List<string> cells = [];
        while (reader.Read() && reader.TokenType == JsonTokenType.String)
            cells.Add(reader.GetString()!);
        if (reader.TokenType != JsonTokenType.EndArray || !reader.Read() || !Words(ref reader, "reason"u8, out var reason) || reason is null || !Words(ref reader, "sheet"u8, out var sheet))
            return null;
        List<Guid>? brought = null;
        if (Named(ref reader, "brought"u8))
        {
            if (reader.TokenType != JsonTokenType.StartArray)
                return null;
            brought = [];
            while (reader.Read() && reader.TokenType == JsonTokenType.String)
                brought.Add(reader.GetGuid());
            if (reader.TokenType != JsonTokenType.EndArray)
                return null;
            reader.Read();
        }

        return reader.TokenType == JsonTokenType.EndObject ? new Fact.RowDoubted(file, sha256, row, cells, reason, sheet, brought) : null;
    }
}
