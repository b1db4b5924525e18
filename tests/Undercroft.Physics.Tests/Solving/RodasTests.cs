using Undercroft.Physics.Solving;
using Xunit;

namespace Undercroft.Physics.Tests.Solving;

/// <summary>Equations with known solutions; the order is measured by halving the step.</summary>
public class RodasTests
{
    [Fact]
    public void Observed_order_on_a_forced_nonlinear_equation_is_four()
    {
        var order = ObservedOrder(new Forced(1), 0.02);
        Assert.InRange(order, 3.8, 4.3);
    }

    [Fact]
    public void Observed_order_of_the_dense_output_is_three_or_better()
    {
        double Error(double h)
        {
            Rodas run = new(new Forced(1), 0, [1], new(1, [1]), h);
            run.AdvanceExactly(h);
            Span<double> there = stackalloc double[1];
            run.At(h * 0.4, there);
            return Math.Abs(there[0] - Forced.Solution(h * 0.4));
        }

        Assert.InRange(Math.Log2(Error(0.02) / Error(0.01)), 3.7, 5); // one step: order of the method plus one
    }

    [Fact]
    public void A_stiff_equation_keeps_its_tolerance_with_few_steps()
    {
        Rodas run = new(new Forced(1e6), 0, [1], new(1e-7, [1e-9]), 1e-3);
        while (run.Time < 10)
            Assert.Equal(SolverStatus.Running, run.Advance(10));
        Assert.Equal(Forced.Solution(10), run.State[0], 1e-6);
        Assert.InRange(run.Steps.Taken, 10, 2000);
    }

    [Theory]
    [InlineData(1e-4)]
    [InlineData(1e-6)]
    [InlineData(1e-8)]
    public void The_error_at_the_end_follows_the_tolerance(double tolerance)
    {
        Rodas run = new(new Forced(3), 0, [1], new(tolerance, [tolerance]), 1e-3);
        while (run.Time < 20)
            Assert.Equal(SolverStatus.Running, run.Advance(20));
        Assert.Equal(Forced.Solution(20), run.State[0], 10 * tolerance);
    }

    [Fact]
    public void A_field_that_is_not_a_number_ends_the_run_by_name()
    {
        Rodas run = new(new Nowhere(), 0, [1], new(1e-6, [1e-6]), 1e-3);
        var status = SolverStatus.Running;
        while (run.Time < 2 && status == SolverStatus.Running)
            status = run.Advance(2);
        Assert.Equal(SolverStatus.StepTooSmall, status);
        Assert.InRange(run.Time, 0.5, 1);
    }

    private static double ObservedOrder(IVectorField field, double h)
    {
        double Error(double step)
        {
            Rodas run = new(field, 0, [1], new(1, [1]), step);
            var count = (int)Math.Round(1 / step);
            for (var i = 0; i < count; i++)
                run.AdvanceExactly(step);
            return Math.Abs(run.State[0] - Forced.Solution(run.Time));
        }

        return Math.Log2(Error(h) / Error(h / 2));
    }

    /// <summary>y' = −λ (y² − g²) + g' with g = 1 + sin(3t)/2, whose solution from 1 is g itself.</summary>
    private sealed class Forced(double lambda) : IVectorField
    {
        public int Dimension => 1;

        public double TimeIncrement => 1e-4;

        public static double Solution(double t) => 1 + (0.5 * Math.Sin(3 * t));

        public void Rate(double time, ReadOnlySpan<double> state, Span<double> rate) =>
            rate[0] = (-lambda * ((state[0] * state[0]) - (Solution(time) * Solution(time)))) + (1.5 * Math.Cos(3 * time));
    }

    private sealed class Nowhere : IVectorField
    {
        public int Dimension => 1;

        public double TimeIncrement => 1e-4;

        public void Rate(double time, ReadOnlySpan<double> state, Span<double> rate) => rate[0] = Math.Sqrt(1 - time);
    }
}
