using Undercroft.Bench;

return ForecastEnsemble.Run(args);
