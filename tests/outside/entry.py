"""What the author wrote for a sheet, read from the Markdown without the program."""

import re
import tomllib
from dataclasses import dataclass
from pathlib import Path

FRONT = re.compile(r"```toml\n(?P<fields>.*?)^```\n(?P<prose>.*)", re.S | re.M)


@dataclass
class Entry:
    fields: dict
    # Headings of level 2, and items of lists, as they follow each other: ("heading" or "item", words).
    pieces: list


def read(path):
    match = FRONT.fullmatch(Path(path).read_text(encoding="utf-8"))
    pieces = []
    for line in match["prose"].splitlines():
        if heading := re.fullmatch(r"## (.+)", line):
            pieces.append(("heading", words(heading[1])))
        elif item := re.fullmatch(r"(?:\d+\.|[-*]) (.+)", line):
            pieces.append(("item", words(item[1])))
        elif pieces and pieces[-1][0] == "item" and re.match(r"\s+\S", line):
            pieces[-1] = ("item", pieces[-1][1] + " " + words(line.strip()))
    return Entry(tomllib.loads(match["fields"]), pieces)


# The sections that stand on a card.
ON_A_CARD = {"Set up", "Move"}


def on_sheet(exercise, sheet):
    """What a sheet says of an exercise: on a card only what is done."""
    pieces, section = [], None
    for kind, said in exercise.pieces:
        if kind == "heading":
            section = said
        if not sheet.cards or section in ON_A_CARD:
            pieces.append((kind, said))
    return pieces


def of_sheet(sheet, workspace):
    """What the entries of a sheet say in order, from the path of the sheet below `series/` or `exercises/`."""
    content = Path(workspace, "content")
    exercises = content / "exercises"
    if sheet.path.parent.name == "exercises":
        exercise = read(exercises / f"{sheet.subject}.md")
        return [("title", exercise.fields["title"]), *on_sheet(exercise, sheet)]
    week = read(content / "series" / sheet.path.parent.name / f"{sheet.subject}.md")
    # The welcome stands beside cards only where a page would stay empty.
    pieces = [("title", week.fields["title"]), *([] if sheet.cards else week.pieces)]
    for used in week.fields["exercises"]:
        exercise = read(exercises / f"{used['id']}.md")
        pieces += [("heading", exercise.fields["title"]), *on_sheet(exercise, sheet)]
    return pieces


def words(markdown):
    """The words of a line, up to a citation: how that is said on paper is the program's choice."""
    markdown = markdown.split("[@")[0]
    markdown = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", markdown)
    return re.sub(r"[*_`]", "", markdown).strip()
