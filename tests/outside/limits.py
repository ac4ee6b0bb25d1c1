"""The worst that the program accepts, one of each kind, at the limits that DEVELOPERS.md lists: `limits.py STEADYLEAF
FOLDER`. Prints time and memory of each; no more than 600 MB may be needed. Time depends on the machine, and is printed."""

import os
import subprocess
import sys
import time
from pathlib import Path

MOST_MEMORY = 600_000  # kB
TODAY = "2026-01-14"
PAGE = "content/pages/about.md"
EXERCISE = "content/exercises/heel-drop.md"
BIB = "content/references.bib"


def page(prose):
    return {PAGE: f'```toml\ntitle = "About us"\n```\n{prose}\n'}


def sentences(letters):
    sentence = "Sit tall on a firm chair and breathe out as you rise. "
    return (sentence * (letters // len(sentence) + 1))[:letters].rsplit(" ", 1)[0]


def long_ladder(rungs, links):
    files = {}
    for number in range(1, rungs * links + 1):
        rung, place = divmod(number - 1, links)
        fields = [f'title = "Rung {number}"', 'component = "posture"', 'position = "seated"']
        if rung + 1 < rungs:
            fields += [f'[[progression]]\nexercise = "rung-{(rung + 1) * links + n + 1}"' for n in range(links)]
        text = "\n".join(fields)
        files[f"content/exercises/rung-{number}.md"] = f"```toml\n{text}\n```\n\n## Set up\nSit.\n\n## Move\n1. Rise.\n"
    return files


def changed(name, old, new):
    def change(folder):
        text = (folder / name).read_text()
        assert old in text, f"{name} does not say {old}"
        return {name: text.replace(old, new, 1)}

    return change


def week_of(count):
    def change(folder):
        files = long_ladder(1, count)
        name = "content/series/first-steps/week-01.md"
        rows = "".join(f'  {{ id = "rung-{n}" }},\n' for n in range(1, count - 3))
        files[name] = (folder / name).read_text().replace('  { id = "feet', rows + '  { id = "feet', 1)
        return files

    return change


def captions(count):
    cue = lambda n: f"{n // 3600:02}:{n // 60 % 60:02}:{n % 60:02}.000 --> {n // 3600:02}:{n // 60 % 60:02}:{n % 60:02}.900\nSit tall.\n"
    return {"content/series/first-steps/captions/week-01.en.vtt": "WEBVTT\n\n" + "\n".join(cue(n) for n in range(count))}


CASES = {
    "the sample as it is": {},
    "a page of one paragraph of 190 kB": page(sentences(190_000)),
    "1,990 paragraphs of 60 letters": page("\n\n".join([sentences(60)] * 1990)),
    "a list of 1,990 items": page("- Sit tall.\n" * 1990),
    "a table of 1,980 cells": page("|a|b|\n|-|-|\n" + "|c|d|\n" * 980),
    "lists 9 deep, 1,980 items": page(("".join(f"{'  ' * n}- So\n" for n in range(9))) * 220),
    "2,000 broken links": page(" ".join(f"[a](none-{n}.md)" for n in range(2000))),
    "1,000 tags": page("<div>" * 1000),
    "50 sources cited 100 times": page("\n\n".join(["So. [" + "; ".join(["@brooke-wavell-2022"] * 50) + "]"] * 100)),
    "a step of 190 kB in an exercise": changed(EXERCISE, "1. ", f"1. {sentences(190_000)} "),
    "1,980 steps in an exercise": changed(EXERCISE, "1. ", "1. " + "\n1. ".join([sentences(50)] * 1980) + "\n1. "),
    "400 demands that nobody knows": changed(EXERCISE, "demands = [", "demands = [" + '"nothing-known", ' * 400),
    "1,000 references": {BIB: "".join(f"@article{{k{n}, title = {{On sitting {n}}}, author = {{Roe, R. and Poe, P.}}, date = {{2020}}, journaltitle = {{J}}}}\n" for n in range(1000))},
    "references of 19 kB, 50 of them": {BIB: "".join(f"@misc{{k{n}, title = {{{sentences(19_000)}}}, date = {{2020}}}}\n" for n in range(50))},
    "braces 30 deep in 500 references": {BIB: "".join(f"@misc{{k{n}, title = {{{'{' * 28}x{'}' * 28}}}, date = {{2020}}}}\n" for n in range(500))},
    "1 MB of captions": captions(20_000),
    "a ladder of 100 rungs": long_ladder(100, 1),
    "60 figures of 3 poses": changed(EXERCISE, "[[regression]]", ('[[figure]]\ndescription = "She rises."\nprops = ["counter"]\n' + '[[figure.pose]]\nbase = "standing"\nhold = "counter"\n' * 3) * 58 + "\n[[regression]]"),
    "59 variations": changed(EXERCISE, "[[regression]]", "".join(f'[[variation]]\ntitle = "Way {n}"\ntext = "Sit."\nsteps = ["Sit tall."]\nremoves = ["impact-low"]\nposition = "seated"\n' for n in range(58)) + "\n[[regression]]"),
    "400 cautions": changed(EXERCISE, "[[regression]]", '[[caution]]\nfor = "everyone"\nlevel = "adapt"\ntext = "Hold the counter."\n' * 400 + "\n[[regression]]"),
    "a week of 60 exercises": week_of(60),
    "400 demands of one's own": lambda folder: {"site.toml": (folder / "site.toml").read_text() + "".join(f'\n[[demand]]\nid = "own-{n}"\nmeaning = "what nobody asks"\n' for n in range(400))},
}


def write(folder, files):
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)


def run(command):
    start = time.monotonic()
    with open(os.devnull, "wb") as nowhere:
        child = subprocess.Popen(command, stdout=nowhere, stderr=nowhere)
        _, status, usage = os.wait4(child.pid, 0)
    return os.waitstatus_to_exitcode(status), time.monotonic() - start, usage.ru_utime + usage.ru_stime, usage.ru_maxrss


def main(program, work):
    failed = 0
    for number, (kind, files) in enumerate(CASES.items()):
        folder = Path(work) / f"limits-{number}"
        subprocess.run([program, "begin", folder, "--today", TODAY], check=True, stdout=subprocess.DEVNULL)
        # The other paper has the same sheets once more, and two are set at a time at most.
        site = folder / "site.toml"
        site.write_text(site.read_text().replace('papers = ["a4", "letter"]', 'papers = ["a4"]'))
        write(folder, files(folder) if callable(files) else files)
        worst = []
        for command in (["review"], ["make", "--draft"]):
            code, clock, processor, memory = run([program, *command, "--workspace", folder, "--today", TODAY])
            worst.append(f"{command[0]} {clock:5.1f} s ({processor:5.1f} s of processor time), {memory // 1000:4} MB")
            if code not in (0, 1) or memory > MOST_MEMORY:
                failed += 1
                worst[-1] += f", ends with {code}: TOO MUCH"
        print(f"{kind:38} {'; '.join(worst)}", flush=True)
    print(f"{len(CASES)} kinds of input, {failed} beyond what is borne")
    return failed > 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
