"""The checks of sheets checked: each must find what is broken on purpose, in the theme of a copy of the workspace or in a
finished sheet. broken_sheets.py STEADYLEAF WORKSPACE TODAY
"""

import re
import shutil
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import pikepdf

import print_rules
import qr
import tags
import trees
from sheet import Sheet

PARTS = "themes/wideleaf/sheet/parts.typ"
# An exercise whose sides are done one by one, with steps, points, cautions and an address.
EXERCISE = "tandem-stand"
SIZE, PAPER = 18, "a4"
PROCESSES = 2
# The one break that shows nowhere in the tree: letters marked as what the tree has already.
UNHUNG = "tags: a page number that is read"

# The program itself keeps text inside the margins, and must let it pass here.
UNGUARDED = '[#metadata((mark: "area", margin: 0.0))]'


def body(rules, after=""):
    """A theme in which rules of the typesetter come last, in front of the whole body of a sheet, and more comes after it."""
    return f"\n#let sheet-before = sheet\n#let sheet(..given, body) = sheet-before(..given, {{\n  {UNGUARDED}\n  set page(header: {UNGUARDED})\n  {rules}\n  body\n  {after}\n}})\n"


FOOTER = 'context {{ {} str(counter(page).get().first()) + " of " + str(counter(page).final().first()) }}'

# What is added to the theme, and what must be said of it.
THEMES = {
    "LP01: small letters in the log": (body("show table: set text(size: 14pt)"), r"LP01: .*14 pt"),
    "LP01: a small page number": (body(f"set page(footer: {FOOTER.format('set text(size: 12pt);')})"), r"LP01: .*“1 of \d+”.*12 pt"),
    "LP02: a small body": (body("set text(size: 16pt)"), r"LP02: .*16 pt"),
    "LP03: small headings": (body("show heading: set text(size: 18pt)"), r"LP03: .*18 pt"),
    "LP03: light headings": (body('show heading: set text(weight: "regular")'), r"LP03: .*not bold"),
    "LP04: narrow lines": (body("set par(leading: 0.1em)"), r"LP04: .* is 1\.10 of its size"),
    "LP04: wide lines": (body("set par(leading: 1.2em)"), r"LP04: .* in one paragraph"),
    "LP05: no gap between paragraphs": (body("set par(spacing: 0.4em)"), r"LP05"),
    "LP06: justified": (body("set par(justify: true)"), r"LP06: .*justified"),
    "LP06: centred": (body("set align(center)"), r"LP06: .*begins"),
    "LP06: set to the right": (body("show heading: set align(right)"), r"LP06: .*from the left edge"),
    "LP07: long lines": (body("set page(flipped: true)"), r"LP07: .* has [789]\d characters"),
    "LP08: slanted": (body("show strong: it => box(skew(ax: -12deg, it))"), r"LP08: .*italics"),
    "LP09: capitals": (body("show heading: it => upper(it)"), r"LP09: .*STAND"),
    "LP10: words split": (body("set text(hyphenate: true)"), r"LP10: .*ends within a word"),
    "LP11: underlined": (body("show strong: underline"), r"LP11: .*underlined"),
    "LP11: struck through": (body("show heading: strike"), r"LP11: .*struck"),
    "LP12: narrow margins": (body("set page(margin: 15mm)"), r"LP12: .* 15\.\d mm from the left edge"),
    "LP12: a low page number": (body("set page(footer-descent: 12mm)"), r"LP12: .*from the lower edge"),
    "LP13: two columns": (body("", "grid(columns: (1fr, 1fr), par[Some words here], par[Other words there])"), r"LP13: .*stands beside"),
    "LP14: grey text": (body('set text(fill: rgb("#999999"))'), r"LP14: .* 2\.8\d"),
    "LP15: text on a picture": (
        body("", 'block(pdf.artifact(place(image(bytes((240,) * 12), format: (encoding: "rgb8", width: 2, height: 2), width: 60mm))) + par[Words on it])'),
        r"LP15: .*picture",
    ),
    "LP15: reversed": (body("set page(fill: black)\n  set text(fill: white)"), r"LP15: .*lighter"),
    "LP16: turned": (body("", "rotate(3deg, par[Some words])"), r"LP16: .*turned"),
    "LP17: a heading last on its page": (
        body("", "pagebreak()\n  let lines = for n in range(9) { par[Some words.] }\n  lines + heading(depth: 1)[Last] + pagebreak() + lines"),
        r"LP17: .*last on its page",
    ),
    "LP19: no page numbers": (body("set page(footer: none)"), r"LP19: .*no page number"),
    "LP19: page numbers that move": (
        body(f"set page(footer: {FOOTER.format('h(1cm * calc.rem(counter(page).get().first(), 2));')})"),
        r"LP19: .*\d places",
    ),
    "LP19: a small page number": (body(f"set page(footer: {FOOTER.format('set text(size: 12pt);')})"), r"LP19: .*12 pt"),
    "LP20: no paper of the trade": (body("set page(height: 290mm)"), r"LP20"),
    "LP21: a colour for what matters": (body('show strong: set text(fill: rgb("#7a0000"))'), r"LP21: .*one colour is used for"),
    "LP21: words in colour within a line": (body('show regex("counter"): set text(fill: rgb("#7a0000"))'), r"LP21: .*more than one colour"),
    "LP21: a table in colour": (body('set table(stroke: 1pt + rgb("#1d3c78"))'), r"LP21: .*drawn in colour"),
    "LP22: see-through text": (body("set text(fill: rgb(0, 0, 0, 35%))"), r"LP22: .*in grey"),
    "tags: bold words for a heading": (
        body("show heading: it => block(sticky: true, par(strong(text(size: 25pt, it.body))))"),
        r"tags: .*looks like a heading and is tagged P",
    ),
    "tags: a step that is a paragraph": (body("", 'par("1. Do this.")'), r"tags: .*looks like an item of a list"),
    "tags: text above the page": (body("set page(header: in-margin[On every page])"), r"tags: .*“On every page” is not tagged"),
    "tags: a line that runs on": (body('show "Prepared by ": [Prepared by#linebreak()]'), r"tags: .*runs into the next line"),
    "tags: words in no paragraph": (body("", 'block("On its own")'), r"tags: .*in no paragraph"),
    "code: another address": (body('show regex("tandem"): "random"'), r"the code leads to"),
    "code: none": (body("show image: none"), r"has 0 codes"),
}


