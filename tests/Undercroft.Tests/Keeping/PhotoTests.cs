using System.Net;
using System.Text;
using CsCheck;
using MetadataExtractor;
using MetadataExtractor.Formats.Exif;
using SkiaSharp;
using Undercroft.Keeping.Photos;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Tests.Ledger;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Tests.Keeping;

public sealed class PhotoTests
{
    [Fact]
    public void Nothing_of_the_camera_stays_in_a_kept_picture_but_its_day_is_told()
    {
        var file = WithNotes(Jpeg(600, 400, SKColors.SaddleBrown), "2024:08:17 10:11:12", orientation: 1);
        Assert.Contains(ImageMetadataReader.ReadMetadata(new MemoryStream(file)), notes => notes is GpsDirectory); // the test would tell nothing without
        Assert.True(Contains(file, "PhoneMaker"));
        var kept = Picture.From(file);
        Assert.Equal(new DateOnly(2024, 8, 17), kept.Taken);
        Assert.DoesNotContain(ImageMetadataReader.ReadMetadata(new MemoryStream(kept.Jpeg)), notes => notes is GpsDirectory or ExifDirectoryBase);
        Assert.False(Contains(kept.Jpeg, "PhoneMaker"));
        Assert.False(Contains(kept.Jpeg, "Exif"));
    }

    [Theory]
    [InlineData(6000, 3000, 2048, 1024)]
    [InlineData(100, 4096, 50, 2048)]
    [InlineData(640, 480, 640, 480)]
    public void A_picture_is_made_no_larger_than_the_limit(int width, int height, int keptWidth, int keptHeight)
    {
        var kept = Picture.From(Jpeg(width, height, SKColors.SaddleBrown));
        Assert.Equal((keptWidth, keptHeight), (kept.Width, kept.Height));
    }

