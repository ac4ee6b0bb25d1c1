"""The schemas of the program by the standard's own checks, and the files of a workspace by the schemas.

usage: schemas.py STEADYLEAF WORKSPACE
"""

import datetime
import json
import subprocess
import sys
import tomllib
from pathlib import Path

from jsonschema import Draft202012Validator

program, workspace = sys.argv[1], Path(sys.argv[2])
defects: list[str] = []
looked = 0


def schema(kind: str) -> dict:
    """A schema as the program prints it, which must be one of draft 2020-12 itself."""
    printed = subprocess.run([program, "schema", kind], check=True, capture_output=True, text=True).stdout
    found = json.loads(printed)
    assert found["$schema"] == "https://json-schema.org/draft/2020-12/schema", found["$schema"]
    Draft202012Validator.check_schema(found)
    return found


def plain(value):
    """TOML has dates of its own, JSON writes them as text."""
    if isinstance(value, dict):
        return {name: plain(part) for name, part in value.items()}
    if isinstance(value, list):
        return [plain(part) for part in value]
    return value.isoformat() if isinstance(value, (datetime.date, datetime.time)) else value


def fields(path: Path) -> dict:
    """The fields of a file: all of it, or the block that opens an entry."""
    text = path.read_text()
    if path.suffix == ".md":
        assert text.startswith("```toml\n"), path
        text = text.removeprefix("```toml\n").split("\n```\n", 1)[0]
    return plain(tomllib.loads(text))


def check(validator: Draft202012Validator, path: Path) -> None:
    global looked
    looked += 1
    for error in validator.iter_errors(fields(path)):
        place = ".".join(str(part) for part in error.absolute_path)
        defects.append(f"{path.relative_to(workspace)}: {place}: {error.message}")


content = workspace / "content"
kinds = {
    "site": [workspace / "site.toml"],
    "series": sorted(content.glob("series/*/series.toml")),
    "week": sorted(content.glob("series/*/week-*.md")),
    "exercise": sorted(content.glob("exercises/**/*.md")),
    "page": sorted(content.glob("pages/**/*.md")),
}
for kind, files in kinds.items():
    validator = Draft202012Validator(schema(kind))
    if not files:
        defects.append(f"there is no {kind} to look at")
    for path in files:
        check(validator, path)
    # What no author means, in each kind, must be refused.
    sound = fields(files[0])
    for what, broken in {"an unknown field": sound | {"colour": "blue"}, "a number for a title": sound | {"title": 7}}.items():
        if validator.is_valid(broken):
            defects.append(f"the schema of a {kind} takes {what}")
schema("client")
schema("practice")

for line in defects:
    print(line)
print(f"schemas: {looked} files, {len(defects) or 'no'} defect{'' if len(defects) == 1 else 's'}")
sys.exit(1 if defects else 0 if looked else 2)
