// Every address in Spanish: no English word left, nothing wide.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, start, worked } from "./harness.mjs";
import { STATES, WORLDS } from "./trust/access/states.mjs";

let app;
before(async () => { app = await start(); });
after(() => app?.close());

// Words that no Spanish sentence has.
const ENGLISH = /(?<![\p{L}’'])(the|and|of|with|is|are|was|this|that|these|to|from|your|you|it|its|not|cut|cuts|hair|left|right|lengths?|sections?|both|none|below|above|back|front|top|crown|nape|before|after|here|step|steps|card|visit|visits|head|client|save|open|show|more|less|than|for|by|at|on|or|each|other|what|how|when|where|which|week|weeks|month|months|day|days|year|years|new|old|long|short|longer|shorter|wet|dry|yes)(?![\p{L}’'])/iu;

// All that is read on a page, seen or not: texts, names, descriptions.
const read = (page) => page.evaluate(() => {
  const all = [document.title];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    if (!node.parentElement.closest("script, style, noscript, #starting")) all.push(node.data);
  }
  for (const e of document.body.querySelectorAll("*")) {
    for (const name of ["aria-label", "aria-description", "aria-roledescription", "aria-valuetext", "title", "placeholder", "alt"]) {
      if (e.hasAttribute(name)) all.push(e.getAttribute(name));
    }
  }
  return [...new Set(all.map((text) => text.trim()).filter(Boolean))];
});

// What the person, or the invented salon, wrote itself, and names that stay.
const OWN = [
  /Practice head|Invented example/, /Head no\. \d \(invented\)/, /Invented visit \d/, /\p{Lu}\. \p{Lu}\p{Ll}+ \(invented\)/u,
  /Parts it on the left|Cut dry, look again|The right crept up|Better on the left|· short$/,
  // A cut keeps the name it was given on its day.
  /^Cut of \d+ \p{L}+ \d+$/u, /UK: .*|US: .*/, /tautline[-.\w]*|https?:\S+/g,
];

const strip = (text) => OWN.reduce((left, own) => left.replace(own, ""), text);

async function spanish(page) {
  await page.evaluate(() => {
    const kept = JSON.parse(localStorage["tautline.settings"] ?? "{\"schema\":1}");
    localStorage["tautline.settings"] = JSON.stringify({ ...kept, usage: "es" });
  });
}

// Each address once; what folds is unfolded, and every face of the chair is looked at.
const places = [...new Map(STATES.map((state) => [`${state.world} ${state.path({ mine: "m", planned: "p", finished: "f", judged: "j", odd: "o", own: "w" })}`, state])).values()];

for (const world of Object.keys(WORLDS)) {
  test(`no English is left, nothing is wide: ${world}`, async () => {
    const { context, page, seen } = await app.newPhone({ viewport: { width: 320, height: 640 } });
    const ids = await WORLDS[world](app, page);
    if (world === "empty") await open(app, page, "/");
    await spanish(page);
    const wrong = [];
    for (const state of places.filter((place) => place.world === world)) {
      await open(app, page, state.path(ids));
      await worked(page);
      await page.waitForTimeout(150);
      const look = async (what) => {
        for (const text of await read(page)) {
          const found = strip(text).match(ENGLISH);
          if (found) wrong.push(`${state.name}${what}: “${found[0]}” in ${JSON.stringify(text.slice(0, 160))}`);
        }
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        if (wide > 320) wrong.push(`${state.name}${what}: ${wide} px wide`);
      };
      await page.evaluate(() => document.querySelectorAll("details").forEach((e) => { e.open = true; }));
      await page.waitForTimeout(100);
      await look("");
      const faces = await page.locator(".faces button").count();
      for (let i = 0; i < faces; i += 1) {
        await page.locator(".faces button").nth(i).click();
        await look(`, face ${i + 1}`);
      }
    }
    assert.equal([...new Set(wrong)].join("\n"), "");
    assert.deepEqual(seen.errors, []);
    await context.close();
  });
}
