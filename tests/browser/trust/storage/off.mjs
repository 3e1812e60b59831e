// Storage that is switched off, in every way a browser has of it; and private windows.
import { readFile } from "node:fs/promises";
import { done, section } from "../../flow.mjs";
import { open, start, violations } from "../../harness.mjs";
import { alerts, follow, kept, sound } from "./faults.mjs";

const SAID = "keeps nothing for Tautline";

// What is done to a page before it loads, and whether anything can be kept then.
const LOCAL = {
  "reaching for local storage throws": () => {
    Object.defineProperty(window, "localStorage", { get() { throw new DOMException("no", "SecurityError"); } });
  },
  "local storage is null": () => Object.defineProperty(window, "localStorage", { value: null }),
  "every write throws a SecurityError": () => {
    Storage.prototype.setItem = () => { throw new DOMException("no", "SecurityError"); };
  },
  "every write throws something odd": () => { Storage.prototype.setItem = () => { throw 7; }; },
};
const JOURNAL = {
  "no IndexedDB": () => Object.defineProperty(window, "indexedDB", { value: undefined }),
  "reaching for IndexedDB throws": () => {
    Object.defineProperty(window, "indexedDB", { get() { throw new DOMException("no", "SecurityError"); } });
  },
  "opening it throws": () => { IDBFactory.prototype.open = () => { throw new DOMException("no", "SecurityError"); }; },
  "opening it fails": () => {
    IDBFactory.prototype.open = () => {
      const asked = new EventTarget();
      setTimeout(() => asked.onerror?.(new Event("error")), 5);
      return asked;
    };
  },
  "opening it is blocked": () => {
    IDBFactory.prototype.open = () => {
      const asked = new EventTarget();
      setTimeout(() => asked.onblocked?.(new Event("blocked")), 5);
      return asked;
    };
  },
  "it never answers": () => { IDBFactory.prototype.open = () => ({}); },
  "its transactions throw": () => {
    IDBDatabase.prototype.transaction = () => { throw new DOMException("closing", "InvalidStateError"); };
  },
  "its transactions abort": () => {
    const real = IDBDatabase.prototype.transaction;
    IDBDatabase.prototype.transaction = function transaction(...all) {
      const made = real.apply(this, all);
      if (all[1] === "readwrite") setTimeout(() => { try { made.abort(); } catch { /* Done already. */ } }, 0);
      return made;
    };
  },
};

// A cut begun, walked two sections, and saved as a file, all without loading the page again.
async function session(app, scripts, options, keeps) {
  const { context, page, seen } = await app.newPhone({ acceptDownloads: true, ...options });
  page.setDefaultTimeout(10_000);
  const wrong = [];
  try {
    for (const script of scripts) await context.addInitScript(script);
    await open(app, page, "/");
    await page.waitForTimeout(400);
    if ((await alerts(page)).includes(SAID) === keeps) wrong.push(keeps ? "says it keeps nothing" : "does not say that it keeps nothing");
    if ((await violations(page)).length > 0) wrong.push("not accessible");
    await page.getByRole("button", { name: "Try an invented example" }).click();
    await page.getByRole("heading", { level: 1, name: "The head" }).waitFor();
    const id = page.url().split("/cut/")[1].split("/")[0];
    await page.getByLabel("Name of this cut").fill("Only here");
    await page.getByLabel("Name of this cut").press("Tab");
    await follow(page, `/cut/${id}/walk`);
    await page.getByRole("button", { name: "Start" }).click();
    await page.getByText(/^Section 1 of/).waitFor();
    await done(page);
    await done(page);
    if ((await section(page)).place !== 3) wrong.push("not on the third section");
    await follow(page, "/");
    await page.locator("h1", { hasText: "Your cuts" }).waitFor();
    await page.getByText("Only here").first().waitFor();
    await follow(page, "/keep");
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save everything as a file" }).click();
    const file = JSON.parse(await readFile(await (await download).path(), "utf8"));
    if (file.cuts[0]?.title !== "Only here" || file.cuts[0]?.walk?.done.length !== 2) wrong.push("the file lacks what was done");
    if (keeps) {
      wrong.push(...sound(await kept(page)));
      await page.waitForTimeout(50);
      await open(app, page, `/cut/${id}/walk`);
      if ((await section(page)).place !== 3) wrong.push("not kept over a reload");
    }
    wrong.push(...seen.errors);
  } catch (error) {
    wrong.push(String(error).replaceAll(/\s+/g, " ").slice(0, 250));
  }
  await context.close();
  return wrong;
}

const told = (wrong, tries, well) => ({
  tries,
  figure: wrong.length === 0 ? `${tries} of ${tries} ${well}` : wrong.slice(0, 4).join("; "),
  well: wrong.length === 0,
});

async function each(cases, well) {
  const app = await start();
  const wrong = [];
  try {
    for (const { name, scripts, options, keeps } of cases) {
      const found = await session(app, scripts, options, keeps);
      wrong.push(...found.map((what) => `${name}: ${what}`));
    }
  } finally {
    await app.close();
  }
  return told(wrong, cases.length, well);
}

const local = (full) => Object.entries(LOCAL).slice(0, full ? undefined : 1)
  .map(([name, script]) => ({ name, scripts: [script], keeps: false }));
const journal = (full) => Object.entries(JOURNAL).slice(0, full ? undefined : 1)
  .map(([name, script]) => ({ name, scripts: [script], keeps: true }));

function both(full) {
  const cases = [];
  for (const [one, off] of Object.entries(LOCAL)) {
    for (const [other, gone] of Object.entries(JOURNAL)) {
      cases.push({ name: `${one}, ${other}`, scripts: [off, gone], keeps: false });
    }
  }
  return full ? cases : cases.slice(0, 1);
}

// Nothing is promised, IndexedDB has next to no room, and the worker is refused.
const private_ = () => [
  { scripts: [() => { StorageManager.prototype.persist = StorageManager.prototype.persisted = async () => false; }], options: { serviceWorkers: "block" } },
  { scripts: [() => { IDBObjectStore.prototype.put = () => { throw new DOMException("no", "QuotaExceededError"); }; }], options: { serviceWorkers: "block" } },
  { scripts: [() => { ServiceWorkerContainer.prototype.register = async () => { throw new DOMException("no", "SecurityError"); }; }] },
  { scripts: [() => Object.defineProperty(Navigator.prototype, "serviceWorker", { value: undefined })] },
  { scripts: [() => Object.defineProperty(Navigator.prototype, "storage", { value: undefined })], options: { serviceWorkers: "block" } },
].map((one, i) => ({ name: `private ${i + 1}`, keeps: true, ...one }));

export const off = [
  { name: "local storage switched off", budget: "says so, works for the session, gives the file", quick: true, run: (full) => each(local(full), "sessions worked, said it, and gave the file") },
  { name: "IndexedDB away, failing, blocked or never answering", budget: "works and keeps", quick: true, run: (full) => each(journal(full), "worked and kept") },
  { name: "both switched off", budget: "says so, works for the session, gives the file", quick: false, run: (full) => each(both(full), "sessions worked, said it, and gave the file") },
  { name: "private window: nothing promised, no room in IndexedDB, worker refused", budget: "works and keeps while it is open", quick: false, run: () => each(private_(), "worked and kept") },
];