# Breaks of a finished sheet.


def all_tags(top, name):
    """The tags with a name in a file or below a tag, in reading order."""
    found = []

    def walk(kid):
        if isinstance(kid, pikepdf.Array):
            for each in kid:
                walk(each)
        elif isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            if str(kid.S) == f"/{name}":
                found.append(kid)
            walk(kid.get("/K", pikepdf.Array()))

    walk(top.Root.StructTreeRoot.K if isinstance(top, pikepdf.Pdf) else top.K)
    return found


def heading(pdf, words):
    return next(tag for level in ("H2", "H3") for tag in all_tags(pdf, level) if str(tag.get("/T", "")).strip() == words)


def steps(pdf):
    """The list of the steps of the movement."""
    return next(tag for tag in all_tags(pdf, "L") if any(owner.get("/ListNumbering") == "/Decimal" for owner in tag.A))


def row(pdf):
    """The first row of the log with boxes."""
    return next(tag for tag in all_tags(pdf, "TR") if any(kid.S == "/TD" for kid in tag.K))


def name_of(tag, name):
    tag.S = pikepdf.Name(f"/{name}")


def elsewhere(pdf, tag):
    """Gives a tag the words of the title, on the first page, as well."""
    kids = tag.K if isinstance(tag.K, pikepdf.Array) else [tag.K]
    title = all_tags(pdf, "H1")[0].K
    words = title if not isinstance(title, pikepdf.Array) else title[0]
    number = words.MCID if isinstance(words, pikepdf.Dictionary) else words
    line = pikepdf.Dictionary(Type=pikepdf.Name.MCR, Pg=pdf.pages[0].obj, MCID=number)
    tag.K = pikepdf.Array([*kids, line])


def swap(a, b, *keys):
    for key in keys:
        a[key], b[key] = b[key], a[key]


def turn(items, i, j):
    items[i], items[j] = items[j], items[i]


