// Compares the formulas with those of others on the same counts: readability.mjs COUNTS.json. What is
// counted is compared by readability.py.

import { readFileSync } from "node:fs";
import { flesch } from "flesch";
import { fleschKincaid } from "flesch-kincaid";
import { smogFormula } from "smog-formula";

const { formulas } = JSON.parse(readFileSync(process.argv[2], "utf8"));
const NEAR = 1e-9;

const ours = (row) => ({ grade: row.grade, ease: row.ease, smog: row.smog });
const theirs = ({ sentences, words, syllables, long_words }) => ({
  grade: fleschKincaid({ sentence: sentences, word: words, syllable: syllables }),
  ease: flesch({ sentence: sentences, word: words, syllable: syllables }),
  smog: smogFormula({ sentence: sentences, polysillabicWord: long_words }),
});

let compared = 0;
const faults = [];
for (const row of formulas) {
  const other = theirs(row);
  for (const [measure, value] of Object.entries(ours(row))) {
    compared += 1;
    if (!(Math.abs(value - other[measure]) <= NEAR)) {
      faults.push(`${measure} of ${JSON.stringify(row)}: ${value}, elsewhere ${other[measure]}`);
    }
  }
}

// A formula with a wrong constant must be found.
const [row] = formulas;
if (Math.abs(row.grade + 0.01 - theirs(row).grade) <= NEAR) faults.push("a wrong grade is not told apart");
if (formulas.length < 40) faults.push(`only ${formulas.length} rows of counts`);

for (const fault of faults) console.log(fault);
console.log(`readability: ${compared} values of three formulas compared, ${faults.length} defects`);
process.exit(faults.length > 0 ? 1 : 0);
