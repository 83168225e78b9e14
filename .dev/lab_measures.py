"""Measured on a page in the browser: contrast and size by the style in force, what sticks out of a panel."""

from playwright.sync_api import Page

THEMES = {"light": "JupyterLab Light", "dark": "JupyterLab Dark"}
TEXT_LEAST, LINE_LEAST = 4.5, 3.0  # contrast ratios, WCAG 2.2, success criteria 1.4.3 and 1.4.11

# Relative luminance and contrast ratio by the definitions of WCAG 2.2. A ground that is not opaque lies on
# the one behind it. Inactive controls are exempt there, so they are left out here.
CONTRAST = """() => {
    const numbers = colour => {
        const found = colour.match(/[\\d.]+/g).map(Number);
        const scale = colour.startsWith('color(srgb') ? 255 : 1;
        return [...found.slice(0, 3).map(one => one * scale), found[3] ?? 1];
    };
    const over = (top, under) => [0, 1, 2].map(n => top[3] * top[n] + (1 - top[3]) * under[n]).concat(1);
    const ground = element => {
        if (!element) return [255, 255, 255, 1];
        const own = numbers(getComputedStyle(element).backgroundColor);
        return own[3] === 1 ? own : over(own, ground(element.parentElement));
    };
    const luminance = colour => colour.slice(0, 3).map(c => c / 255)
        .map(c => c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)
        .reduce((sum, c, n) => sum + c * [0.2126, 0.7152, 0.0722][n], 0);
    const ratio = (one, other) => {
        const [low, high] = [luminance(over(one, other)), luminance(other)].sort((a, b) => a - b);
        return (high + 0.05) / (low + 0.05);
    };
    const shade = (element, part) => numbers(getComputedStyle(element)[part]);
    const EDGED = 'input[type=text], textarea, select, button:not(.rm-fold), .noUi-handle';
    const seen = element => element.getClientRects().length > 0 && !element.closest('[disabled], [inert]')
        && getComputedStyle(element).visibility === 'visible';
    const named = element =>
        `${element.tagName} ${element.className} "${(element.innerText || '').slice(0, 30)}"`;
    const all = (root, selector) => [...root.querySelectorAll(selector)].filter(seen);
    const texts = [], lines = [];
    for (const root of document.querySelectorAll('.jp-Notebook .rm-root')) {
        for (const element of all(root, '*')) {
            const own = [...element.childNodes].some(node => node.nodeType === 3 && node.data.trim());
            if (own || element.matches('input[type=text], textarea'))
                texts.push([ratio(shade(element, 'color'), ground(element)), named(element)]);
        }
        // The edge of what is typed in, chosen from or pressed; a slider's handle and track; a list's arrow.
        for (const element of all(root, EDGED)) lines.push([
            ratio(shade(element, 'borderTopColor'), ground(element.parentElement)),
            `edge: ${named(element)}`]);
        for (const element of all(root, '.noUi-target'))
            lines.push([ratio(ground(element), ground(element.parentElement)), `track: ${named(element)}`]);
        for (const element of all(root, 'select')) {
            const image = getComputedStyle(element).backgroundImage.match(/rgba?\\([^)]*\\)/g);
            const shades = (image || ['rgb(0, 0, 0)']).map(numbers).filter(one => one[3] > 0);
            const least = Math.min(...shades.map(one => ratio(one, ground(element))));
            lines.push([least, `arrow: ${named(element)}`]);
        }
    }
    return {texts, lines};
}"""
# A list and a typed box may hold more than they show, and figures in columns scroll by themselves.
STICKS_OUT = """() => {
    const found = [];
    for (const root of document.querySelectorAll('.jp-Notebook .rm-root')) {
        const area = root.closest('.jp-OutputArea-output'), room = area.getBoundingClientRect();
        if (area.scrollWidth > area.clientWidth + 1) found.push(`scrolls sideways: ${root.ariaLabel}`);
        for (const one of root.querySelectorAll('*')) {
            const own = one.getBoundingClientRect(), named = `${one.tagName} ${one.className}`;
            if (!own.width || !own.height || one.closest('table')) continue;
            if (own.right > room.right + 1 || own.left < room.left - 1)
                found.push(`${named} "${(one.innerText || '').slice(0, 30)}" of ${root.ariaLabel}`);
            const cuts = getComputedStyle(one).overflowX !== 'visible';
            if (cuts && one.scrollWidth > one.clientWidth + 1
                && !one.matches('input, select, textarea') && !one.querySelector('table'))
                found.push(`cut: ${named} "${(one.innerText || '').slice(0, 30)}"`);
        }
    }
    return found;
}"""
# Sizes of text by the style in force, of all that a reader meets: a cell's number and the tools of the page,
# which the notebook does not own, are left out.
SIZES = """() => {
    const LEFT_OUT = '.jp-InputPrompt, .jp-OutputPrompt, .jp-Toolbar, .rm-still';
    const found = [];
    for (const one of document.querySelectorAll('.jp-Notebook .jp-Cell *')) {
        const own = [...one.childNodes].some(node => node.nodeType === 3 && node.data.trim());
        if (!(own || one.matches('input[type=text], textarea, select')) || one.closest(LEFT_OUT)) continue;
        if (one.closest('math')) continue;  // an index is smaller than its letter
        if (!one.getClientRects().length || getComputedStyle(one).visibility !== 'visible') continue;
        found.push([parseFloat(getComputedStyle(one).fontSize),
            `${one.tagName} ${one.className} "${(one.innerText || '').slice(0, 30)}"`]);
    }
    return found;
}"""
# Of each panel with a picture: its size beside the picture's own, the height of picture and sliders together.
ROOM = """() => {
    const outer = document.querySelector('.jp-NotebookPanel .jp-WindowedPanel-outer');
    const roots = document.querySelectorAll('.jp-Notebook .rm-root:has(.rm-picture img.widget-image)');
    return [...roots].map(root => {
        const image = root.querySelector('img.widget-image');
        const rows = root.querySelectorAll('.rm-control .rm-row');
        const boxes = [image, ...rows].map(one => one.getBoundingClientRect());
        const top = Math.min(...boxes.map(one => one.top));
        const end = Math.max(...boxes.map(one => one.bottom));
        return {panel: root.querySelector('strong').innerText, share: image.clientWidth / image.naturalWidth,
            wanted: end - top, high: outer.clientHeight};
    });
}"""
# A cell out of the window is not laid out; what is to be measured has to be.
LAY_OUT = """() => document.querySelectorAll('.jp-Notebook .jp-Cell').forEach(
    cell => { cell.style.contentVisibility = 'visible'; })"""


