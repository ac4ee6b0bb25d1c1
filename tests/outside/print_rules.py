"""The rules of large print, measured on a finished sheet. Each rule yields what breaks it.

Thresholds are the published ones, or our own promise where that is stricter. The bodies behind them:

- UKAAF: Creating clear print and large print documents (G003, 2012 and 2019); Minimum standards (MS03, 2012)
- RNIB: Clear print guidelines
- ACB: Board of Publications, Large print guidelines, 2022; CCLVI/ACB: Best practices for large print documents, 2011
- APH: Guidelines for print documents (E. Kitchel), 2011
- WCAG 2.2
"""

import re
import subprocess
from collections import Counter
from io import BytesIO

from PIL import Image

from sheet import HEADINGS

MM = 72 / 25.4
# Rounding in the file.
EPSILON = 0.05
PAPERS = {"a4": (595.276, 841.890), "letter": (612.0, 792.0)}  # ISO 216; 8.5 by 11 inches

# Pixels of an inch where a page is looked at in grey, and on how many pages of a sheet.
GREY_DPI = 100
GREY_PAGES = 3


def lp01_no_small_glyph(sheet):
    # UKAAF: page numbers, labels and captions as big as the body. Ours: none below the size in the file's name.
    for line in sheet.lines:
        least = min(char["size"] for char in line.inked)
        if least < sheet.size - EPSILON:
            yield f"{line} has a letter of {least:g} pt"


def lp02_body_size(sheet):
    # UKAAF: 16 pt at least, better 18; ACB 2022: 18. Ours: the size in the file's name, 18 or more.
    sizes = Counter(round(char["size"], 1) for line in sheet.lines for char in line.inked)
    body = sizes.most_common(1)[0][0]
    if body != sheet.size or body < 18:
        yield f"most of its letters have {body:g} pt"


def lp03_headings(sheet):
    # ACB 2022: headings 22 pt, bold. CCLVI/ACB 2011: larger than the text.
    if not headings(sheet):
        yield "has no heading"
    for line in headings(sheet):
        least = min(char["size"] for char in line.inked)
        if least < 22 - EPSILON or least <= sheet.size:
            yield f"{line} is a heading of {least:g} pt"
        if not line.is_bold:
            yield f"{line} is a heading that is not bold"


def lp04_pitch(sheet):
    # ACB 2022: 1.15 of the size; APH: 1.25 (from memory, not verified); more than twice falls apart (judgment).
    for upper, lower in neighbours(sheet):
        pitch = (upper.baseline - lower.baseline) / lower.size
        if pitch < 1.25 - 0.001:
            yield f"{lower} is {pitch:.2f} of its size below the line before"
        # A line may stand between that is too short to reach below the upper one.
        between = any(line.block is upper.block and lower.baseline < line.baseline < upper.baseline for line in sheet.lines if line.page is upper.page)
        if pitch > 2.0 and upper.block is lower.block and not between and not upper.block.inside("Table"):
            yield f"{lower} is {pitch:.2f} of its size below the line before it in one paragraph"


def lp05_gap_between_paragraphs(sheet):
    # UKAAF: a blank line of the size of the text. Between paragraphs, not between items of a list (ACB 2022).
    for upper, lower in neighbours(sheet):
        if upper.block is lower.block or not (upper.block.name == lower.block.name == "P"):
            continue
        gap = upper.bottom - lower.top
        # A card gives up its space before its letters: a third of a line is left.
        least = sheet.size / 3 if sheet.cards else sheet.size
        if not upper.block.inside("LI") and gap < least - EPSILON:
            yield f"{lower} is a paragraph {gap:.1f} pt below the one before"


def lp06_left_aligned(sheet):
    # All the bodies: left edges in line, right edges ragged.
    for lines in sheet.blocks.values():
        for rows in by_page(lines):
            lefts = [row[0].x0 for row in rows]
            # The sides of a log's cell stand before their boxes.
            if max(lefts) - min(lefts) > 0.1 * sheet.size:
                yield f"{rows[0][0]} begins its lines at {min(lefts):.1f} and at {max(lefts):.1f} pt"
            for line in (line for row in rows for line in row):
                wide = [space for space in spaces(line) if space > 0.02 * line.size]
                if len(wide) > 1:
                    yield f"{line} is stretched to be justified"
    for page in sheet.pages:
        # What stands alone on its line may not be centred or set to the right.
        for line in page.lines:
            indented = line.block is not None and not line.block.inside("Table", "Lbl", "LBody") and line.x0 > page.width / 4
            # What goes on behind a space to write on begins no line.
            goes_on = any(other.block is line.block and other.baseline == line.baseline and other.x0 < line.x0 for other in page.lines)
            if indented and not goes_on and not on_card(sheet, page, line):
                yield f"{line} begins {line.x0:.0f} pt from the left edge"


