"""The code for phones on sheets, read back from the page as it is printed, leads to the address that is written beside it:
qr.py PATH… with the folders and files of the sheets.
"""

import re
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pdfplumber

from sheet import sheets_in

# Pixels of an inch: coarser than any printer or phone.
DPI = 100
PROCESSES = 2


def faults(path):
    """What is wrong with the code of a sheet, which stands on the first page of a week and on the last of an exercise."""
    with pdfplumber.open(path) as pdf:
        # In the order of the content: an address goes on in the next line without a space.
        pages = ("".join(char["text"] for char in page.chars if char.get("tag") != "Artifact") for page in pdf.pages)
        text = "\n".join(pages)
        number = 1 if "week-" in Path(path).name else len(pdf.pages)
    written = re.findall(r"https?://\S+?\.html", text)
    with tempfile.TemporaryDirectory() as folder:
        image = Path(folder, "page")
        subprocess.run(
            ["pdftoppm", "-gray", "-png", "-r", str(DPI), "-f", str(number), "-l", str(number), "-singlefile", path, image],
            check=True,
            stderr=subprocess.DEVNULL,
        )
        read = subprocess.run(["zbarimg", "--quiet", "--raw", f"{image}.png"], capture_output=True, text=True).stdout.split()
    if len(read) != 1:
        return [f"{path}: has {len(read)} codes on page {number}"]
    if written != read:
        return [f"{path}: the code leads to {read[0]}, and written is {' and '.join(written) or 'nothing'}"]
    return []


def main(*paths):
    files = sheets_in(*paths)
    with ThreadPoolExecutor(PROCESSES) as pool:
        found = [fault for each in pool.map(faults, files) for fault in each]
    for fault in found:
        print(fault)
    print(f"codes: {len(files)} sheets, {len(found) or 'no'} defects")
    sys.exit(1 if found else 0 if files else 2)


if __name__ == "__main__":
    main(*sys.argv[1:])
