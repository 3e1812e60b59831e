// The main flow, written once for every browser: what it shows is what is compared.
//
//   run(driver, app, { shots, offline }) → { seen, wide }
//     seen   what stood on each screen, by name: words and numbers that must be the same everywhere
//     wide   what looks wrong: sideways scrolling, words cut off or over each other
//
// The invented example is planned and cut to its end: sections done, one longer, one gone back to, the
// result put down; then the visit, the book, the file of everything out and in again, a reload, and a
// reload with the server gone.
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import * as looks from "../access/looks.mjs";

const PATIENCE = 20_000;

// In the page: the middle of what is sought, once it is seen; null before.
function find(kind, name) {
  const wanted = new RegExp(name, "i");
  const kinds = {
    button: "button, [role=button]", link: "a[href]", summary: "summary", heading: "h1, h2, h3",
    field: "input, select, textarea", text: "p, dd, dt, h1, h2, h3, td, th, strong, span, div.note, li",
  };
  const said = (e) => (e.getAttribute("aria-label") || [...(e.labels ?? [])].map((l) => l.textContent).join(" ") || e.textContent)
    .replace(/\s+/g, " ").trim();
  for (const e of document.querySelectorAll(kinds[kind])) {
    if (!e.checkVisibility() || e.disabled || !wanted.test(said(e))) continue;
    const body = /radio|checkbox/.test(e.type) && e.labels?.[0] ? e.labels[0] : e;
    const seen = (box) => box.width > 0 && box.top >= 0 && box.bottom <= innerHeight;
    if (!seen(body.getBoundingClientRect())) body.scrollIntoView({ block: "center", behavior: "instant" });
    const box = body.getBoundingClientRect();
    if (box.width > 0) return { x: box.left + box.width / 2, y: box.top + box.height / 2, said: said(e) };
  }
  return null;
}

export function hand(driver) {
  const until = async (what, look) => {
    const from = Date.now();
    for (;;) {
      const found = await look().catch((error) => (/context|navigat|destroy|frame/i.test(String(error)) ? null : Promise.reject(error)));
      if (found) return found;
      if (Date.now() - from > PATIENCE) {
        const text = await driver.evaluate(() => document.body?.innerText.slice(0, 300) ?? "").catch(() => "");
        throw new Error(`${driver.version} does not show ${what}. It shows: ${text.replaceAll(/\s+/g, " ")}`);
      }
      await pause(60);
    }
  };
  const see = (kind, name) => until(`${kind} /${name}/`, () => driver.evaluate(find, kind, name));
  const tap = async (kind, name) => {
    // Drawn anew meanwhile, it may stand elsewhere: until it stands still.
    let { x, y } = await see(kind, name);
    await until(`${kind} /${name}/ standing still`, async () => {
      await pause(80);
      const now = await see(kind, name);
      const still = now.x === x && now.y === y;
      ({ x, y } = now);
      return still;
    });
    await driver.click(x, y);
  };
  const put = async (name, text) => {
    await tap("field", name);
    await driver.evaluate(() => document.activeElement.select?.());
    await driver.type(text);
    await driver.press("Enter");
  };
  const holds = (what, fn, ...args) => until(what, () => driver.evaluate(fn, ...args));
  return { see, tap, put, holds };
}

// All turns of a screen have come, and what is reckoned after them.
const settled = () => document.querySelector("main table") !== null && !document.querySelector(".working, .coming")
  && ![...document.querySelectorAll("main [role=status]")].some((e) => e.innerText.startsWith("Reckoning"));
const heading = () => document.querySelector("main h1")?.innerText.replace(/\s+/g, " ");
// Words as they stand, whatever a browser makes of spaces and lines.
const words = (selector) => [...document.querySelectorAll(selector)].map((e) => e.innerText.replace(/\s+/g, " ").trim()).join(" | ");

