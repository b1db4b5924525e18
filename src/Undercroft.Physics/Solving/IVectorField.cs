namespace Undercroft.Physics.Solving;

/// <summary>A system of ordinary differential equations dy/dt = f(t, y).</summary>
public interface IVectorField
{
    /// <summary>How many states there are.</summary>
    int Dimension { get; }

    /// <summary>A span of time over which the field is as good as linear in t: the step of the central difference for ∂f/∂t.</summary>
    double TimeIncrement { get; }

    /// <summary>f(t, y).</summary>
    /// <param name="time">t.</param>
    /// <param name="state">y, <see cref="Dimension"/> long.</param>
    /// <param name="rate">Filled with f.</param>
    void Rate(double time, ReadOnlySpan<double> state, Span<double> rate);

    /// <summary>∂f/∂y at (t, y), row by row; by default by forward differences.</summary>
    /// <param name="time">t.</param>
    /// <param name="state">y.</param>
    /// <param name="rate">f(t, y), already known.</param>
    /// <param name="scale">What counts as large in each state, above zero: sets the increments.</param>
    /// <param name="jacobian">Filled with <see cref="Dimension"/>² numbers.</param>
    void Jacobian(double time, ReadOnlySpan<double> state, ReadOnlySpan<double> rate, ReadOnlySpan<double> scale, Span<double> jacobian)
    {
        var n = Dimension;
        Span<double> moved = stackalloc double[n];
        Span<double> there = stackalloc double[n];
        state.CopyTo(moved);
        for (var column = 0; column < n; column++)
        {
            var increment = 1.5e-8 * Math.Max(Math.Abs(state[column]), scale[column]); // root of the rounding unit
            moved[column] = state[column] + increment;
            increment = moved[column] - state[column];
            Rate(time, moved, there);
            for (var row = 0; row < n; row++)
                jacobian[(row * n) + column] = (there[row] - rate[row]) / increment;
            moved[column] = state[column];
        }
    }
}
