"""Checks printed sheets: sheets.py WORKSPACE PATH… with the folders and files of the sheets, named as `make` names them."""

import sys
import time
from concurrent.futures import ProcessPoolExecutor

import print_rules
import tags
from sheet import Sheet, sheets_in

PROCESSES = 2
# A fault of the theme comes back on every page.
SHOWN = 20


def faults_of(path, workspace):
    """How many pages a sheet has, and what is wrong with it."""
    sheet = Sheet(path)
    return len(sheet.pages), print_rules.faults(sheet) + tags.faults(sheet, workspace)


def main(workspace, *paths):
    start = time.monotonic()
    files = sheets_in(*paths)
    pages = found = 0
    with ProcessPoolExecutor(PROCESSES) as pool:
        for path, (count, faults) in zip(files, pool.map(faults_of, files, [workspace] * len(files))):
            pages += count
            found += len(faults)
            for fault in faults[:SHOWN]:
                print(f"{path}: {fault}")
            if len(faults) > SHOWN:
                print(f"{path}: and {len(faults) - SHOWN} more")
    seconds = time.monotonic() - start
    print(f"sheets: {len(files)} sheets, {pages} pages, {found or 'no'} defects, {seconds:.1f} s")
    sys.exit(1 if found else 0 if files else 2)


if __name__ == "__main__":
    main(*sys.argv[1:])
