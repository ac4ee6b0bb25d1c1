"""The feeds, calendars and sitemaps of a site, by the libraries of others and by the rules that those do not check.

usage: feeds.py READY
"""

import re
import sys
import xml.etree.ElementTree as xml
from pathlib import Path
from urllib.parse import urlsplit

from icalendar import Calendar
from icalendar.parser import unescape_char

ATOM = "{http://www.w3.org/2005/Atom}"
SITEMAP = "{http://www.sitemaps.org/schemas/sitemap/0.9}"

ready = Path(sys.argv[1])
defects: list[str] = []


def defect(path: Path, what: str) -> None:
    defects.append(f"{path.relative_to(ready)}: {what}")


def wrong_with_calendar(data: bytes) -> list[str]:
    """RFC 5545: section 3.1 on lines, 3.6 and 3.6.1 on what has to be there."""
    wrong = []
    if not data.endswith(b"\r\n") or b"\n" in data.replace(b"\r\n", b"") or b"\r" in data.replace(b"\r\n", b""):
        wrong.append("a line does not end with CR and LF")
    for number, line in enumerate(data.split(b"\r\n"), 1):
        if len(line) > 75:
            wrong.append(f"line {number} has {len(line)} octets")
        try:
            line.decode()
        except UnicodeDecodeError:
            wrong.append(f"line {number} cuts a letter in two")
    calendar = Calendar.from_ical(data)
    wrong += [f"the calendar has no {name}" for name in calendar.required if name not in calendar]
    # Read once, a text of an author has no backslash left: it was escaped once.
    read = lambda part, name: unescape_char(str(part.get(name))) if name in ("NAME", "X-WR-CALNAME") else str(part.get(name))
    texts = [(name, read(part, name)) for part in [calendar, *calendar.walk("VEVENT")]
             for name in ("NAME", "X-WR-CALNAME", "SUMMARY", "DESCRIPTION") if name in part]
    wrong += [f"{name} shows a backslash: {text}" for name, text in texts if "\\" in text]
    events = calendar.walk("VEVENT")
    if not events:
        wrong.append("the calendar has no event")
    uids = [str(event.get("UID")) for event in events]
    wrong += [f"{uid} stands there twice" for uid in {uid for uid in uids if uids.count(uid) > 1}]
    for event in events:
        name = str(event.get("UID"))
        wrong += [f"{name} has no {required}" for required in event.required if required not in event]
        if "DTSTART" not in event or "DTEND" not in event or "DURATION" in event:
            wrong.append(f"{name} has no start or no end")
        elif not event.decoded("DTSTART") < event.decoded("DTEND"):
            wrong.append(f"{name} ends before it starts")
    return wrong


def check_atom(path: Path) -> None:
    """What a grammar cannot say: addresses that are right, ids that are unique, dates in order."""
    feed = xml.parse(path).getroot()
    own = [link.get("href") for link in feed.findall(f"{ATOM}link") if link.get("rel") == "self"]
    site = feed.find(f"{ATOM}id").text
    if len(own) != 1 or not own[0].endswith(str(path.relative_to(ready))):
        defect(path, f"it says that it is {own}")
    ids = [entry.find(f"{ATOM}id").text for entry in feed.findall(f"{ATOM}entry")]
    if len(set(ids)) != len(ids) or site in ids:
        defect(path, "two entries share an id")
    updated = [entry.find(f"{ATOM}updated").text for entry in feed.findall(f"{ATOM}entry")]
    if updated and max(updated) != feed.find(f"{ATOM}updated").text:
        defect(path, "it is not as new as its newest entry")
    published = [entry.find(f"{ATOM}published").text for entry in feed.findall(f"{ATOM}entry")]
    if published != sorted(published, reverse=True):
        defect(path, "the newest entry is not the first")
    for entry in feed.findall(f"{ATOM}entry"):
        href = entry.find(f"{ATOM}link").get("href")
        check_leads(path, href)


def check_leads(path: Path, address: str) -> None:
    local = urlsplit(address).path.lstrip("/") or "index.html"
    if not (ready / local).is_file():
        defect(path, f"{address} leads to no file")


def check_sitemap(path: Path) -> None:
    """sitemaps.org: at most 50,000 addresses and 52,428,800 bytes, every address whole and of one site."""
    data = path.read_bytes()
    root = xml.fromstring(data)
    addresses = [loc.text for loc in root.iter(f"{SITEMAP}loc")]
    if root.tag not in (f"{SITEMAP}urlset", f"{SITEMAP}sitemapindex"):
        defect(path, f"it is a {root.tag}")
    if not 0 < len(addresses) <= 50_000 or len(data) > 52_428_800:
        defect(path, f"{len(addresses)} addresses in {len(data)} bytes")
    if len(set(addresses)) != len(addresses):
        defect(path, "an address stands there twice")
    if len({urlsplit(address)[:2] for address in addresses}) != 1:
        defect(path, "the addresses are of several sites")
    for address in addresses:
        check_leads(path, address)
    for changed in root.iter(f"{SITEMAP}lastmod"):
        if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", changed.text):
            defect(path, f"{changed.text} is no day")
    pages = {str(page.relative_to(ready)) for page in ready.rglob("*.html")}
    listed = {urlsplit(address).path.lstrip("/") or "index.html" for address in addresses}
    private = {page for page in pages if 'name="robots" content="noindex"' in (ready / page).read_text()}
    for page in sorted(pages - private - listed - {"404.html"}):
        defect(path, f"{page} is not in it")
    for page in sorted(listed & private):
        defect(path, f"{page} is in it, and says that no search should find it")


calendars, feeds, sitemaps = (sorted(ready.rglob(name)) for name in ("*.ics", "feed.xml", "sitemap.xml"))
for path in calendars:
    for wrong in wrong_with_calendar(path.read_bytes()):
        defect(path, wrong)
for path in feeds:
    check_atom(path)
for path in sitemaps:
    check_sitemap(path)

# Each of these breaks one rule, and has to be found.
sound = calendars[0].read_bytes()
for what, broken in {
    "lines that end with LF": sound.replace(b"\r\n", b"\n"),
    "no PRODID": re.sub(rb"PRODID:.*?\r\n", b"", sound),
    "no UID": re.sub(rb"UID:.*?\r\n", b"", sound, count=1),
    "no DTSTAMP": re.sub(rb"DTSTAMP:.*?\r\n", b"", sound, count=1),
    "a long line": sound.replace(b"\r\n ", b"", 1),
}.items():
    if broken == sound or not wrong_with_calendar(broken):
        defects.append(f"broken calendar: nothing is found in one with {what}")

for line in defects:
    print(line)
looked = len(calendars) + len(feeds) + len(sitemaps)
print(f"feeds: {looked} files, {len(defects) or 'no'} defect{'' if len(defects) == 1 else 's'}")
sys.exit(1 if defects else 0 if calendars and feeds and sitemaps else 2)
