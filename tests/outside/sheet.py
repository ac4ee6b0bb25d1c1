"""A printed sheet as its checks see it: pages, characters and lines from one library (pdfplumber), tags from another
(pikepdf), and the two joined by the numbers of the marked content.

Lengths are points, from the left and the bottom of the page, and a line stands on its baseline.
"""

import re
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

import pdfplumber
import pikepdf

# "week-07-18-point-a4.pdf": what a sheet promises stands in its name.
NAME = re.compile(r"(?P<subject>.+?)(?:-(?P<extent>full|one-page))?-(?P<size>\d+)-point-(?P<paper>a4|letter)\.pdf")
# Tags inside a line. With a placement of their own they are a block after all.
INLINE = {"Span", "Strong", "Em", "Link", "Code", "Quote", "Reference", "Sub", "Datetime"}
HEADINGS = {"Title", "H1", "H2", "H3", "H4", "H5", "H6"}
# A wider gap than this, in sizes of the type, divides what stands on one baseline.
GAP = 1.0


def sheets_in(*paths):
    """Every sheet in the folders and files, sorted."""
    found = []
    for path in map(Path, paths):
        found += sorted(path.rglob("*.pdf")) if path.is_dir() else [path]
    return found


@dataclass(eq=False)
class Tag:
    """A tag of the document's tree. Children are tags and `Marked`."""

    name: str
    parent: "Tag | None" = None
    alt: str | None = None
    attributes: dict = field(default_factory=dict)
    children: list = field(default_factory=list)

    def tags(self):
        """This tag and all below it, in reading order."""
        yield self
        for child in self.children:
            if isinstance(child, Tag):
                yield from child.tags()

    def below(self, *names):
        """The tags below it with one of the names."""
        return [tag for tag in self.tags() if tag is not self and tag.name in names]

    def inside(self, *names):
        """Whether it or one above it has one of the names."""
        tag = self
        while tag is not None:
            if tag.name in names:
                return True
            tag = tag.parent
        return False

    @property
    def is_inline(self):
        return self.name in INLINE and self.attributes.get("Placement") != "Block"

    @property
    def block(self):
        """The tag of the paragraph, heading, item or cell that it belongs to."""
        tag = self
        while tag.is_inline and tag.parent is not None:
            tag = tag.parent
        return tag

    @property
    def text(self):
        return tidy("".join(child.text for child in self.children))

    @property
    def chars(self):
        """Its letters in the order they are read."""
        return [char for child in self.children for char in child.chars]


@dataclass(eq=False)
class Marked:
    """A piece of a page's content that a tag holds."""

    page: int
    chars: list

    @property
    def text(self):
        return "".join(char["text"] for char in self.chars)


@dataclass(eq=False)
class Line:
    """Characters side by side on one baseline. `block` is the one of the first; none for what is no part of the text."""

    page: "Page"
    block: Tag | None
    chars: list

    @cached_property
    def text(self):
        return "".join(char["text"] for char in self.chars).strip()

    @cached_property
    def inked(self):
        """Its characters without the spaces at its ends."""
        return [char for char in self.chars if char["text"].strip()]

    @property
    def size(self):
        return max(char["size"] for char in self.inked)

    @property
    def baseline(self):
        return self.chars[0]["matrix"][5]

    @property
    def x0(self):
        return self.inked[0]["x0"]

    @property
    def x1(self):
        return self.inked[-1]["x1"]

    @property
    def top(self):
        return self.baseline + 0.75 * self.size

    @property
    def bottom(self):
        return self.baseline - 0.25 * self.size

    @property
    def is_bold(self):
        return all(is_bold(char) for char in self.inked)

    def __str__(self):
        words = self.text if len(self.text) <= 40 else self.text[:40] + "…"
        return f"page {self.page.number}, “{words}”"


@dataclass(eq=False)
class Page:
    number: int
    width: float
    height: float
    rotation: int
    scale: float
    chars: list
    drawn: list  # boxes, rules and curves
    images: list
    lines: list = field(default_factory=list)