def lp07_line_length(sheet):
    # RNIB: 60 to 70 characters; WCAG 2.2, 1.4.8: 80 at most.
    for line in sheet.lines:
        if len(line.text) > 70:
            yield f"{line} has {len(line.text)} characters"


def lp08_no_italics(sheet):
    # UKAAF: no italics. By the name of the font, and by letters that are slanted.
    for line in sheet.lines:
        for char in line.inked:
            if re.search("italic|oblique", char["fontname"], re.I) or abs(char["matrix"][2]) > EPSILON:
                yield f"{line} is in italics"
                break


def lp09_no_capitals(sheet):
    # RNIB: a word or two in capitals at most. Ours: one, which leaves room for an abbreviation.
    for line in sheet.lines:
        if re.search(r"\b[^\W\d_a-z]{2,}\b[ ,.-]+\b[^\W\d_a-z]{2,}\b", line.text) and any(two_capitals(line.text)):
            yield f"{line} is in capitals"


def lp10_no_word_split(sheet):
    # UKAAF: words are not split. A word with a hyphen of its own is not to be told from one that was split, so it
    # may not end a line either.
    for lines in sheet.blocks.values():
        for line in lines[:-1]:
            if re.search("\\w[-\u00ad\u2010]$", line.text):
                yield f"{line} ends within a word"


def lp11_no_underline(sheet):
    # UKAAF: no underline. A rule from the middle of the letters to just below them, no longer than they are.
    for page in sheet.pages:
        flat = [d for d in page.drawn if d["height"] < 0.15 * sheet.size and d["width"] > sheet.size]
        for line in page.lines:
            for rule in flat:
                y = page.height - (rule["top"] + rule["bottom"]) / 2
                beneath = line.baseline - 0.3 * line.size < y < line.baseline + 0.6 * line.size
                if beneath and rule["x0"] >= line.x0 - 2 and rule["x1"] <= line.chars[-1]["x1"] + 2:
                    yield f"{line} is underlined or struck through"
                    break


def lp12_margins(sheet):
    # ACB 2022: 1 inch at the top, left and right. Ours: 25 mm, on cards and on a turned page 18; below, 12.7 mm, which every printer reaches.
    for page in sheet.pages:
        side = 17.6 if sheet.cards or page.width > page.height else 25
        for line in page.lines:
            edges = {
                "left": (line.x0, side),
                "right": (page.width - line.x1, side),
                "upper": (page.height - line.top, side),
                "lower": (line.bottom, 12.7),
            }
            for name, (space, least) in edges.items():
                # Letters may reach out of their own boxes by a hair.
                if space < least * MM - 0.3:
                    yield f"{line} is {space / MM:.1f} mm from the {name} edge"


def lp13_one_column(sheet):
    # ACB 2022, UKAAF: no columns. Running text beside running text; a log's cells and a step's number are none.
    for page in sheet.pages:
        running = [line for line in page.lines if line.block is not None and not line.block.inside("Table", "Lbl")]
        for i, line in enumerate(running):
            for other in running[i + 1 :]:
                beside = other.block is not line.block and overlap(line, other) and (other.x0 > line.x1 or line.x0 > other.x1)
                if beside and not on_card(sheet, page, max(line, other, key=lambda one: one.x0)):
                    yield f"{other} stands beside “{line.text}”"


def lp14_contrast(sheet):
    # WCAG 2.2, 1.4.6: 7 for text below 18 pt. Ours: for all.
    for page in sheet.pages:
        for line in page.lines:
            for ink in {rgb(char["non_stroking_color"]) for char in line.inked}:
                ratio = contrast(luminance(ink), luminance(background(page, line)))
                if ratio < 7:
                    yield f"{line} has a contrast of {ratio:.2f}"


def lp15_no_text_on_pictures(sheet):
    # RNIB: no text on pictures; reversed type only where it must be. Ours: neither.
    figures = [(tag, tag.attributes["BBox"]) for tag in sheet.tree.below("Figure") if "BBox" in tag.attributes]
    for page in sheet.pages:
        boxes = [(image["x0"], page.height - image["bottom"], image["x1"], page.height - image["top"]) for image in page.images]
        boxes += [tuple(map(float, box)) for tag, box in figures if page.number in pages_of(tag)]
        for line in page.lines:
            middle = line.baseline + 0.25 * line.size
            for x0, y0, x1, y1 in boxes:
                if y0 < middle < y1 and line.x0 < x1 and line.x1 > x0:
                    yield f"{line} lies on a picture"
            paper = luminance(background(page, line))
            if any(luminance(rgb(char["non_stroking_color"])) > paper for char in line.inked):
                yield f"{line} is lighter than what it stands on"


