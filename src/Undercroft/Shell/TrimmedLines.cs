using System.Text;

namespace Undercroft.Shell;

/// <summary>Passes text on without the blanks at the ends of lines with which a page of fixed width is filled up.</summary>
/// <param name="to">Where to.</param>
internal sealed class TrimmedLines(TextWriter to) : TextWriter(to.FormatProvider)
{
    private int blanks;

    /// <inheritdoc/>
    public override Encoding Encoding => to.Encoding;

    /// <inheritdoc/>
    public override void Write(char value)
    {
        if (value == ' ')
        {
            blanks++;
            return;
        }

        if (value is not ('\n' or '\r'))
        {
            for (; blanks > 0; blanks--)
                to.Write(' ');
        }

        blanks = 0;
        to.Write(value);
    }

    /// <inheritdoc/>
    public override void Flush() => to.Flush();
}
