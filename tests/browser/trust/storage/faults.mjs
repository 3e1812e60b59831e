// Faults of a browser's storage, to be put into a page, and what is looked at afterwards.
//
//   withFault(context)        counts the writes into local storage (globalThis.writes) and fails those that
//                             setFault says
//   setFault(page, fault)     { from: n } fails the n-th write from now on and all after it, { only: n } that
//                             one, {} none; a name fails as a browser's error of that name
//   fill(page, spare)         fills local storage to the last sign with keys of the same origin, but spare
//   unfill(page)              takes those keys away
//   kept(page)                → every key of the app and its text
//   sound(texts)              → what is wrong with them, one line each; [] is what you want
//   documents(texts)          → the documents in force, parsed, by place and id
//   follow(page, path)        goes to a path as a link of the app does, without loading the page again
//   settled(page)             lets the page draw
//   alerts(page)              → what the page warns of now
//   chance(seed)              → { next, of, below }: chance that comes out the same each time
import { unpacked } from "../../flow.mjs";
import { random } from "../../monkey.mjs";

export function chance(seed) {
  const { next, of } = random(seed);
  return { next, of, below: (end) => Math.floor(next() * end) };
}

export async function withFault(context) {
  await context.addInitScript(() => {
    const real = Storage.prototype.setItem;
    globalThis.writes = 0;
    globalThis.fault = {};
    Storage.prototype.setItem = function setItem(key, text) {
      globalThis.writes += 1;
      const { from = Infinity, only = 0, name = "QuotaExceededError" } = globalThis.fault;
      if (globalThis.writes >= from || globalThis.writes === only) throw new DOMException("no", name);
      return real.call(this, key, text);
    };
  });
}

export const setFault = (page, fault) => page.evaluate((fault) => {
  globalThis.writes = 0;
  globalThis.fault = fault;
}, fault);

export const fill = (page, spare = 0) => page.evaluate((spare) => {
  let size = 1 << 20;
  for (let i = 0; size > 0; i += 1) {
    try {
      localStorage.setItem(`fill${i}`, "x".repeat(size));
    } catch {
      size >>= 1;
    }
  }
  if (spare > 0) {
    const [last] = Object.keys(localStorage).filter((key) => key.startsWith("fill")).filter((key) => localStorage[key].length > spare);
    localStorage.setItem(last, localStorage[last].slice(spare));
  }
}, spare);

export const unfill = (page) => page.evaluate(() => {
  for (const key of Object.keys(localStorage)) if (key.startsWith("fill")) localStorage.removeItem(key);
});

export const kept = (page) => page.evaluate(() =>
  Object.fromEntries(Object.entries(localStorage).filter(([key]) => key.startsWith("tautline"))));

const PLACES = { cut: "tautline.index", record: "tautline.records" };

const indexed = (texts, place) => JSON.parse(texts[PLACES[place]] ?? "{\"schema\":1,\"cuts\":{}}").cuts;

export function documents(texts) {
  const found = { cut: {}, record: {} };
  for (const place of Object.keys(PLACES)) {
    for (const [id, revision] of Object.entries(indexed(texts, place))) {
      const text = texts[`tautline.${place}.${id}.${revision}`];
      if (text !== undefined) found[place][id] = unpacked(text);
    }
  }
  return found;
}

export function sound(texts) {
  const wrong = [];
  const named = new Set();
  for (const place of Object.keys(PLACES)) {
    let index = {};
    try {
      index = indexed(texts, place);
    } catch {
      wrong.push(`the index of ${place}s does not parse`);
    }
    for (const [id, revision] of Object.entries(index)) {
      const key = `tautline.${place}.${id}.${revision}`;
      named.add(key);
      if (!(key in texts)) wrong.push(`${key} is named and not there`);
    }
  }
  for (const [key, text] of Object.entries(texts)) {
    if (!/^tautline\.(cut|record|undo)\.|^tautline\.settings$/.test(key)) continue;
    try {
      const value = unpacked(text);
      if (typeof value !== "object" || value === null) wrong.push(`${key} is no document`);
    } catch {
      wrong.push(`${key} does not parse`);
    }
  }
  return wrong;
}

export async function follow(page, path) {
  await page.evaluate((path) => {
    const link = document.createElement("a");
    link.href = path;
    (document.querySelector("main") ?? document.body).append(link);
    link.click();
    link.remove();
  }, path);
  await settled(page);
}

export const settled = (page) => page.evaluate(() => new Promise((done) => {
  requestAnimationFrame(() => setTimeout(done, 0));
}));

export const alerts = (page) => page.evaluate(() =>
  [...document.querySelectorAll("[role=alert]")].filter((el) => el.checkVisibility()).map((el) => el.innerText.trim()).join(" | "));
