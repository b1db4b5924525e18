using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Shell;

namespace Undercroft.Keeping.Photos;

/// <summary>A picture of a package with its place in time.</summary>
/// <param name="Sha256">Its name.</param>
/// <param name="Day">When it was taken, as well as that is known.</param>
/// <param name="Happened">The same, as written.</param>
/// <param name="Text">In words.</param>
/// <param name="Version">Line of the ledger.</param>
/// <param name="Marked">Where leaf and grey card show; null where nobody marked them.</param>
public sealed record KeptPhoto(string Sha256, DateOnly Day, UnevenDate Happened, string? Text, long Version, Fact.PhotoMarked? Marked);

/// <summary>Keeps pictures in the data folder, each under the digest of its bytes, and says so in the ledger.</summary>
/// <param name="cellars">Where.</param>
/// <param name="folder">The data folder.</param>
/// <param name="presentOf">The present.</param>
public sealed class PhotoKeeping(ICellars cellars, DataFolder folder, Func<Cellar, Present> presentOf)
{
    /// <summary>Keeps a picture of a package. The same picture twice is one file and one line.</summary>
    /// <param name="typedId">The package.</param>
    /// <param name="file">As it was sent.</param>
    /// <param name="on">When it was taken; left out, what the camera noted, else today.</param>
    /// <param name="text">In words.</param>
    /// <exception cref="Refusal">Not a picture, or an unknown package.</exception>
    public async ValueTask<Kept> Of(string typedId, byte[] file, string? on = null, string? text = null)
    {
        var id = (await cellars.ReadAsync()).FindPackage(typedId).Id; // asked before anything is written
        var picture = Picture.From(file);
        Write(picture);
        var change = await cellars.ChangeAsync(cellar =>
        {
            var present = presentOf(cellar);
            var package = cellar.FindPackage(typedId);
            if (Of(package).Any(photo => photo.Sha256 == picture.Sha256))
                return [];
            var day = on is not null ? present.When(on) : UnevenDate.On(picture.Taken is { } taken && taken <= present.Today ? taken : present.Today);
            return Recording.Checked(cellar, CellarEvent.New(new Fact.PhotoKept(package.Id, picture.Sha256, text), day, present.Now));
        });
        if (change.Events.Count > 0)
            return new(change.Events, change.After, change.After.Packages[id], []);
        var known = Of(change.After.Packages[id]).First(photo => photo.Sha256 == picture.Sha256);
        return new([change.After.Lines.First(line => line.Event.Version == known.Version).Event], change.After, change.After.Packages[id], []);
    }

    /// <summary>Marks leaf and grey card on a picture.</summary>
    /// <exception cref="Refusal">No such picture of this package, or a mark outside of it.</exception>
    public async ValueTask<Kept> Mark(string typedId, string sha256, PhotoPatch leaf, PhotoPatch card)
    {
        PackageId id = default;
        var change = await cellars.ChangeAsync(cellar =>
        {
            var package = cellar.FindPackage(typedId);
            id = package.Id;
            var photo = Of(package).FirstOrDefault(photo => photo.Sha256 == sha256) ?? throw new Refusal($"{package.Id} has no such picture.");
            return Recording.Checked(cellar, CellarEvent.New(new Fact.PhotoMarked(package.Id, sha256, leaf, card), photo.Happened, presentOf(cellar).Now));
        });
        return new(change.Events, change.After, change.After.Packages[id], []);
    }

    /// <summary>The bytes of a kept picture; null where there is no such file.</summary>
    public byte[]? Bytes(string sha256) => folder.Photo(sha256);

    /// <summary>The pictures of a package, oldest first.</summary>
    public static IReadOnlyList<KeptPhoto> Of(Package package)
    {
        ArgumentNullException.ThrowIfNull(package);
        var marks = package.Of<Fact.PhotoMarked>().GroupBy(mark => mark.Fact.Sha256, StringComparer.Ordinal).ToDictionary(group => group.Key, group => group.MaxBy(mark => mark.Entry.Version).Fact, StringComparer.Ordinal);
        return [.. package.Of<Fact.PhotoKept>().Select(photo => new KeptPhoto(photo.Fact.Sha256, photo.Day, photo.Entry.Happened, photo.Fact.Text, photo.Entry.Version, marks.GetValueOrDefault(photo.Fact.Sha256)))];
    }

    private void Write(Picture picture)
    {
        const UnixFileMode Owner = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;
        if (OperatingSystem.IsWindows())
            Directory.CreateDirectory(folder.Photos);
        else
            Directory.CreateDirectory(folder.Photos, Owner);
        var path = Path.Combine(folder.Photos, picture.Sha256);
        if (File.Exists(path))
            return;
        var next = path + ".new";
        File.WriteAllBytes(next, picture.Jpeg);
        File.Move(next, path, overwrite: true);
    }
}
