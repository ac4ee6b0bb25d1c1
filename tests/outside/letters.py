"""Handouts in other letters, with fonts of open licenses from packages of Debian: letters.py STEADYLEAF FOLDER.

Greek, Cyrillic, Hebrew, Arabic and Chinese are printed with fonts that a user puts into the theme, and are one finding a text
without them; a handout in a language that is written from right to left begins its lines there.
"""

import re
import shutil
import subprocess
import sys
import unicodedata
from pathlib import Path

import pdfplumber

FONTS = [
    "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf",
    "/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf",
    "/usr/share/fonts/truetype/droid/DroidSansFallbackFull.ttf",
]
# "Stand tall" or so; none of it is meant to be read.
TEXTS = {
    "Greek": "Σταθείτε όρθια.",
    "Cyrillic": "Встаньте прямо.",
    "Hebrew": "עמדו זקוף.",
    "Arabic": "قف مستقيما.",
    "Chinese": "站直。",
}
EXERCISE = "content/exercises/tall-sit.md"


def run(program, workspace, *arguments):
    command = [program, *arguments, "--today", "2026-01-12", "--color", "never"]
    done = subprocess.run(command, cwd=workspace, capture_output=True, text=True, check=False)
    return done.returncode, done.stdout + done.stderr


def with_summary(workspace, text):
    path = Path(workspace, EXERCISE)
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    at = next(i for i, line in enumerate(lines) if line.startswith("summary = "))
    lines[at] = f'summary = "{text}"\n'
    path.write_text("".join(lines), encoding="utf-8")


def printed(program, workspace, extent="full"):
    """The words of the handout with their places, and the width of its page; or what was said instead. A summary stands on what
    says everything alone.
    """
    code, said = run(program, workspace, "handout", "--exercise", "tall-sit", "--extent", extent)
    if code != 0:
        return None, said
    name = "tall-sit-18-point-a4.pdf" if extent == "cards" else f"tall-sit-{extent}-18-point-a4.pdf"
    with pdfplumber.open(Path(workspace, name)) as pdf:
        pages = [(page.extract_words(), page.width) for page in pdf.pages]
    return pages, said


def letters(text):
    """Letters of a text in no order, each in its plain form: Arabic is printed in forms that depend on the letter beside it."""
    return {letter for letter in unicodedata.normalize("NFKD", text) if letter.isalpha()}


def main(program, folder):
    shutil.rmtree(folder, ignore_errors=True)
    run(program, ".", "begin", folder)
    faults = []
    for name, text in TEXTS.items():
        with_summary(folder, text)
        _, said = printed(program, folder)
        if said.count("glyph-missing") != 1 or f"{EXERCISE}:" not in said:
            faults.append(f"{name} without a font is not one finding at its text: {said}")
    fonts = Path(folder, "themes/wideleaf/fonts")
    fonts.mkdir(parents=True)
    for font in FONTS:
        shutil.copy(font, fonts)
    for name, text in TEXTS.items():
        with_summary(folder, text)
        pages, said = printed(program, folder)
        if pages is None:
            faults.append(f"{name} is not printed: {said}")
            continue
        found = letters("".join(word["text"] for words, _ in pages for word in words))
        if lost := letters(text) - found:
            faults.append(f"{name} lacks {', '.join(sorted(lost))}")
    # Words of the theme in a language of that direction: which words they are does not matter here, but a line of bold and
    # light words from left to right is turned around by the typesetter, so that those of a card's last line are Arabic.
    words = Path(folder, "themes/wideleaf/words")
    words.mkdir()
    english = (Path(__file__).parents[2] / "themes/wideleaf/words/en.ftl").read_text(encoding="utf-8")
    arabic = re.sub(r"(?m)^(card-(?:stop|emergency) = ).*", rf"\g<1>{TEXTS['Arabic']}", english)
    (words / "ar.ftl").write_text(arabic, encoding="utf-8")
    settings = Path(folder, "site.toml")
    settings.write_text(settings.read_text(encoding="utf-8").replace('language = "en"', 'language = "ar"'), encoding="utf-8")
    with_summary(folder, TEXTS["Arabic"])
    for extent in ("full", "cards"):
        pages, said = printed(program, folder, extent)
        if pages is None:
            faults.append(f"a handout from right to left ({extent}) is not printed: {said}")
            continue
        # Lines begin at the right edge and do not end at the left one. A card has edges of its own.
        right, left = 0, 0
        for page, width in pages:
            edge = 72 if extent == "full" else min((width - word["x1"] for word in page), default=0)
            right += sum(1 for word in page if abs(width - word["x1"] - edge) < 3)
            left += sum(1 for word in page if abs(word["x0"] - edge) < 3)
        if right <= 3 * left:
            faults.append(f"from right to left ({extent}), {right} words stand at the right edge and {left} at the left one")
    for fault in faults:
        print(fault)
    print(f"letters: {len(TEXTS)} scripts, {len(faults) or 'no'} defects")
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main(*sys.argv[1:])
