namespace Undercroft.Physics.Storage.Courses;

/// <summary>One draw of a package on one output day.</summary>
internal readonly record struct CourseRow(
    double MoistureDryBasis, double DryMass, double Activity, double Oxygen, double CarbonDioxide, double Nitrogen, double Total)
{
    /// <summary>Beyond the range in which the model holds.</summary>
    public static CourseRow Unknown => new(double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN);
}
