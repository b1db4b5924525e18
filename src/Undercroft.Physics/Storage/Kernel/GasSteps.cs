using System.Runtime.CompilerServices;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>The gas of a group of rigid packages without viscous flow: moved on step by step, or by maps of many steps joined to one.</summary>
[SkipLocalsInit]
internal static class GasSteps<T>
    where T : struct, ISingleLane<T>
{
    /// <summary>Moves the amounts of a group on by one step.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Advance(DrawGroup group, StayWeights weights, StepTable table, int step)
    {
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            QuietGasStep<T>.Over(group, weights, table.Sums(step), table.TrendsOf(step), table.Length(step), at, out var map);
            map.To(group.Moles, at, group.Moles);
        }
    }

    /// <summary>The steps of a table from one on, joined to one map for each draw of a group.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static float[] Join(DrawGroup group, StayWeights weights, StepTable table, int first)
    {
        var maps = Room(group);
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            GasMap<T> all = default; // nothing is lost, nothing added
            for (var step = first; step < table.Count; step++)
            {
                QuietGasStep<T>.Over(group, weights, table.Sums(step), table.TrendsOf(step), table.Length(step), at, out var map);
                all = step == first ? map : all.Then(map);
            }

            all.Store(maps, group.Slots, at);
        }

        return maps;
    }

    /// <summary>Applies maps to the amounts of a group.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Apply(float[] maps, DrawGroup group)
    {
        for (var at = 0; at < group.Slots; at += T.Count)
            GasMap<T>.Load(maps, group.Slots, at).To(group.Moles, at, group.Moles);
    }

    /// <summary>The amounts at the beginning of each season of the year that repeats: where the map of a whole year leads to itself.</summary>
    /// <param name="seasons">Maps of the seasons.</param>
    /// <param name="group">Whose.</param>
    /// <returns>By season, then by gas; not numbers where nothing is ever exchanged.</returns>
    public static float[][][] Orbit(float[]?[] seasons, DrawGroup group)
    {
        var orbit = new float[seasons.Length][][];
        for (var season = 0; season < orbit.Length; season++)
            orbit[season] = [new float[group.Slots], new float[group.Slots], new float[group.Slots]];
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            var year = GasMap<T>.Load(seasons[0]!, group.Slots, at);
            for (var season = 1; season < orbit.Length; season++)
                year = year.Then(GasMap<T>.Load(seasons[season]!, group.Slots, at));
            var oxygen = year.OxygenAdd / year.OxygenLost;
            oxygen.Put(orbit[0][0], at);
            (T.MulAdd(year.Fed, oxygen, year.CarbonAdd) / year.CarbonLost).Put(orbit[0][1], at);
            (year.NitrogenAdd / year.NitrogenLost).Put(orbit[0][2], at);
            for (var season = 0; season + 1 < orbit.Length; season++)
                GasMap<T>.Load(seasons[season]!, group.Slots, at).To(orbit[season], at, orbit[season + 1]);
        }

        return orbit;
    }

    /// <summary>True where no gas of a group is further from other amounts than a number of pascals for each kelvin.</summary>
    public static bool IsNear(DrawGroup group, float[][] amounts, double pascalsPerKelvin)
    {
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            var per = T.At(group.PerVolume, at);
            for (var gas = 0; gas < amounts.Length; gas++)
            {
                var apart = (T.At(group.Moles[gas], at) - T.At(amounts[gas], at)) * per;
                if (!T.AllLess(T.Max(apart, T.Of(0f) - apart), T.Of(pascalsPerKelvin)))
                    return false;
            }
        }

        return true;
    }

    /// <summary>Partial pressures, mean of a day, from the amounts to which the maps belong.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Tell(float[] pressures, DrawGroup group, RowBuffer row, int place)
    {
        for (var at = 0; at < group.Slots; at += T.Count)
            GasPressures<T>.Load(pressures, group.Slots, at).To(group.Moles, at, row, place);
    }

    /// <summary>Maps to the partial pressures of the mean of a day.</summary>
    /// <param name="group">Whose.</param>
    /// <param name="weights">Of the stay.</param>
    /// <param name="day">Integrals of the day.</param>
    /// <param name="ahead">False where the day lies before the amounts.</param>
    /// <param name="before">Maps that lead to the beginning of the day; null where the amounts stand there.</param>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static float[] Pressures(DrawGroup group, StayWeights weights, float[] day, bool ahead, float[]? before)
    {
        var maps = Room(group);
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            QuietGasStep<T>.OfDay(group, weights, day, ahead, at, out var middle, out var told);
            if (before is not null)
                middle = GasMap<T>.Load(before, group.Slots, at).Then(middle);
            middle.Then(told).Store(maps, group.Slots, at);
        }

        return maps;
    }

    private static float[] Room(DrawGroup group) => GC.AllocateUninitializedArray<float>(GasMap<T>.Width * group.Slots);
}
