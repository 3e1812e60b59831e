// Whatever is handed to the app as a plan or as a file of everything: it is refused in a sentence, soon,
// and what is kept is what it was.
import assert from "node:assert/strict";
import { mkdtemp, readFile, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { deflateSync } from "node:zlib";
import { newExample } from "./flow.mjs";
import { open, start } from "./harness.mjs";

// How long a person waits for a sentence at most, ms.
const SOON = 1000;

let app;
let folder;
before(async () => {
  app = await start();
  folder = await mkdtemp(join(tmpdir(), "taken-"));
});
after(() => app.close());

const packed = (text) => deflateSync(Buffer.from(text)).toString("base64url");
const plan = (more) => JSON.stringify({ kind: "tautline-plan", schema: 1, name: "x", plan: "trim", ...more });
const nested = "[".repeat(100_000);

// What is pasted or stands in a link, and what is said of it.
const PLANS = {
  "no link": ["hello there", /not a plan/],
  "broken": [`#p=${packed(plan()).slice(0, -9)}`, /damaged or cut short/],
  "another alphabet": ["#p=+++///===", /damaged or cut short/],
  "newer": [`#p=${packed(plan({ schema: 2 }))}`, /newer Tautline/],
  "another kind": [`#p=${packed("{\"kind\":\"x\"}")}`, /not a plan/],
  "nested": [`#p=${packed(`{"kind":"tautline-plan","x":${nested}`)}`, /damaged or cut short/],
  "no number": [`#p=${packed(plan().replace("1,", "NaN,"))}`, /damaged or cut short/],
  "a number without an end": [`#p=${packed(plan().replace("1,", "1e999,"))}`, /damaged or cut short/],
  "a bomb": [`#p=${packed(" ".repeat(80_000_000))}`, /far larger than any plan/],
  "an unknown plan": [`#p=${packed(plan({ plan: "gone" }))}`, /another version/],
  "a name without an end": [`#p=${packed(plan({ name: "x".repeat(5000) }))}`, /far too long/],
  "an own plan of nothing": [`#p=${packed(plan({ own: {} }))}`, /damaged or cut short/],
};

const FILES = {
  "empty": ["", /damaged, cut short/],
  "no file of ours": ["{\"a\":1}", /damaged, cut short/],
  "cut short": ["{\"kind\":\"tautline\",\"schema\":1,\"cuts\":[{\"id\"", /damaged, cut short/],
  "newer": ["{\"kind\":\"tautline\",\"schema\":2}", /newer Tautline/],
  "nested": [`{"kind":"tautline","schema":1,"cuts":${nested}`, /damaged, cut short/],
  "no number": ["{\"kind\":\"tautline\",\"schema\":1,\"cuts\":[NaN]}", /damaged, cut short/],
  "a plan": [plan(), /one plan/],
  "fifty million bytes": [" ".repeat(50_000_000), /50.0 MB; 32 MB are the most/],
};

const kept = (page) => page.evaluate(() => JSON.stringify(Object.entries(localStorage).sort()));

async function phone() {
  const made = await app.newPhone();
  made.page.setDefaultTimeout(15_000);
  await newExample(app, made.page);
  return { ...made, before: await kept(made.page) };
}

// How long it takes until a sentence stands there, and which.
async function said(page, doing) {
  await page.evaluate(() => {
    globalThis.said = new Promise((done) => {
      const look = () => {
        const alert = document.querySelector("main [role=alert]");
        if (alert && !alert.dataset.old) done([performance.now() - globalThis.began, alert.innerText]);
        else setTimeout(look, 5);
      };
      for (const old of document.querySelectorAll("main [role=alert]")) old.dataset.old = "";
      globalThis.look = look;
    });
    globalThis.began = performance.now();
    globalThis.look();
  });
  await doing();
  return page.evaluate(() => globalThis.said);
}

test("no plan that is none is taken in, pasted or in a link", { timeout: 180_000 }, async () => {
  const { context, page, seen, before } = await phone();
  for (const [name, [text, sentence]] of Object.entries(PLANS)) {
    await page.goto("about:blank");
    await open(app, page, "/take");
    await page.locator("#take-link").evaluate((field, text) => {
      field.value = text;
      field.dispatchEvent(new Event("input", { bubbles: true }));
    }, text);
    const [took, alert] = await said(page, () => page.getByRole("button", { name: "Look at it" }).click());
    assert.match(alert, sentence, name);
    assert.ok(took < SOON, `${name}: ${took} ms`);
    assert.equal(await kept(page), before, name);
    if (text.startsWith("#p=") && text.length < 50_000) {
      await page.goto("about:blank");
      await open(app, page, `/take${text}`);
      assert.match(await page.getByRole("alert").innerText(), sentence, `${name} in a link`);
      assert.equal(await kept(page), before, name);
    }
  }
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("no file that is none is taken in", { timeout: 180_000 }, async () => {
  const { context, page, seen, before } = await phone();
  for (const [name, [text, sentence]] of Object.entries(FILES)) {
    await open(app, page, "/keep");
    const path = join(folder, "file.json");
    await writeFile(path, text);
    const [took, alert] = await said(page, () => page.getByLabel("The file").setInputFiles(path));
    assert.match(alert, sentence, name);
    assert.ok(took < (text.length > 1e6 ? 3 * SOON : SOON), `${name}: ${took} ms`);
    assert.equal(await kept(page), before, name);
  }
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("a large file is read while the page goes on, and taken in whole", { timeout: 180_000 }, async () => {
  const { context, page, seen } = await phone();
  const [text] = await page.evaluate(() => Object.entries(localStorage)
    .filter(([key]) => key.startsWith("tautline.cut.")).map(([, text]) => text));
  const cuts = Array.from({ length: 1500 }, (_, i) => JSON.stringify({ ...JSON.parse(text), id: `many-${i}` }));
  const path = join(folder, "large.json");
  await writeFile(path, `{"kind":"tautline","schema":1,"cuts":[${cuts.join(",")}]}`);
  await open(app, page, "/keep");
  await page.evaluate(() => {
    globalThis.longest = 0;
    let last = performance.now();
    const beat = () => {
      const now = performance.now();
      globalThis.longest = Math.max(globalThis.longest, now - last);
      last = now;
      setTimeout(beat, 0);
    };
    beat();
  });
  await page.getByLabel("The file").setInputFiles(path);
  await page.getByRole("rowheader", { name: "New" }).waitFor();
  const longest = await page.evaluate(() => globalThis.longest);
  console.log(`reading 1500 cuts: the longest pause ${Math.round(longest)} ms`);
  assert.ok(longest < 500, `${longest} ms`);
  const began = Date.now();
  await page.getByRole("button", { name: "Add it to what is here" }).click();
  await page.getByText("It is taken in").waitFor();
  console.log(`taking 1500 cuts in: ${Date.now() - began} ms`);
  const count = await page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("tautline.cut.many-")).length);
  assert.equal(count, 1500);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("script in names is text", async () => {
  const { context, page, seen } = await phone();
  const names = ["<img src=x onerror=\"globalThis.hit=1\">", "</script><script>globalThis.hit=1</script>", "\u202e\u0000x"];
  for (const name of names) {
    await page.goto("about:blank");
    await open(app, page, `/take#p=${packed(plan({ name, head: { tapes: { circumference: name } } }))}`);
    await page.getByText("Nothing is kept yet").waitFor();
    await page.getByRole("button", { name: "Keep it" }).click();
    await page.getByRole("table").first().waitFor();
    await open(app, page, "/");
    await open(app, page, "/keep");
  }
  const own = JSON.parse(await readFile(new URL("../../src/plan/cuts/trim.json", import.meta.url), "utf8"));
  own.name = names[0];
  own.steps[0].title = names[1];
  own.about = names[0];
  await page.goto("about:blank");
  await open(app, page, `/take#p=${packed(plan({ own }))}`);
  await page.getByText("Nothing is kept yet").waitFor();
  await page.getByRole("button", { name: "Keep it" }).click();
  await page.getByRole("heading", { level: 1, name: "<img" }).waitFor();
  assert.equal(await page.evaluate(() => globalThis.hit), undefined);
  assert.equal(await page.locator("main img, main script").count(), 0);
  assert.deepEqual(seen.errors, []);
  await context.close();
});
