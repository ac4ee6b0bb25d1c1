// The examples of the CommonMark specification as JSON. It draws a tab as an arrow.

import { tests } from "commonmark-spec";

const withTabs = (text) => text.replaceAll("→", "\t");
const examples = tests.map(({ markdown, html, number }) => ({
  markdown: withTabs(markdown),
  html: withTabs(html),
  number,
}));
if (examples.length === 0) throw new Error("no example in the specification");
process.stdout.write(JSON.stringify(examples));
