namespace Undercroft.Physics.Inference;

/// <summary>A symmetric positive definite matrix as the product of a triangle with its transpose.</summary>
internal sealed class Cholesky
{
    private readonly double[,] lower;
    private readonly int size;

    private Cholesky(double[,] lower) => (this.lower, size) = (lower, lower.GetLength(0));

    /// <summary>Logarithm of the determinant.</summary>
    public double LogDeterminant
    {
        get
        {
            var sum = 0.0;
            for (var i = 0; i < size; i++)
                sum += 2 * Math.Log(lower[i, i]);
            return sum;
        }
    }

    /// <summary>Factors a matrix.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not positive definite.</exception>
    public static Cholesky Of(double[,] matrix)
    {
        var size = matrix.GetLength(0);
        var lower = new double[size, size];
        for (var i = 0; i < size; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var sum = matrix[i, j];
                for (var k = 0; k < j; k++)
                    sum -= lower[i, k] * lower[j, k];
                if (i != j)
                    lower[i, j] = sum / lower[j, j];
                else
                    lower[i, i] = sum > 0 && double.IsFinite(sum) ? Math.Sqrt(sum) : throw new ArgumentOutOfRangeException(nameof(matrix), sum, "Not positive definite.");
            }
        }

        return new(lower);
    }

    /// <summary>The solution for one right-hand side.</summary>
    public double[] Solve(double[] right)
    {
        var x = (double[])right.Clone();
        for (var i = 0; i < size; i++)
        {
            for (var k = 0; k < i; k++)
                x[i] -= lower[i, k] * x[k];
            x[i] /= lower[i, i];
        }

        for (var i = size - 1; i >= 0; i--)
        {
            for (var k = i + 1; k < size; k++)
                x[i] -= lower[k, i] * x[k];
            x[i] /= lower[i, i];
        }

        return x;
    }

    /// <summary>The inverse.</summary>
    public double[,] Inverse()
    {
        var inverse = new double[size, size];
        for (var j = 0; j < size; j++)
        {
            var unit = new double[size];
            unit[j] = 1;
            var column = Solve(unit);
            for (var i = 0; i < size; i++)
                inverse[i, j] = column[i];
        }

        return inverse;
    }
}
