using Undercroft.Physics.Inference;

namespace Undercroft.Physics.Climate.Years;

/// <summary>A mean and a wave about it, as three numbers: mean, cosine and sine part. What one believes of them carries its doubt.</summary>
internal static class Wave
{
    /// <summary>Size of the wave and its standard deviation.</summary>
    public static (double Size, double Sd) SizeOf(GaussianBelief belief, int cosine = 1, int sine = 2)
    {
        var (c, s) = (belief.Mean(cosine), belief.Mean(sine));
        var size = Math.Sqrt((c * c) + (s * s));
        return size > 0 ? (size, Along(belief, cosine, sine, c / size, s / size)) : (0, belief.Sd(cosine));
    }

    /// <summary>Angle at which the wave is highest, and its standard deviation, rad; at most that of not knowing it at all.</summary>
    public static (double Angle, double Sd) CrestOf(GaussianBelief belief, int cosine = 1, int sine = 2)
    {
        var (c, s) = (belief.Mean(cosine), belief.Mean(sine));
        var size = Math.Sqrt((c * c) + (s * s));
        var unknown = Math.PI / Math.Sqrt(3);
        return size > 0 ? (Math.Atan2(s, c), Math.Min(unknown, Along(belief, cosine, sine, -s / size, c / size) / size)) : (0, unknown);
    }

    /// <summary>Cosine and sine part of a wave of which size and crest are known with a doubt.</summary>
    public static GaussianBelief Of((double Mean, double Sd) size, double crest, double crestSd)
    {
        var (cos, sin) = (Math.Cos(crest), Math.Sin(crest));
        var across = Math.Abs(size.Mean) * Math.Sin(Math.Min(crestSd, Math.PI / 2));
        return GaussianBelief.Independent((size.Mean, size.Sd), (0, Math.Max(across, 0.25 * size.Sd))).Mapped(new[,] { { cos, -sin }, { sin, cos } });
    }

    private static double Along(GaussianBelief belief, int cosine, int sine, double x, double y) => Math.Sqrt(Math.Max(
        0, (x * x * belief.Covariance(cosine, cosine)) + (2 * x * y * belief.Covariance(cosine, sine)) + (y * y * belief.Covariance(sine, sine))));
}