class Sheet:
    def __init__(self, path):
        self.path = Path(path)
        match = NAME.fullmatch(self.path.name)
        if match is None:
            raise ValueError(f"{path}: its name says no size and paper")
        self.subject, self.size, self.paper = match["subject"], float(match["size"]), match["paper"]
        # Without an extent in its name it is a sheet of cards; a week on one page is as short of room.
        self.cards = match["extent"] != "full"
        with pdfplumber.open(self.path) as pdf:
            self.pages = [read_page(page) for page in pdf.pages]
        self.tree = read_tree(self.path, self.pages)
        owners = {id(char): tag for tag in self.tree.tags() for piece in tag.children if isinstance(piece, Marked) for char in piece.chars}
        for page in self.pages:
            page.lines = lines_of(page, owners)

    @property
    def lines(self):
        return [line for page in self.pages for line in page.lines]

    @cached_property
    def blocks(self):
        """The lines of each block, in reading order."""
        blocks = {tag: [] for tag in self.tree.tags()}
        for line in self.lines:
            if line.block is not None:
                blocks[line.block].append(line)
        return {tag: lines for tag, lines in blocks.items() if lines}


def read_page(page):
    return Page(
        number=page.page_number,
        width=float(page.width),
        height=float(page.height),
        rotation=page.rotation or 0,
        scale=float(page.page_obj.attrs.get("UserUnit", 1)),
        chars=page.chars,
        drawn=page.rects + page.lines + page.curves,
        images=page.images,
    )


def lines_of(page, owners):
    """Lines from the top of the page down, each from left to right."""
    rows = {}
    for char in page.chars:
        rows.setdefault(round(char["matrix"][5], 1), []).append(char)
    lines = []
    for baseline in sorted(rows, reverse=True):
        line = None
        for char in sorted(rows[baseline], key=lambda char: char["x0"]):
            owner = owners.get(id(char))
            block = owner.block if owner is not None else None
            apart = line is not None and char["x0"] - line.chars[-1]["x1"] > GAP * char["size"]
            if line is None or apart or divides(line.block, block):
                line = Line(page, block, [])
                lines.append(line)
            line.chars.append(char)
    return [line for line in lines if line.inked]


def divides(block, other):
    """Whether two blocks on one baseline are two lines: cells, a number and its step, what is no text."""
    if block is None or other is None:
        return block is not other
    return block is not other and not (block.name in INLINE and other.name in INLINE)


def read_tree(path, pages):
    marked = {}
    for page in pages:
        for char in page.chars:
            if char.get("mcid") is not None and char.get("tag") != "Artifact":
                marked.setdefault((page.number, char["mcid"]), []).append(char)
    with pikepdf.open(path) as pdf:
        numbers = {page.obj.objgen: number for number, page in enumerate(pdf.pages, 1)}
        root = Tag("StructTreeRoot")
        grow(root, pdf.Root.StructTreeRoot.get("/K", []), None, numbers, marked)
    return root


def grow(tag, kids, page, numbers, marked):
    """Hangs the kids of a tag below it. `page` is where bare numbers of marked content are found."""
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if not isinstance(kid, pikepdf.Dictionary):
            tag.children.append(Marked(page, marked.get((page, int(kid)), [])))
            continue
        here = numbers[kid.Pg.objgen] if "/Pg" in kid else page
        if "/S" not in kid:
            if "/MCID" in kid:
                tag.children.append(Marked(here, marked.get((here, int(kid.MCID)), [])))
            continue
        alt = str(kid.Alt) if "/Alt" in kid else None
        child = Tag(str(kid.S)[1:], tag, alt, attributes_of(kid))
        tag.children.append(child)
        grow(child, kid.get("/K", pikepdf.Array()), here, numbers, marked)


def attributes_of(element):
    """Scope, placement and the like, of all owners together."""
    given = element.get("/A", pikepdf.Array())
    attributes = {}
    for owner in given if isinstance(given, pikepdf.Array) else [given]:
        for key, value in owner.items():
            if isinstance(value, pikepdf.Name):
                attributes[key[1:]] = str(value)[1:]
            elif isinstance(value, pikepdf.Array):
                attributes[key[1:]] = [str(item) for item in value]
            else:
                attributes[key[1:]] = value
    return attributes


def is_bold(char):
    return "Bold" in char["fontname"]


def tidy(text):
    return re.sub(r"\s+", " ", text).strip()
