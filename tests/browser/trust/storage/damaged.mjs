// Records that are damaged, cut short, of another kind, or of a newer app: set aside, offered as a file, and
// nothing else is touched.
import { readFile } from "node:fs/promises";
import { inflateSync } from "node:zlib";
import { unpacked } from "../../flow.mjs";
import { open, start } from "../../harness.mjs";
import { day } from "./day.mjs";
import { alerts, chance, follow, kept, settled } from "./faults.mjs";

const SEED = 11;
const DEEP = "[".repeat(100_000);
const PLAIN = ["", " ", "null", "[]", "{}", "7", "-1", "true", "\"x\"", "{", "~", "~AAAA", "¦", "\u0000", "{\"schema\":1}", "{\"schema\":3,\"id\":[]}", "[1,1,1]", DEEP, `{"a":${DEEP}`, "x".repeat(100_000), "{\"schema\":-1}", "{\"schema\":1e999}"];

// A store with a finished cut that is packed, one that is not and has something to take back, a card, settings.
async function fullStore(app) {
  const phone = await app.newPhone({ acceptDownloads: true });
  const { page } = phone;
  page.setDefaultTimeout(15_000);
  await open(app, page, "/");
  const made = await day(page);
  await follow(page, "/cut/of-the-file/edit");
  const name = page.getByLabel(/name of (this|the) plan/i).first();
  await name.fill("A name of its own");
  await name.press("Tab");
  await settled(page);
  await follow(page, "/");
  await page.waitForTimeout(300);
  return { ...phone, made, texts: await kept(page) };
}

const lay = (page, texts) => page.evaluate((texts) => {
  localStorage.clear();
  for (const [key, text] of Object.entries(texts)) localStorage.setItem(key, text);
}, texts);

const kind = (key) => (/^tautline\.(\w+)/.exec(key) ?? [])[1];
const isDocument = (key) => /^tautline\.(cut|record)\./.test(key);

// One way to damage a text; → what it became and in words how.
function damage(text, others, dice) {
  const at = dice.below(text.length);
  const how = dice.below(10);
  if (how < 3) return [text.slice(0, at), `cut short at ${at}`];
  if (how < 6) {
    const flipped = String.fromCharCode(text.charCodeAt(at) ^ (1 << dice.below(7)));
    return [text.slice(0, at) + flipped + text.slice(at + 1), `a bit of sign ${at} turned`];
  }
  if (how === 6) return [text.slice(0, at) + text.slice(at + 1 + dice.below(40)), `some signs gone at ${at}`];
  if (how === 7) return [dice.of(others), "another's text"];
  const plain = dice.of(PLAIN);
  return [plain, JSON.stringify(plain.slice(0, 20))];
}

