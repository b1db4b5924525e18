namespace Undercroft.Physics.Solving;

/// <summary>How closely a solution is followed.</summary>
/// <param name="Relative">Error per step over the size of a state, above zero.</param>
/// <param name="Absolute">Error per step that is always allowed, one per state, above zero: what counts as nothing in its unit.</param>
public sealed record SolverTolerance(double Relative, IReadOnlyList<double> Absolute);

/// <summary>How an integration ended, or that it goes on.</summary>
public enum SolverStatus
{
    /// <summary>All well so far.</summary>
    Running,

    /// <summary>The step shrank to the rounding unit of time: the field is not smooth enough, or not finite.</summary>
    StepTooSmall,

    /// <summary>More steps than allowed.</summary>
    TooManySteps,
}

/// <summary>A stiff integrator with error control: the reference against which everything faster is judged. It knows no leaf.</summary>
/// <remarks>
/// <para><b>Equation</b> (I/(γh) − J) u_i = f(t + α_i h, y + Σ a_ij u_j) + Σ (c_ij/h) u_j + γ_i h ∂f/∂t, i = 1 … 6; y₁ = y + Σ a_6j u_j + u_5 + u_6, error estimate u_6.</para>
/// <para><b>Source</b> [HairerWanner1996] §IV.7 and §VI.4, method RODAS; coefficients from memory, borne out by the observed order.</para>
/// <para><b>Valid</b> stiff and non-stiff systems; L-stable, stiffly accurate.</para>
/// <para><b>Error</b> order 4, dense output order 3; each step keeps its estimate under the stated tolerance.</para>
/// </remarks>
public sealed class Rodas
{
    private const int Stages = 6;
    private const double Gamma = 0.25;

    private static readonly double[] Alpha = [0, 0.386, 0.21, 0.63, 1, 1];
    private static readonly double[] GammaOfTime = [0.25, -0.1043, 0.1035, -0.03620000000000023, 0, 0];

    private static readonly double[][] A =
    [
        [],
        [1.544],
        [0.9466785280815826, 0.2557011698983284],
        [3.314825187068521, 2.896124015972201, 0.9986419139977817],
        [1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950],
        [1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 1],
    ];

    private static readonly double[][] C =
    [
        [],
        [-5.6688],
        [-2.430093356833875, -0.2063599157091915],
        [-0.1073529058151375, -9.594562251023355, -20.47028614809616],
        [7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160],
        [8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054],
    ];

    private static readonly double[] Dense3 = [10.12623508344586, -7.487995877610167, -34.80091861555747, -7.992771707568823, 1.025137723295662];
    private static readonly double[] Dense4 = [-0.6762803392806898, 6.087714651680015, 16.43084320892478, 24.76722511418386, -6.594389125716872];

    private readonly IVectorField field;
    private readonly SolverTolerance tolerance;
    private readonly int n;
    private readonly double[] state;
    private readonly double[] before;
    private readonly double[] trial;
    private readonly double[] rate;
    private readonly double[] timeRate;
    private readonly double[] jacobian;
    private readonly double[] scale;
    private readonly double[] scratch;
    private readonly double[][] u = new double[Stages][];
    private readonly LinearSystem system;
    private double step;
    private bool shrank;

    /// <summary>Starts at a time and a state.</summary>
    /// <param name="field">The equations.</param>
    /// <param name="time">Where to start.</param>
    /// <param name="start">State there.</param>
    /// <param name="tolerance">How closely to follow.</param>
    /// <param name="firstStep">A first guess of the step, above zero.</param>
    public Rodas(IVectorField field, double time, ReadOnlySpan<double> start, SolverTolerance tolerance, double firstStep)
    {
        ArgumentNullException.ThrowIfNull(field);
        ArgumentNullException.ThrowIfNull(tolerance);
        if (!(firstStep > 0 && double.IsFinite(firstStep)))
            throw new ArgumentOutOfRangeException(nameof(firstStep), firstStep, "The first step is above zero and finite.");
        if (!(tolerance.Relative > 0) || tolerance.Absolute.Count != field.Dimension || !tolerance.Absolute.All(each => each > 0))
            throw new ArgumentOutOfRangeException(nameof(tolerance), "Tolerances are above zero, one absolute one per state.");
        (this.field, this.tolerance, n) = (field, tolerance, field.Dimension);
        if (start.Length != n)
            throw new ArgumentOutOfRangeException(nameof(start), start.Length, "One start value per state.");
        (Time, TimeBefore, step) = (time, time, firstStep);
        state = start.ToArray();
        before = start.ToArray();
        (trial, rate, timeRate, scale, scratch) = (new double[n], new double[n], new double[n], new double[n], new double[n]);
        jacobian = new double[n * n];
        for (var i = 0; i < Stages; i++)
            u[i] = new double[n];
        system = new LinearSystem(n);
    }

