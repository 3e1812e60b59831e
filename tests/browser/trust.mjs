// `make trust`: every fault injected and every measure taken, as one table. Fails if one is not well.
//
// Each file in trust/ is one group and exports
//   title      the group's name
//   measures   [{ name, budget, quick, run }]
//     name       the fault or the measure, in plain words
//     budget     what is asked, in plain words
//     quick      true if `make test` takes it too
//     run(full)  → { tries, figure, well }: how often it was tried, what came out, whether that is
//                within the budget; full is false in `make test`, where fewer tries must do. What it
//                throws counts as not well.
//
// `node trust.mjs` runs all groups in the order below, `node trust.mjs storage soak` only these;
// `--only=WORDS` the measures whose name has these words; `--list` names the measures and runs none.
import assert from "node:assert/strict";
import { test } from "node:test";
import { pathToFileURL } from "node:url";


const ORDER = ["offline", "storage", "panics", "security", "speed", "engines", "access", "soak"];

// The groups of these names, or all.
export async function groups(names = ORDER) {
  const found = [];
  for (const name of names) {
    if (!ORDER.includes(name)) throw new Error(`There is no group "${name}". There are: ${ORDER.join(", ")}.`);
    found.push({ name, ...await import(`./trust/${name}.mjs`) });
  }
  return found;
}

// What one measure gives, whatever happens in it.
export async function take(measure, full) {
  const from = performance.now();
  const seconds = () => Math.round((performance.now() - from) / 1000);
  try {
    return { ...await measure.run(full), seconds: seconds() };
  } catch (error) {
    const figure = String(error?.message ?? error).replaceAll(/\s+/g, " ").slice(0, 400);
    return { tries: 1, figure, well: false, seconds: seconds(), error };
  }
}

// The quick part of a group, each measure as a test of its own with fewer tries: trust/GROUP.test.mjs.
export async function quickly(name) {
  const [{ title, measures }] = await groups([name]);
  for (const measure of measures.filter(({ quick }) => quick)) {
    test(`${title}: ${measure.name}`, async (t) => {
      const { tries, figure, well, error } = await take(measure, false);
      t.diagnostic(`${tries} tries: ${figure} (asked: ${measure.budget})`);
      if (error) throw error;
      assert.ok(well, `${figure}; asked: ${measure.budget}`);
    });
  }
}

const cell = (text) => String(text).replaceAll("|", "\\|");
const row = (...cells) => `| ${cells.map(cell).join(" | ")} |`;

async function main(words) {
  const list = words.includes("--list");
  const only = words.find((word) => word.startsWith("--only="))?.slice("--only=".length) ?? "";
  const names = words.filter((word) => !word.startsWith("--"));
  const missed = [];
  console.log(`${row("fault or measure", "tries", "survived, or the figure", "budget", "well", "s")}\n|---|---|---|---|---|---|`);
  for (const { title, measures } of await groups(names.length ? names : ORDER)) {
    console.log(row(`**${title}**`, "", "", "", "", ""));
    for (const measure of measures.filter(({ name }) => name.includes(only))) {
      if (list) {
        console.log(row(measure.name, "", "", measure.budget, "", ""));
        continue;
      }
      const { tries, figure, well, seconds, error } = await take(measure, true);
      console.log(row(measure.name, tries, figure, measure.budget, well ? "yes" : "NO", seconds));
      if (error) console.error(error);
      if (!well) missed.push(measure.name);
    }
  }
  if (missed.length) {
    console.error(`\nNot within its budget: ${missed.join("; ")}.`);
    process.exitCode = 1;
  }
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) await main(process.argv.slice(2));
