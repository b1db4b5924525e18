using Undercroft.Bench;

return args is ["ledger", .. var rest] ? await LedgerSpeed.Run(rest) : ForecastEnsemble.Run(args);
