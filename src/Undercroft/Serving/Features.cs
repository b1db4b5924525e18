using Undercroft.Access;
using Undercroft.Backups;
using Undercroft.Calendars;
using Undercroft.Forecasting;
using Undercroft.History;
using Undercroft.Importing;
using Undercroft.Importing.Answering;
using Undercroft.Keeping.Photos;
using Undercroft.Keeping.Rounds;
using Undercroft.Keeping.Showing;
using Undercroft.Ledger;
using Undercroft.Places.Logging;
using Undercroft.Printing;
using Undercroft.Shell;
using Undercroft.Shell.Logs;
using Undercroft.Shell.Web;
using Undercroft.Worth;

namespace Undercroft.Serving;

/// <summary>What the rooms of the program bring to the page.</summary>
internal static class Features
{
    /// <summary>The navigation; a new page is a line here.</summary>
    private static readonly PageEntry[] Pages =
    [
        new(PageGroup.Week, 10, "/", "Due"),
        new(PageGroup.Week, 20, "/round", "Round"),
        new(PageGroup.Week, 30, "/calendar", "Calendar"),
        new(PageGroup.Week, 40, "/trouble", "Trouble"),
        new(PageGroup.Cellar, 10, "/packages", "Packages"),
        new(PageGroup.Cellar, 20, "/lots", "Lots"),
        new(PageGroup.Cellar, 25, "/map", "Map"),
        new(PageGroup.Cellar, 30, "/places", "Places"),
        new(PageGroup.Cellar, 40, "/totals", "Totals"),
        new(PageGroup.Cellar, 50, "/value", "Value"),
        new(PageGroup.Ask, 10, "/ask", "Ask"),
        new(PageGroup.Ask, 20, "/compare", "Compare"),
        new(PageGroup.Ask, 30, "/calculators", "Calculators"),
        new(PageGroup.Ask, 40, "/beliefs", "Beliefs"),
        new(PageGroup.Ask, 50, "/practice", "Practice"),
        new(PageGroup.Ask, 60, "/kinds", "Kinds"),
        new(PageGroup.Records, 10, "/history", "History"),
        new(PageGroup.Records, 15, "/changes", "Changes"),
        new(PageGroup.Records, 90, "/backup", "Backup"),
        new(PageGroup.Records, 20, "/doubts", "Doubts"),
        new(PageGroup.Records, 30, "/import", "Bring a sheet"),
        new(PageGroup.Cellar, 34, "/loggers", "Loggers"),
        new(PageGroup.Cellar, 35, "/hygrometers", "Hygrometers"),
        new(PageGroup.Records, 40, "/print", "Paper"),
        new(PageGroup.Access, 10, "/access", "Who may come in"),
        new(PageGroup.Access, 20, "/you", "This device"),
    ];

    /// <summary>Registers them.</summary>
    /// <param name="services">Of the host.</param>
    /// <param name="folder">The data folder.</param>
    /// <param name="cellars">Opened; closed with the host.</param>
    /// <param name="presentOf">The present of a cellar.</param>
    /// <param name="clock">For what waits in memory.</param>
    internal static void Add(IServiceCollection services, DataFolder folder, ICellars cellars, Func<Cellar, Present> presentOf, TimeProvider clock)
    {
        services.AddSingleton(_ => AccessStore.Open(folder.Path, clock));
        services.AddSingleton(_ => new OpenedCellars(cellars));
        services.AddScoped<ICellars>(provider => new HandedCellars(provider.GetRequiredService<OpenedCellars>().Cellars, () => provider.GetRequiredService<Visit>().Name));
        services.AddScoped(provider => new Handed(provider.GetRequiredService<ICellars>(), presentOf));
        services.AddScoped(provider => new Desk(provider.GetRequiredService<ICellars>(), presentOf));
        services.AddSingleton(folder);
        services.AddSingleton(clock);
        services.AddSingleton<RecentAnswers>();
        services.AddSingleton<SentForms>();
        services.AddSingleton(new WaitingSheets(clock));
        services.AddSingleton<KeptSheets>();
        services.AddSingleton(new UploadPath("/import", RequestGate.UploadBytes));
        services.AddSingleton(new WaitingLogs(clock));
        services.AddSingleton<WorkbookSheets>(LogWorkbook.Sheets);
        services.AddSingleton(new UploadPath("/loggers", RequestGate.UploadBytes));
        services.AddSingleton(new UploadPath("/places", RequestGate.UploadBytes));
        services.AddSingleton(BackupDoor.Download);
        services.AddSingleton(new FootLine(10, typeof(BackupLine)));
        services.AddSingleton(CalendarCommand.Feed);
        services.AddScoped(provider => new PhotoKeeping(provider.GetRequiredService<Desk>().Cellars, folder, presentOf));
        services.AddSingleton(PhotoFiles.Address);
        foreach (var address in RoundFiles.All)
            services.AddSingleton(address);
        services.AddSingleton(new UploadPath("/round", PhotoFiles.MostBytes));
        services.AddSingleton(new UploadPath("/packages", PhotoFiles.MostBytes));
        services.AddSingleton(new PackagePanel(25, typeof(PhotosPanel)));
        foreach (var paper in PrintFiles.All)
            services.AddSingleton(paper);
        foreach (var entry in Pages)
            services.AddSingleton(entry);
        services.AddSingleton(new PackagePanel(10, typeof(ForecastPanel)));
        services.AddSingleton(new PackagePanel(15, typeof(WhatIfPanel)));
        services.AddSingleton(new PackagePanel(20, typeof(ActsPanel)));
        services.AddSingleton(new PackagePanel(25, typeof(NotesPanel)));
        services.AddSingleton(new LotPanel(10, typeof(ValueForm)));
        services.AddSingleton(new PackagePanel(30, typeof(FactsPanel)));
        services.AddSingleton(new PackagePanel(90, typeof(HistoryPanel)));
    }

    /// <summary>The open cellar, closed with the host.</summary>
    private sealed class OpenedCellars(ICellars cellars) : IDisposable
    {
        internal ICellars Cellars => cellars;

        public void Dispose() => (cellars as IDisposable)?.Dispose();
    }
}