def lp16_nothing_rotated(sheet):
    # UKAAF: text is horizontal.
    for page in sheet.pages:
        if page.rotation != 0:
            yield f"page {page.number} is turned by {page.rotation} degrees"
        for char in page.chars:
            if not char["upright"] or abs(char["matrix"][1]) > EPSILON:
                yield f"page {page.number} has a letter “{char['text']}” that is turned"
                break


def lp17_kept_together(sheet):
    # CCLVI/ACB 2011: no widows and orphans. Ours too: no heading last on its page, no step away from its number.
    for page in sheet.pages:
        text = [line for line in page.lines if line.block is not None]
        if text and text[-1].block.name in HEADINGS:
            yield f"{text[-1]} is a heading, and the last on its page"
    for tag, lines in sheet.blocks.items():
        pages = Counter(line.page.number for line in lines)
        if tag.name in HEADINGS and len(pages) > 1:
            yield f"{lines[0]} is a heading on two pages"
        if len(pages) > 1 and min(pages.values()) == 1:
            yield f"{lines[0]} leaves one of its lines alone on another page"
    for row in sheet.tree.below("TR"):
        if len(pages_of(row)) > 1:
            yield f"a row of a table, “{row.text}”, is on two pages"
    for item in sheet.tree.below("LI"):
        for label in item.below("Lbl"):
            if len(pages_of(item)) > 1:
                yield f"step {label.text} “{item.text}” is on two pages"
            elif label.chars and baseline(label) != max(map(baseline, item.below("LBody"))):
                yield f"step {label.text} “{item.text}” begins beside its number"


def lp18_no_light_weight(sheet):
    # RNIB: no light type. By the name of the font: a weight below 400, or a narrow cut.
    for font in {char["fontname"] for page in sheet.pages for char in page.chars}:
        if re.search("thin|light|hairline|condensed|narrow|compressed", font, re.I):
            yield f"is set in {font}"


def lp19_page_numbers(sheet):
    # RNIB: in the same place on each page. UKAAF: as large as the body.
    places = Counter()
    for page in sheet.pages:
        line = min(page.lines, key=lambda line: line.baseline, default=None)
        numbers = re.findall(r"\d+", line.text) if line is not None and line.block is None else []
        if numbers[-2:] != [str(page.number), str(len(sheet.pages))]:
            yield f"page {page.number} has no page number"
            continue
        if min(char["size"] for char in line.inked) < sheet.size - EPSILON:
            yield f"{line} is a page number of {line.size:g} pt"
        places[round(line.x0, 1), round(line.baseline, 1)] += 1
    if len(places) > 1:
        yield f"has its page numbers in {len(places)} places"


def lp20_paper(sheet):
    # UKAAF: A4, and not made larger or smaller by a copier.
    for page in sheet.pages:
        given = (page.width, page.height)
        if any(abs(a - b) > 0.01 for a, b in zip(sorted(given), PAPERS[sheet.paper])) or page.scale != 1:
            yield f"page {page.number} is {given[0]:.2f} by {given[1]:.2f} pt"


def lp21_no_colour_alone(sheet):
    # WCAG 2.2, 1.4.1. What can be measured: every colour stands for one word, which is written in it wherever it is
    # used, so that the colour says nothing more; no line is coloured in part, and nothing drawn has a colour. Whether
    # a photo needs its colours to be understood cannot be measured.
    words = {}
    for line in sheet.lines:
        inks = {rgb(char["non_stroking_color"]) for char in line.inked}
        if len(inks) > 1:
            yield f"{line} has more than one colour"
        elif is_coloured(next(iter(inks))):
            words.setdefault(next(iter(inks)), set()).add(line.text)
    for ink, texts in words.items():
        if len(texts) > 1:
            yield f"one colour is used for {' and '.join(f'“{text}”' for text in sorted(texts))}"
    for page in sheet.pages:
        for drawn in page.drawn:
            used = [drawn["non_stroking_color"]] * bool(drawn["fill"]) + [drawn["stroking_color"]] * bool(drawn["stroke"])
            if any(is_coloured(rgb(colour)) for colour in used):
                yield f"page {page.number} has something drawn in colour"
                break


def lp22_in_grey(sheet):
    # A printer without colours: LP14 once more on pages as they are rendered in grey (by poppler). The first page, the
    # first of those with colours, and the last.
    coloured = [line.page.number for line in sheet.lines if any(is_coloured(rgb(char["non_stroking_color"])) for char in line.inked)]
    for number in sorted({1, *coloured[:1], len(sheet.pages)})[:GREY_PAGES]:
        page = sheet.pages[number - 1]
        image = in_grey(sheet.path, number)
        scale = image.height / page.height
        for line in page.lines:
            box = (line.x0, page.height - line.top, line.x1, page.height - line.bottom)
            seen = image.crop(tuple(round(edge * scale) for edge in box))
            paper = Counter(seen.getdata()).most_common(1)[0][0]
            ratio = contrast(luminance((seen.getextrema()[0] / 255,) * 3), luminance((paper / 255,) * 3))
            if ratio < 7:
                yield f"{line} has a contrast of {ratio:.2f} in grey"


