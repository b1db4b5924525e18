namespace Undercroft.Keeping.Troubles;

/// <summary>Cautions at the ends of the trees; the same words wherever the same danger is.</summary>
internal static class Cautions
{
    internal const string Mould = "If it may be mould, do not smoke, taste, bake or trade it. Bag it closed, bin it, wash the jar, replace the lid. People with asthma or a weak immune system leave it to someone else. Baking does not take away poisons or allergens.";

    internal const string Pressure = "A domed lid or tin may be under pressure. Turn it away from faces, do not pierce it, do not taste what is in it. If it must be opened: outdoors, slowly, eye protection, a cloth over it.";

    internal const string Glass = "Chipped or broken glass: throw jar and leaf away, never pick splinters out. Heavy jars stand low.";

    internal const string Beetle = "No insect spray on or near leaf. Freeze only what is bagged, never packed glass. Keep leaf from children and pets: swallowed, it is a poison; call your poison centre or a vet at once.";

    internal const string Heat = "Never open or heat a hot closed jar or tin: let it come to room temperature first. A domed one is turned away from faces. Chipped glass goes away with its leaf.";

    internal const string Flood = "Flood water carries germs and chemicals: gloves, and wash hands. What is thrown away goes in closed bags, out of reach of children and pets. Photograph it first, for a claim.";
}