def light_fonts(pdf):
    for thing in pdf.objects:
        if isinstance(thing, pikepdf.Dictionary):
            for key in ("/BaseFont", "/FontName"):
                if key in thing:
                    thing[key] = pikepdf.Name(str(thing[key]).replace("-Regular", "-Light"))


def tagged_page_number(pdf):
    page = pdf.pages[0]
    instructions = list(pikepdf.parse_content_stream(page))
    starts = [i for i, (_, operator) in enumerate(instructions) if str(operator) in ("BMC", "BDC")]
    numbers = pikepdf.Operator("BDC")
    artifacts = [i for i in starts if str(instructions[i][0][0]) == "/Artifact"]
    instructions[artifacts[-1]] = ([pikepdf.Name.P, pikepdf.Dictionary(MCID=0)], numbers)
    page.Contents = pdf.make_stream(pikepdf.unparse_content_stream(instructions))


def put(thing, key, value):
    thing[key] = value


def without(thing, key):
    del thing[key]


def without_paragraph(kids):
    del kids[next(at for at, kid in enumerate(kids) if kid.S == "/P")]


# What is done to the tags or the pages of a sheet, and what must be said of it.
SHEETS = {
    "LP16: a page that is turned": (lambda pdf: put(pdf.pages[0].obj, "/Rotate", 90), r"LP16: page 1 is turned"),
    "LP17: a step on two pages": (lambda pdf: elsewhere(pdf, all_tags(steps(pdf), "P")[0]), r"LP17: step 1\. .*two pages"),
    "LP17: a step beside another number": (
        lambda pdf: swap(*all_tags(steps(pdf), "Lbl")[:2], "/K"),
        r"LP17: step 2\. .*beside its number",
    ),
    "LP17: a row on two pages": (lambda pdf: elsewhere(pdf, row(pdf).K[1]), r"LP17: a row of a table"),
    "LP17: a line alone": (lambda pdf: elsewhere(pdf, all_tags(pdf, "P")[-1]), r"LP17: .*one of its lines alone"),
    "LP17: a heading on two pages": (lambda pdf: elsewhere(pdf, heading(pdf, "Move")), r"LP17: .*heading on two pages"),
    "LP18: a light type": (light_fonts, r"LP18: .*Light"),
    "LP20: a page of another size": (lambda pdf: put(pdf.pages[0].obj, "/MediaBox", pikepdf.Array([0, 0, 612, 792])), r"LP20: page 1 is 612"),
    "tags: a heading that is a paragraph": (lambda pdf: name_of(heading(pdf, "Move"), "P"), r"tags: “Move” is not tagged as a heading"),
    "tags: sections in another order": (
        lambda pdf: swap(heading(pdf, "Feel"), heading(pdf, "Set up"), "/K", "/Pg"),
        r"tags: .*not read in the order of the entry",
    ),
    "tags: steps in another order": (lambda pdf: turn(steps(pdf).K, 0, 1), r"tags: .*not read in the order of the entry"),
    "tags: a file's name for a description": (
        lambda pdf: put(all_tags(pdf, "Figure")[0], "/Alt", "code-of-the-sheet.svg"),
        r"tags: .*description “code-of-the-sheet\.svg”",
    ),
    "tags: a step without a label": (lambda pdf: without(steps(pdf).K[0].K, 0), r"tags: .* is LBody$"),
    "tags: a label without a number": (lambda pdf: without(steps(pdf).K[0].K[0].K, 0), r"tags: .*no number for a label"),
    "tags: a list of something else": (lambda pdf: name_of(steps(pdf).K[0], "P"), r"tags: .*something else than items"),
    "tags: a header without a scope": (lambda pdf: without(row(pdf).K[0], "/A"), r"tags: .*without a scope"),
    "tags: no header before a cell": (lambda pdf: name_of(row(pdf).K[0], "TD"), r"tags: .*without a header before it"),
    "tags: no header above a cell": (lambda pdf: name_of(all_tags(pdf, "TR")[0].K[1], "TD"), r"tags: .*without a header above it"),
    "tags: a row that is too short": (lambda pdf: without(row(pdf).K, -1), r"tags: .*rows of unlike length"),
    "tags: a page number that is read": (tagged_page_number, r"tags: page 1, .*is the last line, and tagged"),
    "tags: a paragraph in no tag": (lambda pdf: without_paragraph(all_tags(pdf, "Document")[0].K), r"tags: .*hangs in no tag"),
    "tags: a heading without words": (lambda pdf: put(heading(pdf, "Feel"), "/K", pikepdf.Array()), r"tags: .*heading without words"),
}


