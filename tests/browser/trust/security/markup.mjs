// Every text of a cut, a card, the settings and a file is markup that would do something. It is taken in,
// every screen is walked, and no element and no handler of it may ever exist.
import { readFile, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { open, start } from "../../harness.mjs";
import { addresses, filled } from "../../hosted.mjs";
import { watched } from "./watched.mjs";

const NASTY = [
  '<img src=x onerror="globalThis.hurt=1"><b class=nasty>',
  '"><script class=nasty>globalThis.hurt=1</script>',
  "'><svg class=nasty onload=globalThis.hurt=1>",
  "</text></svg><iframe class=nasty srcdoc=x></iframe>",
  "&lt;b class=nasty&gt;&#60;b class=nasty&#62;",
];

// What the app reads as a word of its own stays one: else the document would only be set aside.
const OURS = /^(?:[a-z0-9_~.-]*|\d{4}-\d\d-\d\d.*|[A-Za-z0-9_~=+/-]{40,})$/;

function spoilt(value, nasty, all) {
  if (typeof value === "string") return !all && OURS.test(value) ? value : nasty;
  if (Array.isArray(value)) return value.map((one) => spoilt(one, nasty, all));
  if (value && typeof value === "object") {
    return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, spoilt(one, nasty, all)]));
  }
  return value;
}

// Fields that people type into, which in an example may well look like words of ours.
const TYPED = ["title", "name", "notes", "note", "private", "private_note", "agreed", "asked", "reflection", "said"];
function typed(value, nasty) {
  if (Array.isArray(value)) return value.map((one) => typed(one, nasty));
  if (!value || typeof value !== "object") return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => {
    if (typeof one === "string" && TYPED.includes(key)) return [key, nasty];
    if (key === "tags" && Array.isArray(one)) return [key, [nasty.slice(0, 40)]];
    return [key, typed(one, nasty)];
  }));
}

async function walked(page, app, where, faults) {
  for (const path of await addresses(page)) {
    await page.goto(`${app.url}/${path}`);
    await page.getByRole("heading", { level: 1 }).first().waitFor();
    for (const summary of await page.locator("main summary").all()) await summary.dispatchEvent("click");
    const hurt = await page.evaluate(() => globalThis.hurt === 1 || document.querySelectorAll(
      '.nasty, main script, main iframe, main img[src="x"], [onerror], [onload], [onclick]').length > 0);
    if (hurt) faults.push(`${where}, ${path}`);
  }
}

async function neverMarkup(full) {
  const app = await start();
  const faults = [];
  let screens = 0;
  let shown = 0;
  try {
    const from = await watched(app);
    await filled(app, from.page);
    await open(app, from.page, "/keep");
    const [download] = await Promise.all([
      from.page.waitForEvent("download"),
      from.page.getByRole("button", { name: "Save everything as a file" }).click(),
    ]);
    const file = JSON.parse(await readFile(await download.path(), "utf8"));
    await from.context.close();
    // A few of each kind are enough: all have the same fields.
    file.cuts = file.cuts.slice(0, 3);
    file.records = file.records.slice(0, 3);
    for (const [i, nasty] of NASTY.slice(0, full ? NASTY.length : 1).entries()) {
      for (const [how, spoil] of [["typed", typed], ["every text", (it) => spoilt(it, nasty, false)], ["all of it", (it) => spoilt(it, nasty, true)]]) {
        const { context, page, broken } = await watched(app);
        const path = join(tmpdir(), `tautline-nasty-${process.pid}.json`);
        const made = { ...file, cuts: spoil(file.cuts, nasty), records: spoil(file.records, nasty), settings: spoil(file.settings, nasty) };
        await writeFile(path, JSON.stringify(made));
        await open(app, page, "/keep");
        await page.getByLabel("The file").setInputFiles(path);
        await page.getByRole("button", { name: "Add it to what is here" }).click();
        await page.getByText("It is taken in").waitFor();
        await walked(page, app, `${how} ${i}`, faults);
        screens += (await addresses(page)).length;
        await open(app, page, "/");
        shown += (await page.locator("main").innerText()).includes(nasty.slice(0, 10)) ? 1 : 0;
        if (broken.length) faults.push(`${how} ${i}: the policy had to help: ${broken[0]}`);
        await context.close();
      }
    }
    const figure = faults.length ? faults.join("; ") : `${screens} screens, ${shown} lists that show the text as text`;
    return { tries: screens, figure, well: !faults.length && shown > 0 };
  } finally {
    await app.close();
  }
}

export const markup = [
  { name: "markup in every text of cuts, cards, settings, files", budget: "never an element, the policy never needed", run: neverMarkup },
];