// What the list and the book show of it.
function rows() {
  const all = [...document.querySelectorAll("main .cuts > li, main .at-chair > li")];
  const aside = all.filter((li) => /can't be read/.test(li.innerText));
  return {
    count: all.length,
    aside: aside.map((li) => li.querySelector("a[download]")?.href ?? ""),
    stopped: document.getElementById("stopped") !== null,
    heading: [...document.querySelectorAll("h1")].some((h) => h.checkVisibility() && h.innerText.trim() !== ""),
  };
}

// What a file of it may hold: the text as it is kept, or unpacked.
function readable(text) {
  try {
    return [text, inflateSync(Buffer.from(text.slice(1), "base64url")).toString()];
  } catch {
    return [text];
  }
}

// Looks at list, book and the cut of one damaged store.
async function looked(page, seen, texts, target) {
  const wrong = [];
  await page.reload();
  await page.getByRole("heading", { level: 1 }).first().waitFor({ timeout: 10_000 });
  await page.locator("main .cuts > li").first().waitFor({ timeout: 5000 }).catch(() => {});
  const list = await page.evaluate(rows);
  if (list.count !== 2) wrong.push(`${list.count} cuts are listed`);
  await follow(page, "/book");
  await page.locator("main .cuts > li").first().waitFor({ timeout: 5000 }).catch(() => {});
  const book = await page.evaluate(rows);
  if (book.count !== 1) wrong.push(`${book.count} cards are listed`);
  for (const [place, found] of [["cut", list], ["record", book]]) {
    if (found.stopped) wrong.push("stopped");
    if (found.aside.length === 0) continue;
    if (kind(target) !== place) wrong.push(`a ${place} is set aside that is whole`);
    const file = decodeURIComponent(found.aside[0].slice(found.aside[0].indexOf(",") + 1));
    const text = texts[target];
    if (!readable(text).includes(file)) wrong.push(`the file of it is another text (${file.length} signs for ${text.length})`);
  }
  const id = target.split(".")[2];
  const path = { cut: `/cut/${id}/plan`, record: `/book/${id}` }[kind(target)] ?? "/settings";
  await follow(page, path);
  await page.waitForFunction(() => [...document.querySelectorAll("h1")].some((h) => h.checkVisibility()), null, { timeout: 5000 })
    .catch(() => wrong.push(`blank at ${path}`));
  await follow(page, "/");
  const now = await kept(page);
  for (const [key, text] of Object.entries(texts)) {
    if (isDocument(key) && now[key] !== text) wrong.push(`${key} became ${now[key]?.slice(0, 40)}`);
  }
  wrong.push(...seen.errors.splice(0));
  return wrong;
}

async function fuzz(full) {
  const app = await start();
  const tries = full ? 400 : 8;
  const dice = chance(SEED);
  const wrong = [];
  let bad = 0;
  try {
    const { page, seen, texts } = await fullStore(app);
    const keys = Object.keys(texts).filter((key) => !/probe|asked/.test(key)).sort();
    for (let i = 0; i < tries; i += 1) {
      const target = keys[i % keys.length];
      const others = keys.filter((key) => kind(key) !== kind(target)).map((key) => texts[key]);
      const [text, how] = damage(texts[target], others, dice);
      const laid = { ...texts, [target]: text };
      await lay(page, laid);
      const found = await looked(page, seen, laid, target).catch((error) => [String(error).slice(0, 200)]);
      if (found.length > 0) bad += 1;
      wrong.push(...found.map((what) => `${target.slice(0, 24)} ${how}: ${what}`));
    }
    return {
      tries,
      figure: wrong.length === 0 ? `${tries} of ${tries} (seed ${SEED}), ${new Set(keys.map(kind)).size} kinds of record` : `${bad} of ${tries}: ${wrong.slice(0, 6).join("; ")}`,
      well: wrong.length === 0,
    };
  } finally {
    await app.close();
  }
}

// A newer app's documents: left as they are, said, and offered.
async function newer() {
  const app = await start();
  const wrong = [];
  let tries = 0;
  try {
    const { page, seen, texts } = await fullStore(app);
    for (const key of Object.keys(texts).filter(isDocument)) {
      for (const change of [{ schema: 99 }, { schema: 4294967296 }, { schema: 99, tapes: 7, walk: [], id: { a: 1 } }]) {
        tries += 1;
        const text = JSON.stringify({ ...unpacked(texts[key]), ...change });
        const laid = { ...texts, [key]: text };
        await lay(page, laid);
        wrong.push(...(await looked(page, seen, laid, key)).map((what) => `${key.slice(0, 20)} ${JSON.stringify(change)}: ${what}`));
        await follow(page, key.includes(".cut.") ? "/" : "/book");
        await page.getByText(/newer/i).first().waitFor({ timeout: 3000 }).catch(() => wrong.push(`${key}: “newer” is not said`));
        const links = await page.locator("main a[download]").count();
        if (links === 0) wrong.push(`${key}: no file of it is offered`);
        // Everything as a file has it too, sign for sign.
        await follow(page, "/keep");
        const download = page.waitForEvent("download");
        await page.getByRole("button", { name: "Save everything as a file" }).click();
        const file = await readFile(await (await download).path(), "utf8");
        if (!file.includes(JSON.stringify(text)) && !file.includes(text)) wrong.push(`${key}: not in the file of everything`);
        await follow(page, "/");
      }
    }
    // Settings of a newer app: what is known of them counts, and nothing is written over by looking.
    tries += 1;
    const settings = "{\"revision\":9,\"unit\":\"inches\",\"hand\":\"third\",\"look\":\"sepia\",\"new\":[1]}";
    await lay(page, { ...texts, "tautline.settings": settings });
    await page.reload();
    await page.getByRole("heading", { level: 1 }).first().waitFor();
    await follow(page, "/settings");
    if (!(await page.getByRole("radio", { name: "Inches" }).isChecked())) wrong.push("settings: the unit went with the rest");
    if ((await kept(page))["tautline.settings"] !== settings) wrong.push("settings: written over by looking");
    wrong.push(...seen.errors);
  } finally {
    await app.close();
  }
  return { tries, figure: wrong.length === 0 ? "left as they are, said, offered as a file" : wrong.slice(0, 5).join("; "), well: wrong.length === 0 };
}

// Damaged entries of the journal, all of them under higher revisions, so that each is looked at.
async function journal(full) {
  const app = await start();
  const dice = chance(SEED + 1);
  const wrong = [];
  const tries = full ? 60 : 3;
  try {
    const { page, seen, texts } = await fullStore(app);
    const ids = Object.keys(texts).filter(isDocument).map((key) => [kind(key), key.split(".")[2], key]);
    for (let i = 0; i < tries; i += 1) {
      const entries = [];
      for (let n = 0; n < 12; n += 1) {
        const [place, id, key] = dice.of(ids);
        const name = `${place === "record" ? "@" : ""}${id}\n${100 + n}`;
        const bad = dice.of([texts[key].slice(0, dice.below(texts[key].length)), dice.of(PLAIN.filter((text) => !/schema":[13]/.test(text))), 7, null, { a: 1 }, [1], true]);
        entries.push([dice.of([name, name, name, "odd", `\n${n}`, 5, [id], `${id}\nx`]), bad]);
      }
      entries.push([`.settings\n${90 + i}`, dice.of(["{", "[]", "null", 7])]);
      await lay(page, texts);
      await page.evaluate((entries) => new Promise((done, ill) => {
        const asked = indexedDB.open("tautline", 1);
        asked.onerror = ill;
        asked.onsuccess = () => {
          const db = asked.result;
          const work = db.transaction("journal", "readwrite");
          work.objectStore("journal").clear();
          for (const [key, value] of entries) work.objectStore("journal").put(value, key);
          work.oncomplete = () => { db.close(); done(); };
        };
      }), entries);
      const found = await looked(page, seen, texts, "tautline.settings").catch((error) => [String(error).slice(0, 200)]);
      wrong.push(...found.map((what) => `try ${i}: ${what}`));
      if ((await alerts(page)) !== "") wrong.push(`try ${i}: warns ${await alerts(page)}`);
    }
  } finally {
    await app.close();
  }
  return { tries: tries * 13, figure: wrong.length === 0 ? "none was taken for true, all documents as they were" : wrong.slice(0, 5).join("; "), well: wrong.length === 0 };
}

export const damaged = [
  { name: "records damaged, cut short, of other kinds (seeded)", budget: "set aside, offered as a file, the rest untouched byte for byte", quick: true, run: fuzz },
  { name: "records of a newer schema", budget: "not touched, said, offered as a file", quick: false, run: newer },
  { name: "damaged entries of the journal", budget: "nothing of them is taken for true", quick: true, run: journal },
];