RULES = {name[:4].upper(): rule for name, rule in globals().items() if re.match(r"lp\d\d_", name)}


def faults(sheet):
    """What breaks a rule, each with the rule's number."""
    return [f"{name}: {fault}" for name, rule in RULES.items() for fault in rule(sheet)]


# What the rules are made of.


def headings(sheet):
    return [line for tag, lines in sheet.blocks.items() if tag.name in HEADINGS for line in lines]


def on_card(sheet, page, line):
    """Whether a line stands where a card may have it: to the right of its picture, or of a title, as the component does."""
    if not sheet.cards:
        return False
    figures = [(tag, tag.attributes["BBox"]) for tag in sheet.tree.below("Figure") if "BBox" in tag.attributes]
    boxes = [tuple(map(float, box)) for tag, box in figures if page.number in pages_of(tag)]
    boxes += [(one.x0, one.bottom, one.x1, one.top) for one in page.lines if one.block is not None and one.block.name in HEADINGS]

    def goes_on(bottom, top):
        # What a card has beside its picture may go on below it by a few lines, and a frame that begins beside it to its end.
        frames = [d for d in page.drawn if d["stroke"] and d["x0"] <= line.x0 and line.x1 <= d["x1"]]
        framed = any(bottom < page.height - d["top"] < top + line.size and page.height - d["bottom"] < line.bottom for d in frames)
        return framed or line.top > bottom - 6 * line.size

    return any(line.x0 > x1 and line.bottom < top and goes_on(bottom, top) for _, bottom, x1, top in boxes)


def by_page(lines):
    """The lines of a block, page by page, as rows of what stands on one baseline."""
    pages = {}
    for line in lines:
        pages.setdefault(line.page.number, {}).setdefault(line.baseline, []).append(line)
    return [list(rows.values()) for rows in pages.values()]


def neighbours(sheet):
    """Each line of the text with the next one below it on its page that it has in its way."""
    for page in sheet.pages:
        text = [line for line in page.lines if line.block is not None]
        for i, upper in enumerate(text):
            for lower in text[i + 1 :]:
                if lower.baseline < upper.baseline - EPSILON and lower.x0 < upper.x1 and upper.x0 < lower.x1:
                    yield upper, lower
                    break


def overlap(line, other):
    """Whether two lines stand beside each other, by half a line or more."""
    return abs(line.baseline - other.baseline) < 0.5 * min(line.size, other.size)


def spaces(line):
    """How far each space is wider than the font has it."""
    pairs = zip(line.chars, line.chars[1:])
    return [after["x0"] - char["x1"] for char, after in pairs if char["text"] == " " and after["text"] != " "]


def two_capitals(text):
    """Whether each two words side by side are all in capitals."""
    words = re.findall(r"[^\W\d_]{2,}", text)
    return [a.isupper() and b.isupper() for a, b in zip(words, words[1:])]


def pages_of(tag):
    return {char["page_number"] for char in tag.chars} | {
        child.page for each in tag.tags() for child in each.children if hasattr(child, "page")
    }


def baseline(tag):
    return max((round(char["matrix"][5], 1) for char in tag.chars), default=0)


def background(page, line):
    """The colour of what was drawn under a line; paper is white."""
    colour = (1.0, 1.0, 1.0)
    x, y = (line.x0 + line.x1) / 2, page.height - line.baseline - 0.25 * line.size
    for drawn in page.drawn:
        if drawn["fill"] and drawn["x0"] <= x <= drawn["x1"] and drawn["top"] <= y <= drawn["bottom"]:
            colour = rgb(drawn["non_stroking_color"])
    return colour


def rgb(colour):
    """Red, green and blue from 0 to 1, of a colour in grey or in sRGB."""
    parts = tuple(colour) if isinstance(colour, (tuple, list)) else (colour or 0,)
    if len(parts) == 1:
        return (float(parts[0]),) * 3
    if len(parts) == 3:
        return tuple(map(float, parts))
    raise ValueError(f"a colour of {len(parts)} parts")


def is_coloured(colour):
    return max(colour) - min(colour) > 0.01


def luminance(colour):
    # WCAG 2.2, "relative luminance".
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(a, b):
    return (max(a, b) + 0.05) / (min(a, b) + 0.05)


def in_grey(path, number):
    """One page as a printer without colours has it."""
    page = ["-f", str(number), "-l", str(number), "-singlefile"]
    # Poppler complains of a key that has its type since PDF 1.6.
    done = subprocess.run(["pdftoppm", "-gray", "-r", str(GREY_DPI), *page, path], capture_output=True, check=True)
    return Image.open(BytesIO(done.stdout))
