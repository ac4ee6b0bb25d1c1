"""Checks SARIF logs against the schema of SARIF 2.1.0 (OASIS standard, 2020): sarif.py SCHEMA FOLDER.

First it proves on broken copies of a log that the schema is in force.
"""

import copy
import json
import sys
from pathlib import Path

from jsonschema.validators import validator_for

BREAKS = {
    "a driver without a name": lambda run: run["tool"]["driver"].pop("name"),
    "a result without a message": lambda run: run["results"][0].pop("message"),
    "a message without words": lambda run: run["results"][0].update(message={}),
    "a level that is none": lambda run: run["results"][0].update(level="grave"),
    "a line of 0": lambda run: region(run).update(startLine=0),
    "no tool": lambda run: run.pop("tool"),
}


def region(run):
    return run["results"][0]["locations"][0]["physicalLocation"]["region"]


def main(schema_path, folder):
    schema = json.loads(Path(schema_path).read_text(encoding="utf-8-sig"))
    kind = validator_for(schema)
    kind.check_schema(schema)
    validator = kind(schema)
    logs = {path.name: json.loads(path.read_text()) for path in sorted(Path(folder).glob("*.sarif"))}
    faults = []
    kinds = set()
    for name, log in logs.items():
        for error in validator.iter_errors(log):
            faults.append(f"{name}: {error.json_path}: {error.message}")
        for run in log["runs"]:
            kinds.update(result["ruleId"] for result in run["results"])
    full = next((log for log in logs.values() if log["runs"][0]["results"]), None)
    if full is None:
        sys.exit("sarif: no log with a result")
    for name, break_it in BREAKS.items():
        broken = copy.deepcopy(full)
        break_it(broken["runs"][0])
        if validator.is_valid(broken):
            faults.append(f"the schema lets pass {name}")
    print("\n".join(faults) + "\n" if faults else "", end="")
    print(f"sarif: {len(logs)} logs, {len(kinds)} kinds of finding, {len(faults)} defects")
    sys.exit(1 if faults else 0)


main(*sys.argv[1:])
