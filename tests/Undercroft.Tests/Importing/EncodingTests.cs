using System.Text;
using Undercroft.Importing.Sheets;
using Xunit;

namespace Undercroft.Tests.Importing;

/// <summary>Sheets in the encodings of earlier years, which no file names: each is known by its letters and words, and what was taken is said.</summary>
public sealed class EncodingTests
{
    [Theory]
    [InlineData(1250, "Windows-1250", "Nazwa;Ilość;Waga\nZłota Jesień;2;50 g\nŻółty Dąb;1;100 g\n")]
    [InlineData(1250, "Windows-1250", "Jméno;Počet;Kde\nŘeka;2;skříň\nŽlutý dům;1;sklep\n")]
    [InlineData(1251, "Windows-1251", "Табак;Вес\nСтарая мельница;50 г\nЛесной;100 г\n")]
    [InlineData(1252, "Windows-1252", "Tabac;Poids\nCrème brûlée à l'été;50 g\nForêt;100 g\n")]
    [InlineData(1252, "Windows-1252", "Sorte;Größe\nMühlbach;50 g\nGrüne Höhe;100 g\n")]
    [InlineData(1252, "Windows-1252", "Tobak;Vægt\nGrøn Ø;50 g\nBlå Å;100 g\n")]
    [InlineData(1252, "Windows-1252", "Tabacco;Qualità\nCaffè più;50 g\nCittà;100 g\n")]
    [InlineData(1253, "Windows-1253", "Καπνός;Βάρος\nΠαλιό λιμάνι;50\nΦθινόπωρο;100\n")]
    [InlineData(1254, "Windows-1254", "Tütün;Ağırlık\nYağmur;50\nGüneş ışığı;100\n")]
    [InlineData(1255, "Windows-1255", "שם;משקל\nערפל הבוקר;50\nיער ירוק;100\n")]
    [InlineData(1256, "Windows-1256", "تبغ;وزن\nضباب الصباح;50\nالغابة;100\n")]
    [InlineData(20866, "KOI8-R", "Табак;Вес\nСтарая мельница;50 г\nЛесной;100 г\n")]
    [InlineData(932, "Shift-JIS", "銘柄,数量,内容量\n夕霧,2,50\nもりのかおり,1,100\n")]
    [InlineData(51932, "EUC-JP", "銘柄,数量,内容量\n夕霧,2,50\nもりのかおり,1,100\n")]
    [InlineData(54936, "GB18030", "名称,数量,重量\n秋林,2,50\n晨雾,1,100\n")]
    [InlineData(950, "Big5", "名稱,數量,重量\n秋林,2,50\n晨霧,1,100\n")]
    [InlineData(949, "EUC-KR", "이름,수량,무게\n안개,2,50\n새벽,1,100\n")]
    public void An_encoding_that_nothing_names_is_known_by_its_letters(int page, string name, string text)
    {
        var file = SheetReader.Read(CodePagesEncodingProvider.Instance.GetEncoding(page)!.GetBytes(text));
        Assert.Contains(name, file.Form, StringComparison.Ordinal);
        Assert.Equal(text.Split('\n')[1].Split(';', ',')[0], file.Sheets[0].Rows[1][0].Text);
        Assert.Contains($"does not say how its letters are stored; {name} fits", file.Remarks[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Where_two_encodings_fit_the_other_is_named_with_a_word_to_look_at()
    {
        var file = SheetReader.Read(CodePagesEncodingProvider.Instance.GetEncoding(1252)!.GetBytes("Blend;Net\nSchlo\u00DF Cr\u00EAte;50 g\nR\u00EAve;100 g\n"));
        Assert.Contains("Windows-1252", file.Form, StringComparison.Ordinal);
        Assert.Contains("So does Windows-1250, which would read 'Cręte' for 'Crête'", file.Remarks[0], StringComparison.Ordinal);
    }

    [Fact]
    public void What_the_bytes_say_is_not_guessed() => Assert.Empty(SheetReader.Read(Encoding.UTF8.GetBytes("Sorte;Gewicht\nMühlbach;50 g\n")).Remarks);
}
