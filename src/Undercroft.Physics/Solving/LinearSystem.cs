namespace Undercroft.Physics.Solving;

/// <summary>A small dense linear system, factored once by Gauss with row pivots and solved for several right-hand sides.</summary>
internal sealed class LinearSystem(int size)
{
    private readonly double[] factors = new double[size * size];
    private readonly int[] pivots = new int[size];

    /// <summary>The matrix, row by row: fill it, then call <see cref="TryFactor"/>.</summary>
    public Span<double> Matrix => factors;

    /// <summary>Factors the matrix in place; false where it is singular or not finite.</summary>
    public bool TryFactor()
    {
        for (var k = 0; k < size; k++)
        {
            var best = k;
            for (var row = k + 1; row < size; row++)
            {
                if (Math.Abs(factors[(row * size) + k]) > Math.Abs(factors[(best * size) + k]))
                    best = row;
            }

            pivots[k] = best;
            var pivot = factors[(best * size) + k];
            if (!(Math.Abs(pivot) > 0 && double.IsFinite(pivot)))
                return false;
            if (best != k)
            {
                for (var column = 0; column < size; column++)
                    (factors[(k * size) + column], factors[(best * size) + column]) = (factors[(best * size) + column], factors[(k * size) + column]);
            }

            for (var row = k + 1; row < size; row++)
            {
                var factor = factors[(row * size) + k] /= factors[(k * size) + k];
                for (var column = k + 1; column < size; column++)
                    factors[(row * size) + column] -= factor * factors[(k * size) + column];
            }
        }

        return true;
    }

    /// <summary>Replaces the right-hand side by the solution.</summary>
    public void Solve(Span<double> values)
    {
        for (var k = 0; k < size; k++)
        {
            (values[k], values[pivots[k]]) = (values[pivots[k]], values[k]);
        }

        for (var row = 1; row < size; row++)
        {
            for (var column = 0; column < row; column++)
                values[row] -= factors[(row * size) + column] * values[column];
        }

        for (var row = size - 1; row >= 0; row--)
        {
            for (var column = row + 1; column < size; column++)
                values[row] -= factors[(row * size) + column] * values[column];
            values[row] /= factors[(row * size) + row];
        }
    }
}
