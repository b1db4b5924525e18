using Undercroft.Bench;

return args switch
{
    ["pages", .. var rest] => await PageSpeed.Run(rest),
    ["ledger", .. var rest] => await LedgerSpeed.Run(rest),
    ["due", .. var rest] => await DueSpeed.Run(rest),
    ["sheet", .. var rest] => SheetImport.Run(rest),
    ["kinds", .. var rest] => KindSpeed.Run(rest),
    ["logger", .. var rest] => LoggerImport.Run(rest),
    _ => ForecastEnsemble.Run(args),
};