def wear(page: Page, theme: str) -> None:
    """Put the page in a theme, "light" or "dark", and wait until its colours are in force."""
    page.evaluate(
        "theme => window.jupyterapp.commands.execute('apputils:change-theme', {theme})", THEMES[theme]
    )
    light = "true" if theme == "light" else "false"
    page.wait_for_selector(f"body[data-jp-theme-light={light}]", state="attached")
    page.wait_for_timeout(300)


def too_faint(page: Page) -> list[str]:
    """Texts below 4.5 to 1 and lines below 3 to 1 in all panels, by the style in force."""
    page.evaluate(LAY_OUT)
    seen = page.evaluate(CONTRAST)
    assert seen["texts"], "no text in any panel"
    least = ((seen["texts"], TEXT_LEAST), (seen["lines"], LINE_LEAST))
    return [f"{ratio:.2f}: {what}" for found, limit in least for ratio, what in found if ratio < limit]


def too_small(page: Page, least: float = 24) -> list[str]:
    """Texts of the whole notebook below a size, [CSS px]; 24 are 18 point."""
    page.evaluate(LAY_OUT)
    sizes = page.evaluate(SIZES)
    assert sizes, "no text in the notebook"
    return [f"{size} px: {what}" for size, what in sizes if size < least - 0.01]


def room(page: Page) -> list[dict]:
    """How each panel's picture and sliders stand in the window as it is; see ``ROOM``, [CSS px]."""
    page.evaluate(LAY_OUT)
    return page.evaluate(ROOM)


def sticks_out(page: Page, width: int, height: int) -> list[str]:
    """What does not fit sideways into its panel in a window of this size, [CSS px], the file list folded."""
    page.evaluate("() => window.jupyterapp.shell.collapseLeft()")
    page.set_viewport_size({"width": width, "height": height})
    page.evaluate(LAY_OUT)
    page.wait_for_timeout(400)
    return page.evaluate(STICKS_OUT)
