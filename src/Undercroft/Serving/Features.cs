using Undercroft.Forecasting;
using Undercroft.History;
using Undercroft.Importing;
using Undercroft.Importing.Answering;
using Undercroft.Keeping.Showing;
using Undercroft.Ledger;
using Undercroft.Places.Logging;
using Undercroft.Shell;
using Undercroft.Shell.Logs;
using Undercroft.Shell.Web;

namespace Undercroft.Serving;

/// <summary>What the rooms of the program bring to the page.</summary>
internal static class Features
{
    /// <summary>The navigation; a new page is a line here.</summary>
    private static readonly PageEntry[] Pages =
    [
        new(PageGroup.Week, 10, "/", "Due"),
        new(PageGroup.Cellar, 10, "/packages", "Packages"),
        new(PageGroup.Cellar, 30, "/places", "Places"),
        new(PageGroup.Ask, 10, "/ask", "Ask"),
        new(PageGroup.Ask, 20, "/compare", "Compare"),
        new(PageGroup.Records, 10, "/history", "History"),
        new(PageGroup.Records, 20, "/doubts", "Doubts"),
        new(PageGroup.Records, 30, "/import", "Bring a sheet"),
        new(PageGroup.Cellar, 34, "/loggers", "Loggers"),
        new(PageGroup.Cellar, 35, "/hygrometers", "Hygrometers"),
    ];

    /// <summary>Registers them.</summary>
    /// <param name="services">Of the host.</param>
    /// <param name="folder">The data folder.</param>
    /// <param name="cellars">Opened; closed with the host.</param>
    /// <param name="presentOf">The present of a cellar.</param>
    /// <param name="clock">For what waits in memory.</param>
    internal static void Add(IServiceCollection services, DataFolder folder, ICellars cellars, Func<Cellar, Present> presentOf, TimeProvider clock)
    {
        services.AddSingleton(_ => cellars);
        services.AddScoped(provider => new Desk(provider.GetRequiredService<ICellars>(), presentOf));
        services.AddSingleton(folder);
        services.AddSingleton<RecentAnswers>();
        services.AddSingleton(new WaitingSheets(clock));
        services.AddSingleton<KeptSheets>();
        services.AddSingleton(new UploadPath("/import", RequestGate.UploadBytes));
        services.AddSingleton(new WaitingLogs(clock));
        services.AddSingleton<WorkbookSheets>(LogWorkbook.Sheets);
        services.AddSingleton(new UploadPath("/loggers", RequestGate.UploadBytes));
        foreach (var entry in Pages)
            services.AddSingleton(entry);
        services.AddSingleton(new PackagePanel(10, typeof(ForecastPanel)));
        services.AddSingleton(new PackagePanel(20, typeof(ActsPanel)));
        services.AddSingleton(new PackagePanel(30, typeof(FactsPanel)));
        services.AddSingleton(new PackagePanel(90, typeof(HistoryPanel)));
    }
}
