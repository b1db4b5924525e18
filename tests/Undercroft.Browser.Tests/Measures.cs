using Microsoft.Playwright;
using Xunit;

namespace Undercroft.Browser.Tests;

/// <summary>What every page must satisfy, measured in the browser.</summary>
internal static class Measures
{
    /// <summary>The page is no wider than the window.</summary>
    internal static async Task NoSidewaysScroll(IPage page) => Assert.Null(await TooWide(page));

    /// <summary>What is wrong where the page is wider than the window; else null.</summary>
    internal static async Task<string?> TooWide(IPage page)
    {
        var width = await page.EvaluateAsync<int>("document.documentElement.clientWidth");
        var needed = await page.EvaluateAsync<int>("document.documentElement.scrollWidth");
        return needed <= width ? null : $"{page.Url} needs {needed} px of {width} px.";
    }

    /// <summary>What moves by itself, or slides where it should jump: nothing does, so that nobody needs to ask for less motion.</summary>
    internal static async Task<string?> Moving(IPage page)
    {
        var moving = await page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll('*')]
              .filter(e => { const s = getComputedStyle(e); return s.animationName !== 'none' || /[1-9]/.test(s.transitionDuration) || s.scrollBehavior !== 'auto' || e.matches('marquee, animate, animateTransform, animateMotion, video[autoplay]'); })
              .map(e => e.outerHTML.slice(0, 80))
            """);
        return moving.Length == 0 ? null : $"{page.Url} moves: {string.Join("; ", moving.Take(3))}";
    }

    /// <summary>Everything that is pressed is at least 44 px high and wide. Links within a sentence are exempt, as WCAG 2.2, 2.5.8 has it.</summary>
    internal static async Task GenerousTargets(IPage page)
    {
        var small = await page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll('a, button, input, select, textarea, summary')]
              .filter(e => e.type !== 'hidden' && e.checkVisibility() && !e.matches('.skip'))
              .filter(e => !(e.matches('a') && getComputedStyle(e).display === 'inline' && e.closest('p, li, dd, td')?.textContent.trim() !== e.textContent.trim()))
              .map(e => [e.matches('[type=checkbox], [type=radio]') && e.closest('label') || e, e])
              .map(([t, e]) => [t.getBoundingClientRect(), e])
              .filter(([r]) => r.width < 43.5 || r.height < 43.5)
              .map(([r, e]) => `${e.tagName} "${(e.name || e.textContent).trim().slice(0, 40)}" ${r.width.toFixed(0)}x${r.height.toFixed(0)}`)
            """);
        Assert.True(small.Length == 0, $"{page.Url}: {string.Join("; ", small)}");
    }
}