    /// <summary>The eight ways of holding a camera (Exif 2.3, tag 274): the corner that was marked comes to stand where the eye saw it.</summary>
    [Theory]
    [InlineData(1, 0, 0)]
    [InlineData(2, 1, 0)]
    [InlineData(3, 1, 1)]
    [InlineData(4, 0, 1)]
    [InlineData(5, 0, 0)]
    [InlineData(6, 1, 0)]
    [InlineData(7, 1, 1)]
    [InlineData(8, 0, 1)]
    public void A_picture_is_turned_upright(byte orientation, int right, int down)
    {
        using var bitmap = new SKBitmap(400, 200);
        bitmap.Erase(SKColors.White);
        using (var canvas = new SKCanvas(bitmap))
            canvas.DrawRect(0, 0, 60, 60, new SKPaint { Color = SKColors.Black });
        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 95);
        var kept = Picture.From(WithNotes(data.ToArray(), "2024:01:01 00:00:00", orientation));
        using var upright = SKBitmap.Decode(kept.Jpeg);
        Assert.Equal(orientation >= 5 ? (200, 400) : (400, 200), (upright.Width, upright.Height));
        Assert.True(upright.GetPixel(right == 1 ? upright.Width - 20 : 20, down == 1 ? upright.Height - 20 : 20).Red < 60);
        Assert.True(upright.GetPixel(right == 1 ? 20 : upright.Width - 20, down == 1 ? 20 : upright.Height - 20).Red > 200);
    }

    [Fact]
    public void The_name_is_the_digest_and_the_same_picture_has_the_same()
    {
        var file = Jpeg(300, 200, SKColors.SaddleBrown);
        var (one, other) = (Picture.From(file), Picture.From(file));
        Assert.Equal(one.Sha256, other.Sha256);
        Assert.Equal(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(one.Jpeg)), one.Sha256);
    }

    [Fact]
    public void What_is_no_picture_is_refused()
    {
        Assert.Throws<Refusal>(() => Picture.From("not a picture"u8.ToArray()));
        Assert.Throws<Refusal>(() => Picture.From([]));
        var cut = Jpeg(300, 200, SKColors.SaddleBrown)[..40];
        Assert.Throws<Refusal>(() => Picture.From(cut));
        var bomb = Png(40_000, 40_000);
        Assert.Contains("larger than any", Assert.Throws<Refusal>(() => Picture.From(bomb)).Message, StringComparison.Ordinal);
    }

    /// <summary>What a phone may hold beside JPEG, and what is named like a picture and is none.</summary>
    [Fact]
    public void Other_kinds_of_picture_are_kept_as_JPEG_and_what_only_looks_like_one_is_refused()
    {
        foreach (var kind in new[] { SKEncodedImageFormat.Png, SKEncodedImageFormat.Webp })
        {
            using var bitmap = new SKBitmap(300, 200);
            bitmap.Erase(SKColors.SaddleBrown);
            using var data = bitmap.Encode(kind, 90);
            Assert.Equal(new byte[] { 0xFF, 0xD8, 0xFF }, Picture.From(data.ToArray()).Jpeg[..3]);
        }

        Assert.Throws<Refusal>(() => Picture.From("<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>"u8.ToArray()));
        Assert.Throws<Refusal>(() => Picture.From("%PDF-1.7 no picture"u8.ToArray()));
        Assert.Throws<Refusal>(() => Picture.From([0xFF, 0xD8, 0xFF, 0xE0, .. new byte[500]]));
        Assert.Throws<Refusal>(() => Picture.From([.. "RIFF\0\0\0\0WEBPVP8 "u8.ToArray(), .. new byte[200]]));
    }

    /// <summary>A file that broke off on its way is no picture of anything below the break.</summary>
    [Fact]
    public void A_picture_that_broke_off_is_refused()
    {
        var whole = Leafy(800, 600);
        foreach (var part in new[] { 0.1, 0.5, 0.9 })
            Assert.Contains("broke off", Assert.Throws<Refusal>(() => Picture.From(whole[..(int)(part * whole.Length)])).Message, StringComparison.Ordinal);
        Assert.Equal(800, Picture.From(whole).Width);
    }

    /// <summary>Whatever single byte is changed or however much is left away, it is a picture or a refusal and nothing else.</summary>
    [Fact]
    public void A_spoilt_file_is_a_picture_or_a_refusal()
    {
        var whole = WithNotes(Leafy(120, 90), "2024:08:17 10:11:12", 6);
        Gen.Select(Gen.Int[0, whole.Length - 1], Gen.Byte, Gen.Int[0, whole.Length]).Sample((at, value, length) =>
        {
            byte[] spoilt = [.. whole];
            spoilt[at] = value;
            try
            {
                var kept = Picture.From(spoilt[..Math.Max(length, whole.Length / 2)]);
                return kept.Width is > 0 and <= Picture.LongestSide && !Contains(kept.Jpeg, "PhoneMaker");
            }
            catch (Refusal)
            {
                return true;
            }
        }, seed: Gens.Seed, iter: 400, threads: 1);
    }

    /// <summary>What may be written beside the pixels of a PNG and of a JPEG, position and all, does not come along.</summary>
    [Theory]
    [InlineData("tEXt")]
    [InlineData("eXIf")]
    [InlineData("iTXt")]
    public void Notes_in_other_places_do_not_come_along(string chunk)
    {
        using var bitmap = new SKBitmap(60, 40);
        bitmap.Erase(SKColors.SaddleBrown);
        using var data = bitmap.Encode(SKEncodedImageFormat.Png, 90);
        var png = data.ToArray();
        byte[] note = [.. Encoding.ASCII.GetBytes(chunk), .. "Comment\0secret 48.1N 11.5E"u8.ToArray()];
        byte[] told = [.. png[..33], 0, 0, 0, (byte)(note.Length - 4), .. note, (byte)(Crc(note) >> 24), (byte)(Crc(note) >> 16), (byte)(Crc(note) >> 8), (byte)Crc(note), .. png[33..]];
        Assert.True(Contains(told, "48.1N"));
        Assert.False(Contains(Picture.From(told).Jpeg, "48.1N"));
        var jpeg = Leafy(60, 40);
        byte[] body = [.. "http://ns.adobe.com/xap/1.0/\0<x>secret 48.1N 11.5E</x>"u8.ToArray()];
        byte[] said = [.. jpeg[..2], 0xFF, 0xE1, 0, (byte)(body.Length + 2), .. body, 0xFF, 0xFE, 0, 14, .. "secret 48.1N"u8.ToArray(), .. jpeg[2..]];
        Assert.False(Contains(Picture.From(said).Jpeg, "48.1N"));
    }

    /// <summary>The sRGB primaries and white under D65 as colour science publishes them (from memory; the digits agree with every table that rounds to one decimal).</summary>
    [Theory]
    [InlineData(255, 255, 255, 100, 0, 0)]
    [InlineData(255, 0, 0, 53.2, 80.1, 67.2)]
    [InlineData(0, 255, 0, 87.7, -86.2, 83.2)]
    [InlineData(0, 0, 255, 32.3, 79.2, -107.9)]
    [InlineData(0, 0, 0, 0, 0, 0)]
    public void Matches_SrgbPrimaries_InLab(int r, int g, int b, double lightness, double a, double bb)
    {
        var lab = LeafColour.Lab(LeafColour.Linear(r / 255.0), LeafColour.Linear(g / 255.0), LeafColour.Linear(b / 255.0));
        Assert.Equal(lightness, lab.L, 0.06);
        Assert.Equal(a, lab.A, 0.06);
        Assert.Equal(bb, lab.B, 0.06);
    }

    /// <summary>The same leaf and card in half the light, and in yellower light, has the same colour; darker leaf has less lightness.</summary>
    [Fact]
    public void The_card_takes_the_light_away_and_darkening_shows()
    {
        var (leaf, card) = (new PhotoPatch(0.6, 0.2, 0.3, 0.6), new PhotoPatch(0.1, 0.2, 0.3, 0.6));
        var plain = LeafColour.Of(CardAndLeaf(1, 1, 1, 0.10), leaf, card)!.Value;
        var dim = LeafColour.Of(CardAndLeaf(0.5, 0.5, 0.5, 0.10), leaf, card)!.Value;
        var yellow = LeafColour.Of(CardAndLeaf(1, 0.9, 0.6, 0.10), leaf, card)!.Value;
        var dark = LeafColour.Of(CardAndLeaf(1, 1, 1, 0.04), leaf, card)!.Value;
        Assert.Equal(plain.L, dim.L, 1.0);
        Assert.Equal(plain.B, yellow.B, 1.5);
        Assert.True(dark.L < plain.L - 10, $"{dark} {plain}");
        Assert.Equal((116 * Math.Cbrt(0.10)) - 16, plain.L, 1.0); // leaf drawn as grey of reflectance 0.10
        Assert.Null(LeafColour.Of(CardAndLeaf(20, 20, 20, 0.10), leaf, card)); // burnt out
    }

    [Fact]
    public async Task A_picture_is_kept_shown_marked_and_measured_through_the_page()
    {
        await using var page = await OpenPage.Start();
        using (await page.Fill("/add", "rows", ("Blend-0", "One"), ("Container-0", "jar-237"), ("Sealed-0", "2024")))
        {
        }

        var id = (await page.Cellar()).Here.Single().Id;
        var file = WithNotes(CardAndLeaf(1, 1, 1, 0.10), "2024:08:17 10:11:12", 1);
        for (var n = 0; n < 2; n++)
            using (await Upload(page, $"/packages/{id}/photos", "photo", file))
            {
            }

        var photo = Assert.Single(PhotoKeeping.Of((await page.Cellar()).Packages[id]));
        Assert.Equal("2024-08-17", photo.Happened.ToString());
        Assert.True(File.Exists(Path.Combine(page.Folder, "photos", photo.Sha256)));
        Assert.Empty(System.IO.Directory.GetFiles(Path.Combine(page.Folder, "photos"), "*.new"));
        using (var shown = await page.Send(HttpMethod.Get, $"/photos/{photo.Sha256}.jpg"))
            Assert.Equal("image/jpeg", shown.Content.Headers.ContentType?.MediaType);
        using (var missing = await page.Send(HttpMethod.Get, $"/photos/{new string('0', 64)}.jpg"))
            Assert.Equal(HttpStatusCode.NotFound, missing.StatusCode);
        using (var outside = await page.Send(HttpMethod.Get, "/photos/..%2F..%2Fledger.sqlite.jpg"))
            Assert.Equal(HttpStatusCode.NotFound, outside.StatusCode);

        // 320 px wide and 240 high on the page: the card at a quarter of the width, the leaf at three quarters.
        using (var marked = await page.Fill($"/packages/{id}/mark?Photo={photo.Sha256}&P.x=80&P.y=120", "mark", ("P.x", "240"), ("P.y", "120")))
            Assert.Equal(HttpStatusCode.Redirect, marked.StatusCode);
        var mark = Assert.Single((await page.Cellar()).Packages[id].Of<Fact.PhotoMarked>()).Fact;
        Assert.Equal((0.71, 0.21), (Math.Round(mark.Leaf.X, 2), Math.Round(mark.Card.X, 2)));
        Assert.Contains("Lightness", await page.Read($"/packages/{id}/photos"), StringComparison.Ordinal);
        Assert.Contains($"/photos/{photo.Sha256}.jpg", await page.Read($"/packages/{id}"), StringComparison.Ordinal);
        using var refused = await Upload(page, $"/packages/{id}/photos", "photo", "no picture"u8.ToArray());
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
    }

    private static Task<HttpResponseMessage> Upload(OpenPage page, string path, string form, byte[] file) => page.FillWithFile(path, form, "Photo", file);

    private static bool Contains(byte[] file, string word) => file.AsSpan().IndexOf(Encoding.ASCII.GetBytes(word)) >= 0;

    private static byte[] Jpeg(int width, int height, SKColor colour)
    {
        using var bitmap = new SKBitmap(width, height);
        bitmap.Erase(colour);
        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 90);
        return data.ToArray();
    }

    /// <summary>A picture with something on every line, so that its bytes are spread over it.</summary>
    private static byte[] Leafy(int width, int height)
    {
        using var bitmap = new SKBitmap(width, height);
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
                bitmap.SetPixel(x, y, new SKColor((byte)(90 + (x * 7 % 60)), (byte)(60 + (y * 5 % 50)), (byte)(30 + ((x + y) % 30))));
        }

        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 90);
        return data.ToArray();
    }

    /// <summary>Left half a grey card of 18 %, right half leaf of a reflectance, under a light given for each channel.</summary>
    private static byte[] CardAndLeaf(double r, double g, double b, double reflectance)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(400, 300, SKColorType.Rgba8888, SKAlphaType.Opaque));
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(Shade(0.18));
            canvas.DrawRect(200, 0, 200, 300, new SKPaint { Color = Shade(reflectance) });
        }

        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 95);
        return data.ToArray();

        SKColor Shade(double part) => new(Coded(part * r), Coded(part * g), Coded(part * b));
        static byte Coded(double linear) => (byte)Math.Round(255 * Math.Clamp(linear <= 0.0031308 ? 12.92 * linear : (1.055 * Math.Pow(linear, 1 / 2.4)) - 0.055, 0, 1));
    }

    /// <summary>Puts notes into a JPEG as a camera would (Exif 2.3): maker, orientation, date, and a position.</summary>
    private static byte[] WithNotes(byte[] jpeg, string date, byte orientation)
    {
        var tiff = new List<byte>();
        void Two(int value) => tiff.AddRange([(byte)(value >> 8), (byte)value]);
        void Four(int value) => tiff.AddRange([(byte)(value >> 24), (byte)(value >> 16), (byte)(value >> 8), (byte)value]);
        void Entry(int tag, int type, int count, int value) { Two(tag); Two(type); Four(count); if (type == 3 && count == 1) { Two(value); Two(0); } else { Four(value); } }
        tiff.AddRange("MM"u8.ToArray());
        Two(42);
        Four(8);
        const int Ifd0 = 8, Ifd0Size = 2 + (4 * 12) + 4, Exif = Ifd0 + Ifd0Size, ExifSize = 2 + 12 + 4, Gps = Exif + ExifSize, GpsSize = 2 + (2 * 12) + 4, Data = Gps + GpsSize;
        Two(4);
        Entry(0x010F, 2, 11, Data);
        Entry(0x0112, 3, 1, orientation);
        Entry(0x8769, 4, 1, Exif);
        Entry(0x8825, 4, 1, Gps);
        Four(0);
        Two(1);
        Entry(0x9003, 2, 20, Data + 12);
        Four(0);
        Two(2);
        Two(1); Two(2); Four(2); tiff.AddRange("N\0\0\0"u8.ToArray());
        Entry(0x0002, 5, 3, Data + 32);
        Four(0);
        tiff.AddRange("PhoneMaker\0\0"u8.ToArray());
        tiff.AddRange(Encoding.ASCII.GetBytes(date + "\0"));
        foreach (var part in new[] { 48, 1, 51, 1, 30, 1 })
            Four(part);
        byte[] body = [.. "Exif\0\0"u8.ToArray(), .. tiff];
        var length = body.Length + 2;
        return [.. jpeg[..2], 0xFF, 0xE1, (byte)(length >> 8), (byte)length, .. body, .. jpeg[2..]];
    }

    /// <summary>A file of a few bytes that claims to be a huge picture (PNG, ISO/IEC 15948, header alone).</summary>
    private static byte[] Png(int width, int height)
    {
        byte[] header = [.. "IHDR"u8.ToArray(), (byte)(width >> 24), (byte)(width >> 16), (byte)(width >> 8), (byte)width, (byte)(height >> 24), (byte)(height >> 16), (byte)(height >> 8), (byte)height, 8, 2, 0, 0, 0];
        var crc = Crc(header);
        byte[] empty = [.. "IDAT"u8.ToArray()];
        return [0x89, .. "PNG\r\n\x1a\n"u8.ToArray(), 0, 0, 0, 13, .. header, (byte)(crc >> 24), (byte)(crc >> 16), (byte)(crc >> 8), (byte)crc, 0, 0, 0, 0, .. empty, (byte)(Crc(empty) >> 24), (byte)(Crc(empty) >> 16), (byte)(Crc(empty) >> 8), (byte)Crc(empty)];
    }

    private static uint Crc(byte[] bytes)
    {
        var crc = 0xFFFFFFFFu;
        foreach (var one in bytes)
        {
            crc ^= one;
            for (var n = 0; n < 8; n++)
                crc = (crc & 1) == 1 ? (crc >> 1) ^ 0xEDB88320u : crc >> 1;
        }

        return ~crc;
    }
}
