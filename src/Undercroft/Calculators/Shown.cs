using System.Globalization;
using Spectre.Console;

namespace Undercroft.Calculators;

/// <summary>A calculator's answer for people: the verdict on the first line, then what it rests on.</summary>
internal static class Shown
{
    /// <summary>Prints lines as they stand.</summary>
    public static Action<IAnsiConsole> Lines(params string?[] lines) => console =>
    {
        foreach (var line in lines)
        {
            if (line is not null)
                console.Write(new Text(line + "\n"));
        }
    };

    /// <summary>A number with a fixed form, culture-invariant.</summary>
    public static string As(this double number, string form) => number.ToString(form, CultureInfo.InvariantCulture);

    /// <summary>About three significant digits.</summary>
    public static string Rounded(this double number)
    {
        if (number == 0)
            return "0";
        var size = Math.Abs(number);
        return size is >= 0.01 and < 1e6
            ? number.ToString("0." + new string('#', Math.Max(0, 2 - (int)Math.Floor(Math.Log10(size)))), CultureInfo.InvariantCulture)
            : number.ToString("0.##E+0", CultureInfo.InvariantCulture);
    }
}
