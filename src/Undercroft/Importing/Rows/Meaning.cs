namespace Undercroft.Importing.Rows;

/// <summary>What a column is about.</summary>
public enum Meaning
{
    /// <summary>Kept word for word as a note.</summary>
    Other,

    /// <summary>What it is called.</summary>
    Blend,

    /// <summary>Who made it.</summary>
    Maker,

    /// <summary>Kinds of leaf.</summary>
    Leaf,

    /// <summary>How it is cut.</summary>
    Cut,

    /// <summary>How much leaf, counts and containers in one: <c>2x50g</c>.</summary>
    Quantity,

    /// <summary>How much leaf in each package.</summary>
    Each,

    /// <summary>How much leaf in all packages of the row.</summary>
    Total,

    /// <summary>How much leaf is left.</summary>
    Left,

    /// <summary>Weight with the container.</summary>
    Gross,

    /// <summary>Weight of the empty container.</summary>
    Tare,

    /// <summary>How many packages.</summary>
    Count,

    /// <summary>How many packages of the sort that the head names: <c>8oz jar</c>, <c>50g tin</c>.</summary>
    Sort,

    /// <summary>The unit of the amounts beside it.</summary>
    Unit,

    /// <summary>What it is kept in.</summary>
    Container,

    /// <summary>When it was made or tinned.</summary>
    Made,

    /// <summary>When it was put into its container.</summary>
    Sealed,

    /// <summary>When it was bought or came.</summary>
    Bought,

    /// <summary>A date, and the head does not say of what.</summary>
    Date,

    /// <summary>When it was opened.</summary>
    Opened,

    /// <summary>When it was used up, sold or given away.</summary>
    Gone,

    /// <summary>Where it stands.</summary>
    Place,

    /// <summary>What was paid for each package.</summary>
    Paid,

    /// <summary>What was paid for the row.</summary>
    PaidTotal,

    /// <summary>Where it came from.</summary>
    Source,

    /// <summary>Moisture of the leaf.</summary>
    Moisture,

    /// <summary>Open, sealed, finished.</summary>
    Status,

    /// <summary>The person's own number or label.</summary>
    Label,

    /// <summary>Free words.</summary>
    Note,
}