export async function run(driver, app, { shots, offline = true } = {}) {
  const { see, tap, put, holds } = hand(driver);
  const seen = {};
  const wide = [];
  const look = async (name, selector) => {
    await pause(250);
    if (selector) seen[name] = await driver.evaluate(words, selector);
    await driver.evaluate(looks.COMMON);
    const found = [...await driver.evaluate(looks.wide), ...await driver.evaluate(looks.lost)];
    wide.push(...found.map((what) => `${name}: ${what}`));
    if (shots) {
      await driver.evaluate(() => scrollTo(0, 0));
      await driver.shot(join(shots, `${driver.version.split(" ")[0].toLowerCase()}-${name}.png`));
    }
  };
  const goto = async (path) => {
    await driver.goto(app.url + path);
    await holds(`the heading of ${path}`, heading);
  };

  // Browsers differ in the language they ask for, and that in the usage of words.
  await goto("/settings");
  for (const usage of ["English, US", "English, UK"]) {
    await tap("field", `^${usage}`);
    await holds(`the choice of ${usage}`, (usage) => [...document.querySelectorAll("input:checked")]
      .some((e) => e.labels[0].textContent.trim().startsWith(usage)), usage);
  }
  await holds("the choice kept", () => localStorage["tautline.settings"]?.includes("usage"));
  await goto("/");
  await look("list-empty");
  await tap("button", "^Try an invented example");
  await see("heading", "^The head$");
  const id = (await driver.evaluate(() => location.pathname)).split("/")[2];
  await put("^Around the head", "56");
  await look("head");
  seen["head typed"] = await driver.evaluate(() => document.getElementById("circumference").value);
  await tap("link", "^On to the plan");
  await holds("the plan's table", settled);
  await look("plan", "main table");
  for (const part of ["client", "choose", "edit", "aim", "compare", "sheet", "see/head", "see/outline", "see/lengths", "see/scalp", "pass"]) {
    await goto(`/cut/${id}/${part}`);
    await pause(part === "choose" ? 2500 : 400);
    await look(part.replace("/", "-"), /compare|sheet|see/.test(part) ? "main table, main dl" : undefined);
  }
  await goto(`/cut/${id}/plan`);
  await tap("link", "^To the chair");
  await see("button", "^Start$");
  await look("before");
  await tap("button", "^Start$");
  const place = () => driver.evaluate(() => Number(/Section (\d+) of/.exec(document.querySelector(".progress")?.innerText)?.[1]));
  const at = (number) => holds(`section ${number}`, (number) => document.querySelector(".progress")?.innerText.includes(`Section ${number} of`), number);
  await at(1);
  const count = await driver.evaluate(() => Number(/of (\d+)/.exec(document.querySelector(".progress").innerText)[1]));
  const targets = [];
  const take = async () => {
    const own = await driver.evaluate(() => [".section-name", ".target", ".c-falls", ".c-hold"].map((part) =>
      document.querySelector(part)?.textContent.replace(/\s+/g, " ").trim()).join(" · "));
    targets.push(own);
  };
  for (let number = 1; number <= count; number += 1) {
    await take();
    if (number === 2) {
      for (const face of ["Length", "Hold", "How", "Result"]) {
        await tap("button", `^${face}$`);
        await look(`chair-${face.toLowerCase()}`);
      }
      await tap("button", "^.?Longer");
      await see("button", "^Take it back");
      await see("text", "later sections? becomes?");
      seen["what follows"] = await driver.evaluate(words, ".c-result");
      await tap("button", "^Length$");
    }
    if (number === 4) {
      await tap("button", "^Back$");
      await at(3);
      await take();
      await tap("button", "^Done");
      await at(4);
      await tap("button", "^Overview$");
      await see("heading", "^The whole cut");
      await look("overview", ".overview table");
      await tap("button", "^Back to the section");
      await at(4);
    }
    await tap("button", "^Done");
    if (number < count) await at(number + 1);
  }
  seen.targets = targets.join("\n");
  await see("heading", "^Planned and cut");
  await holds("the end's table", settled);
  await look("end", "main table");
  await goto(`/cut/${id}/visit`);
  await look("visit", "main dl");
  await put("^Tags", "invented, three browsers");
  await goto("/book");
  await look("book-empty");
  await tap("summary", "^An invented salon");
  await tap("button", "^Load the invented salon");
  await see("text", "^8 cards$");
  await look("book", ".cuts");
  await goto("/book/invented-fern");
  await look("card");
  await goto("/settings");
  await look("settings");
  await goto("/keep");
  await look("keep");
  // What would be saved as a file.
  await driver.evaluate(() => {
    const make = URL.createObjectURL.bind(URL);
    URL.createObjectURL = (blob) => {
      blob.text().then((text) => { globalThis.savedText = text; });
      return make(blob);
    };
  });
  await tap("button", "^Save everything as a file");
  const file = await holds("the file of everything", () => globalThis.savedText);
  // Whether a browser lasts is said there too, and is not the same in all.
  seen["saved, it says"] = await driver.evaluate(() => [...document.querySelectorAll("main [role=status]")].map((el) => el.innerText).find((said) => said.startsWith("Saved")) ?? "");
  const kept = JSON.parse(file);
  seen["cuts in the file"] = String(kept.cuts.length);
  await goto("/");
  await look("list");

  // Everything away, and in again from the file.
  await driver.evaluate(async () => {
    localStorage.clear();
    await new Promise((done) => {
      const asked = indexedDB.deleteDatabase("tautline");
      asked.onsuccess = asked.onblocked = asked.onerror = done;
    });
  });
  await goto("/keep");
  await driver.evaluate((text) => {
    const given = new DataTransfer();
    given.items.add(new File([text], "tautline.json", { type: "application/json" }));
    const field = document.querySelector("input[type=file]");
    field.files = given.files;
    field.dispatchEvent(new Event("change", { bubbles: true }));
  }, file);
  await tap("button", "^Add it to what is here");
  await see("text", "^It is taken in");
  await goto(`/cut/${id}/end`);
  await holds("the end's table", settled);
  seen["the end, taken in again"] = await driver.evaluate(words, "main table");
  if (seen["the end, taken in again"] !== seen.end) throw new Error("What was taken in again is not what was saved.");
  await driver.reload();
  await holds("the end's table", settled);
  seen["the end, loaded again"] = await driver.evaluate(words, "main table");
  if (offline) {
    await holds("an active worker", async () => (await navigator.serviceWorker?.ready)?.active?.state === "activated"
      && Boolean(navigator.serviceWorker.controller));
    await app.stopServer();
    await driver.reload();
    await holds("the end's table, offline", settled);
    seen["the end, offline"] = await driver.evaluate(words, "main table");
    await driver.goto(`${app.url}/cut/${id}/plan`);
    await holds("the plan's table, offline", settled);
    seen["the plan, offline"] = await driver.evaluate(words, "main table");
  }
  if (driver.errors.length > 0) throw new Error(`${driver.version}: ${driver.errors.join("; ")}`);
  return { seen, wide, count };
}
