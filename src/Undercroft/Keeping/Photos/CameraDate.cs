using System.Globalization;
using MetadataExtractor;
using MetadataExtractor.Formats.Exif;

namespace Undercroft.Keeping.Photos;

/// <summary>The day that a camera noted in a picture.</summary>
internal static class CameraDate
{
    /// <summary>When it was taken; null where nothing, or nothing readable, says so.</summary>
    internal static DateOnly? Of(byte[] file)
    {
        try
        {
            using var stream = new MemoryStream(file);
            var notes = ImageMetadataReader.ReadMetadata(stream);
            var text = notes.OfType<ExifSubIfdDirectory>().Select(exif => exif.GetString(ExifDirectoryBase.TagDateTimeOriginal)).FirstOrDefault(date => date is not null)
                ?? notes.OfType<ExifIfd0Directory>().Select(exif => exif.GetString(ExifDirectoryBase.TagDateTime)).FirstOrDefault(date => date is not null);
            return text is { Length: >= 10 } && DateOnly.TryParseExact(text[..10].Replace('-', ':'), "yyyy:MM:dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;
        }
        catch (Exception unread) when (unread is ImageProcessingException or MetadataException or IOException or ArgumentException or OverflowException or IndexOutOfRangeException)
        {
            return null; // notes that cannot be read are no reason to lose a picture
        }
    }
}
