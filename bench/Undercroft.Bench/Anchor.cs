using System.Diagnostics;
using System.Globalization;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Storage;

namespace Undercroft.Bench;

/// <summary>A published stiff solver on the same packages: compiled from bench/anchor/cvode.c where its library is installed.</summary>
internal static class Anchor
{
    private const int Packages = 12;
    private const int Years = 30;

    /// <summary>Time and error of the solver, tuned and in full, and the ratios to ours.</summary>
    /// <param name="report">Where to.</param>
    /// <param name="ours">Seconds of CPU a trajectory of E1, one thread.</param>
    public static void Against(Report report, double ours)
    {
        var program = Compiled();
        if (program is null)
        {
            report.Say("No outside anchor: libsundials or a C compiler is not installed here.");
            return;
        }

        var places = Case.Places(Ensemble.E1, Years);
        Case[] cases = [.. Enumerable.Range(0, Packages).Select(p => Case.Of(Ensemble.E1, p, 1, Years, places[p % places.Length]))];
        var fine = Array.ConvertAll(cases, each => ForecastEnsemble.Fine(each, each.Course.OutputDays));
        List<string> lines = [];
        foreach (var (mode, repeats, what) in new[] { ("tuned", 20, "tuned: rtol 1e-4, daily means tabulated, analytic Jacobian"), ("full", 1, "full: rtol 1e-6, the day's swing followed, analytic Jacobian") })
        {
            var (seconds, worst) = Ran(program, mode, repeats, cases, fine);
            lines.Add(string.Create(
                CultureInfo.InvariantCulture, $"{what} | {seconds * 1e3:0.00} | {seconds / ours:0} | {worst[0]:0.0000} | {worst[1]:0.0000} | {worst[2]:0.0000} | {worst[3]:0.0000}"));
        }

        report.Say("CVODE, one thread, means over the same twelve packages, its distances from the fine engine's daily means:");
        report.Table("CVODE | CPU a trajectory, ms | times ours | moisture, points | oxygen, kPa | carbon dioxide, kPa | total, kPa", lines);
        report.Say("Part of either ratio is mathematics that the anchor could also be given: tables shared by all draws, a year's maps made once and used thirty times, leaf left alone once it repeats itself.");
    }

    private static (double Seconds, double[] Worst) Ran(string program, string mode, int repeats, Case[] cases, double[][][] fine)
    {
        ProcessStartInfo start = new(program, [mode, repeats.ToString(CultureInfo.InvariantCulture)]) { RedirectStandardInput = true, RedirectStandardOutput = true };
        using var process = Process.Start(start) ?? throw new InvalidOperationException("The anchor did not start.");
        foreach (var each in cases)
            process.StandardInput.WriteLine(Told(each));
        process.StandardInput.Close();
        var (seconds, worst) = (0.0, new double[4]);
        for (var p = 0; p < cases.Length; p++)
        {
            var head = Numbers(process.StandardOutput);
            if (head[0] != 0)
                throw new InvalidOperationException("The anchor gave up.");
            seconds += head[1] / cases.Length;
            foreach (var row in fine[p])
            {
                var numbers = Numbers(process.StandardOutput);
                worst[0] = Math.Max(worst[0], 100 * Math.Abs((numbers[0] / (1 + numbers[0])) - row[0]));
                for (var k = 1; k < 4; k++)
                    worst[k] = Math.Max(worst[k], Math.Abs(numbers[k] - row[k]) / 1000);
            }
        }

        return (seconds, worst);
    }

    private static double[] Numbers(StreamReader from) =>
        [.. (from.ReadLine() ?? throw new InvalidOperationException("The anchor fell silent.")).Split(' ').Select(each => double.Parse(each, CultureInfo.InvariantCulture))];

    private static string Told(Case each)
    {
        var model = each.Middle;
        var gab = (GabIsotherm)each.Leaf;
        var place = (SinusoidClimate)each.Climate;
        var path = model.Paths[0];
        double[] numbers =
        [
            model.DryMass.Kilograms, gab.Monolayer, gab.C, gab.K, ((Headspace.Rigid)model.Headspace).Volume.CubicMetres,
            path.Water.AtReference, path.Water.ActivationEnergy, path.Oxygen.AtReference, path.Oxygen.ActivationEnergy,
            path.CarbonDioxide.AtReference, path.CarbonDioxide.ActivationEnergy, path.Nitrogen.AtReference, path.Nitrogen.ActivationEnergy,
            model.Uptake.Rate * 86400, model.Uptake.Q10, model.Uptake.RespiratoryQuotient,
            place.MeanCelsius, place.AnnualCelsius, place.DailyCelsius, place.AnnualPhase, place.MeanHumidity, place.AnnualHumidity, place.AnnualHumidityPhase, place.Pascals,
            each.StartActivity, Years * 4,
        ];
        return string.Join(' ', numbers.Select(number => number.ToString("R", CultureInfo.InvariantCulture)));
    }

    private static string? Compiled()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Undercroft.slnx")))
            folder = folder.Parent;
        if (folder is null)
            return null;
        var program = Path.Combine(AppContext.BaseDirectory, "cvode-anchor");
        string[] arguments =
        [
            "-O3", "-march=native", "-o", program, Path.Combine(folder.FullName, "bench", "anchor", "cvode.c"),
            "-lsundials_cvode", "-lsundials_nvecserial", "-lsundials_sunmatrixdense", "-lsundials_sunlinsoldense", "-lm",
        ];
        try
        {
            using var compiler = Process.Start(new ProcessStartInfo("cc", arguments) { RedirectStandardError = true });
            compiler?.WaitForExit();
            return compiler?.ExitCode == 0 ? program : null;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null; // no compiler
        }
    }
}
