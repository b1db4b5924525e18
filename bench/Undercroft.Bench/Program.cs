using Undercroft.Bench;

return args is ["logger", .. var file] ? LoggerImport.Run(file) : args is ["sheet", .. var sheet] ? SheetImport.Run(sheet) : args is ["ledger", .. var rest] ? await LedgerSpeed.Run(rest) : ForecastEnsemble.Run(args);
