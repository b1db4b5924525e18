using Undercroft.Bench;

return args is ["logger", .. var file] ? LoggerImport.Run(file) : args is ["ledger", .. var rest] ? await LedgerSpeed.Run(rest) : ForecastEnsemble.Run(args);
