"""The tags of two sheets as text that a person can review: trees.py READY compares them with `trees/`, to the letter, and
trees.py READY --write writes them anew.
"""

import difflib
import sys
from pathlib import Path

from sheet import Marked, Sheet, tidy

GOLDENS = Path(__file__).parent / "trees"
SHEETS = {
    "week.txt": "series/lantern-hill/week-07-18-point-a4.pdf",
    "exercise.txt": "exercises/heel-drop-18-point-a4.pdf",
}
# Where a tag stands and how its edges look is not what it says.
LOOKS = {"O", "BBox", "BorderColor", "BorderStyle", "BorderThickness", "Color", "Placement", "Width", "Height", "Headers"}


def tree_of(tag, depth=0):
    """A line for each tag: indentation, name, attributes and, where it holds no other tag, its words."""
    said = [tag.name]
    said += [f"[{key} {value}]" for key, value in sorted(tag.attributes.items()) if key not in LOOKS]
    if tag.alt is not None:
        said.append(f"[Alt “{tag.alt}”]")
    start = "  " * depth + " ".join(said)
    if all(isinstance(child, Marked) for child in tag.children):
        return [f"{start}: {tag.text}" if tag.text else start]
    lines = [start]
    words = ""
    for child in [*tag.children, None]:
        if isinstance(child, Marked):
            words += child.text
            continue
        if tidy(words):
            lines.append("  " * (depth + 1) + f"“{tidy(words)}”")
        words = ""
        if child is not None:
            lines += tree_of(child, depth + 1)
    return lines


def text_of(path):
    """The lines of a sheet's tree."""
    return [f"{line}\n" for child in Sheet(path).tree.children for line in tree_of(child)]


def main(ready, *flags):
    faults = 0
    for name, path in SHEETS.items():
        found = text_of(Path(ready, path))
        golden = GOLDENS / name
        if flags == ("--write",):
            GOLDENS.mkdir(exist_ok=True)
            golden.write_text("".join(found), encoding="utf-8")
            continue
        expected = golden.read_text(encoding="utf-8").splitlines(keepends=True)
        changes = list(difflib.unified_diff(expected, found, f"trees/{name}", path))
        sys.stdout.writelines(changes)
        faults += bool(changes)
    print(f"trees: {len(SHEETS)} sheets, {faults or 'no'} defects")
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main(*sys.argv[1:])