    /// <summary>Where the solution stands.</summary>
    public double Time { get; private set; }

    /// <summary>Where it stood before the last step.</summary>
    public double TimeBefore { get; private set; }

    /// <summary>State at <see cref="Time"/>.</summary>
    public ReadOnlySpan<double> State => state;

    /// <summary>Steps taken and rejected.</summary>
    public (int Taken, int Rejected) Steps { get; private set; }

    /// <summary>Takes one step that keeps the tolerance and does not pass <paramref name="limit"/>.</summary>
    public SolverStatus Advance(double limit)
    {
        Linearize();
        while (true)
        {
            var left = limit - Time;
            var h = left <= step ? left : Math.Min(step, Math.Max(left - step, left / 2)); // no sliver of a last step
            if (!(h > 1e-13 * Math.Max(1e-3, Math.Abs(Time))))
                return SolverStatus.StepTooSmall;
            var error = Try(h);
            var factor = Math.Clamp(0.9 * Math.Pow(Math.Max(error, 1e-10), -0.25), 0.2, 6);
            if (error <= 1)
            {
                Accept(h == left ? limit : Time + h);
                step = h * (shrank ? Math.Min(1, factor) : factor);
                shrank = false;
                return SolverStatus.Running;
            }

            shrank = true;
            step = h * (double.IsFinite(error) ? Math.Min(factor, 0.9) : 0.1);
            Steps = (Steps.Taken, Steps.Rejected + 1);
        }
    }

    /// <summary>Takes one step of a given length whatever its error: for measuring the order.</summary>
    public void AdvanceExactly(double h)
    {
        Linearize();
        Try(h);
        Accept(Time + h);
    }

    /// <summary>The state at a time within the last step.</summary>
    /// <param name="time">From <see cref="TimeBefore"/> to <see cref="Time"/>.</param>
    /// <param name="there">Filled with the state.</param>
    public void At(double time, Span<double> there)
    {
        var s = Time > TimeBefore ? (time - TimeBefore) / (Time - TimeBefore) : 1;
        for (var i = 0; i < n; i++)
        {
            double third = 0, fourth = 0;
            for (var j = 0; j < 5; j++)
            {
                third += Dense3[j] * u[j][i];
                fourth += Dense4[j] * u[j][i];
            }

            there[i] = (before[i] * (1 - s)) + (s * (state[i] + ((1 - s) * (third + (s * fourth)))));
        }
    }

    private void Linearize()
    {
        for (var i = 0; i < n; i++)
            scale[i] = Math.Max(Math.Abs(state[i]), tolerance.Absolute[i] / tolerance.Relative * 1e-3);
        field.Rate(Time, state, rate);
        field.Jacobian(Time, state, rate, scale, jacobian);
        var increment = field.TimeIncrement;
        field.Rate(Time + increment, state, timeRate);
        field.Rate(Time - increment, state, scratch);
        for (var i = 0; i < n; i++)
            timeRate[i] = (timeRate[i] - scratch[i]) / (2 * increment);
    }

    /// <summary>Fills <c>trial</c> with the state one step on and returns the error over the tolerance.</summary>
    private double Try(double h)
    {
        var matrix = system.Matrix;
        for (var i = 0; i < n * n; i++)
            matrix[i] = -jacobian[i];
        for (var i = 0; i < n; i++)
            matrix[(i * n) + i] += 1 / (Gamma * h);
        if (!system.TryFactor())
            return double.PositiveInfinity;
        for (var stage = 0; stage < Stages; stage++)
        {
            var right = u[stage];
            if (stage == 0)
            {
                rate.CopyTo(right, 0);
            }
            else
            {
                state.CopyTo(trial, 0);
                for (var j = 0; j < stage; j++)
                {
                    for (var i = 0; i < n; i++)
                        trial[i] += A[stage][j] * u[j][i];
                }

                field.Rate(Time + (Alpha[stage] * h), trial, right);
                for (var j = 0; j < stage; j++)
                {
                    for (var i = 0; i < n; i++)
                        right[i] += C[stage][j] / h * u[j][i];
                }
            }

            for (var i = 0; i < n; i++)
                right[i] += GammaOfTime[stage] * h * timeRate[i];
            system.Solve(right);
        }

        double sum = 0;
        for (var i = 0; i < n; i++)
        {
            trial[i] += u[5][i];
            var allowed = tolerance.Absolute[i] + (tolerance.Relative * Math.Max(Math.Abs(state[i]), Math.Abs(trial[i])));
            var ratio = u[5][i] / allowed;
            sum += ratio * ratio;
        }

        return double.IsFinite(sum) ? Math.Sqrt(sum / n) : double.PositiveInfinity;
    }

    private void Accept(double time)
    {
        state.CopyTo(before, 0);
        trial.CopyTo(state, 0);
        TimeBefore = Time;
        Time = time;
        Steps = (Steps.Taken + 1, Steps.Rejected);
    }
}
