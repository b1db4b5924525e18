using Undercroft.Bench;

return args is ["pages", .. var page] ? await PageSpeed.Run(page) : args is ["logger", .. var file] ? LoggerImport.Run(file) : args is ["sheet", .. var sheet] ? SheetImport.Run(sheet) : args is ["ledger", .. var rest] ? await LedgerSpeed.Run(rest) : ForecastEnsemble.Run(args);
