"""What no validator of PDF/UA sees in the tags of a sheet: whether they say what the sheet shows and the author wrote."""

import re

import entry
from sheet import HEADINGS, INLINE, Marked, Tag, tidy

# Tags that hold others, never words of their own.
GROUPS = {"StructTreeRoot", "Document", "Part", "Sect", "Div", "Art", "BlockQuote", "L", "LI", "Table", "THead", "TBody", "TFoot", "TR"}


def words_of_the_entry(sheet, workspace):
    """Titles and sections are headings, steps and points are items, and all of them are read in the order they were written."""
    read = [tag for tag in sheet.tree.tags() if tag.name in HEADINGS or tag.name == "LBody"]
    at = 0
    for kind, words in entry.of_sheet(sheet, workspace):
        # The title of a sheet is the heading above all others.
        names = {"title": {"H1"}, "heading": HEADINGS - {"Title", "H1"}, "item": {"LBody"}}[kind]
        found = next((i for i in range(at, len(read)) if read[i].name in names and says(read[i], words)), None)
        if found is not None:
            at = found + 1
        elif any(tag.name in names and says(tag, words) for tag in read):
            yield f"“{words}” is not read in the order of the entry"
        else:
            yield f"“{words}” is not tagged as a {kind}"


def says(tag, words):
    return tag.text == words or tag.text.startswith(words) and tag.text[len(words) :].startswith(" (")


def headings_are_tagged(sheet):
    """What looks like a heading is one: a block of its own, all bold, and 4 points or more above the body."""
    for tag, lines in sheet.blocks.items():
        looks = all(line.is_bold and min(char["size"] for char in line.inked) >= sheet.size + 3.95 for line in lines)
        if looks and tag.name not in HEADINGS:
            yield f"“{tag.text}” looks like a heading and is tagged {tag.name}"


def headings_say_something(sheet):
    for tag in sheet.tree.below(*HEADINGS):
        if not tag.text:
            yield f"page {page_of(tag)} has a heading without words"


def words_are_in_blocks(sheet):
    """A tag of a part of a line belongs into a paragraph, an item or a cell: else a reader hears no end of it."""
    for tag in sheet.tree.tags():
        own = any(isinstance(child, Marked) and child.text.strip() for child in tag.children)
        if (tag.name in INLINE and tag.parent.name in GROUPS or tag.name in GROUPS) and (own or tag.name in INLINE) and tag.text:
            yield f"page {page_of(tag)}: “{tag.text}” is tagged {tag.name}, in no paragraph"


def pictures_are_described(sheet):
    """An alternative text describes: words, and no name of a file."""
    for tag in sheet.tree.below("Figure", "Formula"):
        alt = tag.alt or ""
        if len(re.findall(r"[^\W\d_]{2,}", alt)) < 3 or re.fullmatch(r"\S+\.\w{2,4}", alt):
            yield f"page {page_of(tag)} has a picture with the description “{alt}”"


def follows_picture(tag):
    """A list of what the numbers in the picture before it stand for has them as they stand there."""
    while tag.parent is not None:
        before = tag.parent.children[: tag.parent.children.index(tag)]
        if before:
            return isinstance(before[-1], Tag) and any(below.name == "Figure" for below in before[-1].tags())
        tag = tag.parent
    return False


def is_numbered(tag):
    return tag.attributes.get("ListNumbering") == "Decimal"