def print_sheet(steadyleaf, workspace, today, theme, folder):
    """A sheet of a copy of the workspace, with more in its theme."""
    copy = folder / "workspace"
    copy.mkdir()
    shutil.copy(Path(workspace, "site.toml"), copy)
    for name in ("content", "themes"):
        shutil.copytree(Path(workspace, name), copy / name)
    with open(copy / PARTS, "a", encoding="utf-8") as parts:
        parts.write(theme)
    order = ["handout", "--exercise", EXERCISE, "--extent", "full", "--size", str(SIZE), "--paper", PAPER, "--out", folder]
    done = subprocess.run([steadyleaf, "--workspace", copy, "--today", today, "--quiet", *order], capture_output=True, text=True)
    sheet = folder / "exercises" / f"{EXERCISE}-full-{SIZE}-point-{PAPER}.pdf"
    sheet.parent.mkdir()
    made = list(folder.glob("*.pdf"))
    if not made:
        raise RuntimeError(f"prints no sheet: {done.stderr[-400:]}{done.stdout[-400:]}")
    made[0].rename(sheet)
    return sheet


def faults_of(path, workspace):
    sheet = Sheet(path)
    return print_rules.faults(sheet) + tags.faults(sheet, workspace) + qr.faults(path)


def verdict(name, steadyleaf, workspace, today, clean):
    """What is wrong with the checks: what they do not find of one break."""
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        try:
            if name in THEMES:
                theme, expected = THEMES[name]
                broken = print_sheet(steadyleaf, workspace, today, theme, folder)
            else:
                edit, expected = SHEETS[name]
                broken = folder / "exercises" / clean.name
                broken.parent.mkdir()
                with pikepdf.open(clean) as pdf:
                    edit(pdf)
                    pdf.save(broken)
            faults = faults_of(broken, workspace)
        except Exception as error:
            return [f"{name}: {type(error).__name__}: {error}"]
        found = []
        if not any(re.search(expected, fault) for fault in faults):
            found.append(f"{name}: says nothing like {expected}, but {faults[:3]}")
        if name in SHEETS and name.startswith("tags") and name != UNHUNG and trees.text_of(broken) == trees.text_of(clean):
            found.append(f"{name}: the tree of tags stays as it was")
        return found


def ends(clean, workspace):
    """How the check ends of a sheet that is whole, of one under a name that promises more, and of none."""
    folder = clean.parent / "ends" / "exercises"
    folder.mkdir(parents=True)
    command = [sys.executable, Path(__file__).with_name("sheets.py"), workspace, folder]
    for name, expected in [(None, 2), (clean.name, 0), (clean.name.replace(f"-{SIZE}-", f"-{SIZE + 6}-"), 1)]:
        if name is not None:
            shutil.copy(clean, folder / name)
        code = subprocess.run(command, capture_output=True).returncode
        if code != expected:
            yield f"the check of {name or 'nothing'} ends with {code}, and not with {expected}"


def main(steadyleaf, workspace, today):
    start = time.monotonic()
    with tempfile.TemporaryDirectory() as folder, ProcessPoolExecutor(PROCESSES) as pool:
        clean = print_sheet(steadyleaf, workspace, today, "", Path(folder))
        found = [f"a sheet that is whole: {fault}" for fault in faults_of(clean, workspace)]
        given = [pool.submit(verdict, name, steadyleaf, workspace, today, clean) for name in [*THEMES, *SHEETS]]
        found += ends(clean, workspace)
        for each in given:
            found += each.result()
    tested = {name.split(":")[0] for name in [*THEMES, *SHEETS]}
    found += [f"{rule}: no break" for rule in print_rules.RULES if rule not in tested]
    for fault in found:
        print(fault)
    seconds = time.monotonic() - start
    print(f"sheets broken on purpose: {len(given)} breaks, {len(found) or 'no'} defects, {seconds:.1f} s")
    sys.exit(1 if found else 0)


if __name__ == "__main__":
    main(*sys.argv[1:])
