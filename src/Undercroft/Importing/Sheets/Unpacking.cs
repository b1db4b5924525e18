using System.IO.Compression;
using System.Xml;
using Undercroft.Ledger;

namespace Undercroft.Importing.Sheets;

/// <summary>The parts of a packed workbook, unpacked as a stream and only as far as the limits go: what a part claims about its size is not believed.</summary>
internal sealed class Unpacking(ZipArchive archive, long packedBytes, SheetLimits limits)
{
    private static readonly XmlReaderSettings Careful = new()
    {
        DtdProcessing = DtdProcessing.Prohibit,
        XmlResolver = null,
        IgnoreComments = true,
        IgnoreProcessingInstructions = true,
        MaxCharactersFromEntities = 1_000,
        CloseInput = true,
    };

    private long unpacked;

    /// <summary>A part as XML, or null where the workbook has no such part.</summary>
    public XmlReader? Open(string name)
    {
        var entry = archive.GetEntry(name) ?? archive.Entries.FirstOrDefault(part => string.Equals(part.FullName.Replace('\\', '/'), name, StringComparison.OrdinalIgnoreCase));
        return entry is null ? null : XmlReader.Create(new Counted(entry.Open(), this), Careful);
    }

    private void Count(int bytes)
    {
        unpacked += bytes;
        if (unpacked > limits.Unpacked || (unpacked > SheetLimits.RatioFrom && unpacked > limits.Ratio * packedBytes))
            throw new Refusal($"The workbook unpacks to more than {unpacked >> 20} MB from {packedBytes >> 10} kB, which no honest sheet does. It was not read further and nothing was imported.");
    }

    private sealed class Counted(Stream inner, Unpacking owner) : Stream
    {
        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => throw new NotSupportedException();
            set => throw new NotSupportedException();
        }

        public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

        public override int Read(Span<byte> buffer)
        {
            var read = inner.Read(buffer);
            owner.Count(read);
            return read;
        }

        public override void Flush()
        {
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        protected override void Dispose(bool disposing)
        {
            if (disposing)
                inner.Dispose();
            base.Dispose(disposing);
        }
    }
}