def lists_are_lists(sheet):
    for tag in sheet.tree.below("L"):
        if any(child.name not in ("LI", "Caption") for child in tag.children):
            yield f"page {page_of(tag)} has a list with something else than items"
        # Behind a picture stand the names of its numbers, or the steps that it shows, and never both in one list.
        labels = [child.children[0].text for child in tag.children if child.name == "LI" and child.children]
        if is_numbered(tag) and follows_picture(tag) and len({label.endswith(".") for label in labels}) > 1:
            yield f"page {page_of(tag)} has a list that counts in two ways: {', '.join(labels)}"
    for tag in sheet.tree.below("LI"):
        names = [child.name for child in tag.children]
        numbered = is_numbered(tag.parent)
        # A bullet is drawn and no text, so the label of its item is empty or missing.
        if names != ["Lbl", "LBody"] and (numbered or names != ["LBody"]):
            yield f"page {page_of(tag)}: an item of a list, “{tag.text}”, is {' and '.join(names)}"
        elif numbered and not re.fullmatch(r"\d|\d+\." if follows_picture(tag.parent) else r"\d+\.", tag.children[0].text):
            yield f"page {page_of(tag)}: a step, “{tag.text}”, has no number for a label"
    for tag, lines in sheet.blocks.items():
        if tag.name == "P" and not tag.inside("LI") and re.match(r"(\d+\.|[-•·*]) ", lines[0].text):
            yield f"{lines[0]} looks like an item of a list and is tagged P"


def tables_have_headers(sheet):
    """Each cell has a header above it and one before it."""
    for table in sheet.tree.below("Table"):
        rows = table.below("TR")
        cells = [[cell for cell in row.children if cell.name in ("TH", "TD")] for row in rows]
        where = f"page {page_of(table)}: a table"
        if len({len(row) for row in cells}) != 1:
            yield f"{where} has rows of unlike length"
            continue
        for cell in table.below("TH"):
            if cell.attributes.get("Scope") not in ("Column", "Row", "Both") or not cell.text:
                yield f"{where} has a header, “{cell.text}”, without a scope or without words"
        for row in cells:
            for column, cell in enumerate(row):
                above = any(scope(other[column]) in ("Column", "Both") for other in cells if other is not row)
                before = any(scope(other) in ("Row", "Both") for other in row[:column])
                if cell.name == "TD" and not (above and before):
                    yield f"{where} has a cell without a header {'before' if above else 'above'} it"


def scope(cell):
    return cell.attributes.get("Scope") if cell.name == "TH" else None


def only_the_foot_is_an_artifact(sheet):
    """Read aloud it would break into the text, as would the headers of a table on its next page."""
    headers = {cell.text for cell in sheet.tree.below("TH")}
    for page in sheet.pages:
        last = min((line.baseline for line in page.lines), default=0)
        text = min((line.bottom for line in page.lines if line.block is not None), default=page.height)
        for line in page.lines:
            if line.baseline == last and line.block is not None:
                yield f"{line} is the last line, and tagged {line.block.name}"
            if line.top > text and line.block is None and line.text not in headers:
                yield f"{line} is not tagged"


def lines_do_not_run_together(sheet):
    """The last word of a line and the first of the next have a space between them, as they are read. An address goes on
    without one, and so does a word with a hyphen, which is for LP10 to find."""
    for tag in sheet.blocks:
        text = ""
        last = None
        for char in tag.chars:
            if last is not None and char["matrix"][5] < last["matrix"][5] - 1 and text.strip() and not text[-1].isspace():
                if not char["text"].isspace() and not re.search(r"((://|@)\S*|[-\u2010])$", text):
                    yield f"page {page_of(tag)}: “{tidy(text[-30:])}” runs into the next line"
            text += char["text"]
            last = char


def all_text_is_read(sheet):
    """Every letter on a page but its number hangs in the tree."""
    hung = {id(char) for char in sheet.tree.chars}
    for page in sheet.pages:
        for line in page.lines:
            lost = [char for char in line.inked if char.get("tag") != "Artifact" and id(char) not in hung]
            if lost:
                yield f"{line} is marked, but hangs in no tag"


RULES = [
    headings_are_tagged,
    headings_say_something,
    words_are_in_blocks,
    pictures_are_described,
    lists_are_lists,
    tables_have_headers,
    only_the_foot_is_an_artifact,
    lines_do_not_run_together,
    all_text_is_read,
]


def faults(sheet, workspace):
    found = [*words_of_the_entry(sheet, workspace)]
    for rule in RULES:
        found += rule(sheet)
    return [f"tags: {fault}" for fault in found]


def page_of(tag):
    return next((child.page for each in tag.tags() for child in each.children if isinstance(child, Marked)), "?")
