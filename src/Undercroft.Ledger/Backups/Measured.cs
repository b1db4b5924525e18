namespace Undercroft.Ledger.Backups;

/// <summary>A stream that gives at most what it promised: an entry of a zip that swells beyond what it says ends here.</summary>
/// <param name="from">The entry, unpacked.</param>
/// <param name="length">What it says that it holds.</param>
internal sealed class Measured(Stream from, long length) : Stream
{
    private long left = length;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length { get; } = length;

    public override long Position
    {
        get => Length - left;
        set => throw new NotSupportedException();
    }

    public override int Read(Span<byte> buffer)
    {
        var read = from.Read(buffer);
        if ((left -= read) < 0)
            throw new InvalidDataException("an entry holds more than it says.");
        return read;
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        if (disposing)
            from.Dispose();
        base.Dispose(disposing);
    }
}
