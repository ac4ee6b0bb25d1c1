"""Calendars of a site whose every text has what a calendar must escape, read by a library of others.

usage: hard_calendar.py STEADYLEAF FOLDER
"""

import re
import subprocess
import sys
from pathlib import Path

from icalendar import Calendar
from icalendar.parser import unescape_char

# Commas, semicolons, backslashes, quotes, accents, letters of four octets, and a line end with what looks like a
# component of its own. It is longer than a line of a calendar may be.
HARD = 'Slow, steady; a\\b "c" \u00e9\u00f1 \U0001f642 \u4f53\u64cd: ' + "one and the other, " * 6
BREAK = "\r\nBEGIN:VEVENT\r\nSUMMARY:mine"

program, folder = sys.argv[1], Path(sys.argv[2])
today = ["--today", "2026-01-05"]
subprocess.run([program, "begin", folder, *today], check=True, stdout=subprocess.DEVNULL)


def toml(text: str) -> str:
    named = {"\\": "\\\\", '"': '\\"', "\r": "\\r", "\n": "\\n"}
    return '"' + "".join(named.get(letter, letter) for letter in text) + '"'


written = 0
for path in sorted([folder / "site.toml", *(folder / "content").rglob("*.toml"), *(folder / "content").rglob("*.md")]):
    text = path.read_text()
    for field in ("title", "summary"):
        hard = toml(f"{path.stem} {HARD}{BREAK}")
        text, count = re.subn(rf'^{field} = ".*"$', lambda _: f"{field} = {hard}", text, count=1, flags=re.M)
        written += count
    path.write_text(text)
assert written > 10, written
subprocess.run([program, "make", "--draft", "--workspace", folder, *today], check=True, stdout=subprocess.DEVNULL)

defects, seen = [], 0
for path in sorted((folder / "ready").rglob("*.ics")):
    data = path.read_bytes()
    if re.search(rb"\r\nSUMMARY:mine", data) or re.search(rb"[^\r]\n|\r[^\n]", data):
        defects.append(f"{path.name}: a text begins a line of its own, or a line ends with one of CR and LF")
    calendar = Calendar.from_ical(data)
    for part in [calendar, *calendar.walk("VEVENT")]:
        if part.name == "VEVENT" and str(part.get("SUMMARY")) == "mine":
            defects.append(f"{path.name}: a text became an event")
        for name in ("NAME", "X-WR-CALNAME", "SUMMARY", "DESCRIPTION"):
            if name not in part:
                continue
            # The library takes both names for properties that it does not know; they are texts (RFC 7986, section 5.1).
            value = unescape_char(str(part[name])) if name in ("NAME", "X-WR-CALNAME") else str(part[name])
            if "Slow, steady" in value:
                seen += 1
                # A reader of calendars sees line ends as one kind of line end, or as a blank.
                if " ".join(HARD.split()) not in " ".join(value.split()):
                    defects.append(f"{path.name}: {name} reads {value!r}")
            elif "\\" in value:
                defects.append(f"{path.name}: {name} shows a backslash: {value!r}")
    print(f"{path.relative_to(folder)}: {len(calendar.walk('VEVENT'))} events")
if seen < 5:
    defects.append(f"the texts stand in {seen} places, expected more")
print(*defects, f"{seen} texts read, {len(defects)} defects", sep="\n")
sys.exit(len(defects) > 0)
