using Microsoft.Data.Sqlite;
using Undercroft.Ledger.Readings;

namespace Undercroft.Ledger.Sqlite;

/// <summary>Carries readings that lie one a row, as up to schema 2, into pieces.</summary>
internal static class PackRows
{
    /// <summary>Every batch of the file, within the transaction that is open.</summary>
    internal static void Of(SqliteConnection connection)
    {
        List<long> batches = [];
        using (var all = new RawStatement(connection.Handle!, "SELECT DISTINCT batch FROM readings ORDER BY batch"))
        {
            while (all.Step())
                batches.Add(all.Whole(0));
        }

        foreach (var number in batches)
            ReadingTable.Write(connection, number, Arrived.Packed(Rows(connection, number)));
    }

    private static IEnumerable<Reading> Rows(SqliteConnection connection, long number)
    {
        using var rows = new RawStatement(connection.Handle!, "SELECT utc, temperature_k, humidity_fraction, pressure_pa, light_lux FROM readings WHERE batch = ?1 ORDER BY utc");
        rows.Bind(1, number);
        while (rows.Step())
            yield return new Reading(rows.Whole(0), rows.Real(1), rows.Real(2), rows.Real(3), rows.Real(4));
    }
}
