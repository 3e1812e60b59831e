// Measures a full store: `make many`. A thousand visits of two hundred invented clients, a third of them
// with plans of their own, made from walks that this very build finished; then, in a phone-sized page
// slowed 4 times: the list opened for the first time and again, each letter of some searches until what is
// found is painted, and Done at the chair beside the same with an empty store.
import { readFile } from "node:fs/promises";
import { deflateSync } from "node:zlib";
import { newExample, toPlan, unpacked } from "./flow.mjs";
import { open, quantile, start } from "./harness.mjs";

export const VISITS = 1000;
export const CLIENTS = 200;
// What browsers give, UTF-16 units.
export const ROOM = 5 * 1024 * 1024;
const PLANS = ["soft-layers-face-frame", "one-length-bob", "graduated-bob", "tapered-nape", "trim"];
const NAMES = ["Zoë", "Ann", "Bo", "José", "Mei", "Kofi", "Łucja", "Ian", "Ada", "Noor"];
const TAGS = ["wet", "exam", "colour after", "first"];
const NOTES = ["likes it off the neck", "cowlick at the left front", "thick behind the ears", "comes back before a wedding", "fine at the temples", "dries it straight"];

// Written by node's zlib, which is not the app's.
const packed = (cut) => `~${deflateSync(JSON.stringify(cut)).toString("base64url")}`;

let state = 5;
const below = (end) => {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
  return (state >>> 8) % end;
};
const one = (all) => all[below(all.length)];

// The example walked through to its end with a plan; → its document.
async function finished(app, page, id, plan) {
  await page.evaluate(([id, plan]) => {
    const key = Object.keys(localStorage).find((key) => key.startsWith(`tautline.cut.${id}.`));
    const cut = JSON.parse(localStorage[key]);
    localStorage[key] = JSON.stringify({ ...cut, plan, own: undefined, choices: {}, walk: undefined });
  }, [id, plan]);
  await page.goto(`${app.url}/cut/${id}/walk`);
  await page.getByRole("button", { name: "Start" }).click();
  const count = Number((await page.getByText(/^Section 1 of/).innerText()).match(/of (\d+)/)[1]);
  for (let i = 0; i < count; i += 1) await page.evaluate(() => document.querySelector(".done").click());
  await page.getByRole("heading", { level: 1, name: "Planned and cut" }).waitFor();
  const text = await page.evaluate((id) => Object.entries(localStorage).find(([key]) => key.startsWith(`tautline.cut.${id}.`))[1], id);
  return unpacked(text);
}

// Documents as the app keeps them, out of some that it made.
export function documents(templates, plans) {
  const kept = {};
  const index = { cuts: {}, records: {} };
  for (let i = 0; i < CLIENTS; i += 1) {
    const id = `client-${i}`;
    index.records[id] = 1;
    kept[`tautline.record.${id}.1`] = JSON.stringify({
      schema: 1, id, saved_at: "2026-11-25T10:00:00.000Z", name: `${one(NAMES)} ${one(NAMES)} (invented)`, invented: true,
      tapes: { circumference: `${54 + below(5)}.${below(10)} cm` }, notes: one(NOTES), tags: [one(TAGS)],
    });
  }
  for (let i = 0; i < VISITS; i += 1) {
    const day = new Date(Date.UTC(2023, 0, 1 + Math.floor(i * 1.4))).toISOString().slice(0, 10);
    const id = `${(0x18500000000 + i * 86400000).toString(16)}-${below(1 << 24).toString(16)}`;
    const cut = structuredClone(templates[i % templates.length]);
    const at = (n) => new Date(Date.parse(`${day}T09:00:00.000Z`) + n * 47000 + below(9000)).toISOString();
    Object.assign(cut, { id, title: `Cut of ${day}`, saved_at: at(60) });
    cut.tapes = { circumference: `${54 + below(5)}.${below(10)} cm`, breadth: `14.${below(10)} cm`, length: `18.${below(10)} cm` };
    if (i % 3 === 0) {
      cut.own = structuredClone(plans[i % templates.length]);
      cut.own.name = `${cut.own.name}, ${day}`;
      for (const step of cut.own.steps) Object.assign(step, { longer: below(30) / 20, title: `${step.title}, ${one(NOTES)}` });
    }
    cut.visit = { of: `client-${below(CLIENTS)}`, day, notes: `${one(NOTES)}, ${one(NOTES)}, ${one(NOTES)}`, tags: [one(TAGS)], invented: true };
    cut.walk.started_at = at(0);
    cut.walk.finished_at = at(cut.walk.done.length + 1);
    cut.walk.done.forEach((done, n) => {
      done.at = at(n + 1);
      if (done.target) done.target += below(1000) / 700;
      if (below(3) === 0) done.came_out_at = 5 + below(60) / 2;
    });
    index.cuts[id] = 1;
    kept[`tautline.cut.${id}.1`] = packed(cut);
  }
  kept["tautline.index"] = JSON.stringify({ schema: 1, cuts: index.cuts });
  kept["tautline.records"] = JSON.stringify({ schema: 1, cuts: index.records });
  return kept;
}

export async function lay(page, kept) {
  await page.evaluate((kept) => {
    localStorage.clear();
    for (const [key, text] of Object.entries(kept)) localStorage.setItem(key, text);
  }, kept);
}

// A full store in a page: what `documents` makes of walks through a few plans.
export async function fill(app, page) {
  await newExample(app, page);
  await toPlan(page);
  const id = page.url().split("/cut/")[1].split("/")[0];
  const templates = [];
  const plans = [];
  for (const plan of PLANS) {
    templates.push(await finished(app, page, id, plan));
    plans.push(JSON.parse(await readFile(new URL(`../../src/plan/cuts/${plan}.json`, import.meta.url), "utf8")));
    await page.evaluate(([id, cut]) => {
      const key = Object.keys(localStorage).find((key) => key.startsWith(`tautline.cut.${id}.`));
      localStorage[key] = JSON.stringify(cut);
    }, [id, { ...templates.at(-1), walk: undefined }]);
  }
  await open(app, page, "/settings");
  await lay(page, documents(templates, plans));
}

// Presses a link in a frame; → milliseconds until rows stand in the list and are painted.
const opened = (page) => page.evaluate(() => new Promise((done) => {
  requestAnimationFrame(() => {
    const before = performance.now();
    const painted = () => requestAnimationFrame(() => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => done(performance.now() - before);
      port2.postMessage(0);
    });
    const watch = new MutationObserver(() => {
      if (!document.querySelector("main .cuts > li")) return;
      watch.disconnect();
      painted();
    });
    watch.observe(document.body, { subtree: true, childList: true });
    document.querySelector("a.name").click();
  });
}));

// Types a letter in a frame; → milliseconds until that frame is laid out and painted.
const typed = (page, text) => page.evaluate((text) => new Promise((done) => {
  requestAnimationFrame(() => {
    const before = performance.now();
    const field = document.getElementById("find");
    field.value = text;
    field.dispatchEvent(new InputEvent("input", { bubbles: true }));
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => done(performance.now() - before);
    port2.postMessage(0);
  });
}), text);

const pressed = (page) => page.evaluate(() => new Promise((done) => {
  requestAnimationFrame(() => {
    const before = performance.now();
    document.querySelector(".done").click();
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => done(performance.now() - before);
    port2.postMessage(0);
  });
}));

const told = (all) => `median ${quantile(all, 0.5).toFixed(0)} ms, 95 % ${quantile(all, 0.95).toFixed(0)} ms, most ${Math.max(...all).toFixed(0)} ms of ${all.length}`;

async function atTheChair(app, page, slow) {
  await slow(1);
  await newExample(app, page);
  const id = page.url().split("/cut/")[1].split("/")[0];
  await page.goto(`${app.url}/cut/${id}/walk`);
  await page.getByRole("button", { name: "Start" }).click();
  const count = Number((await page.getByText(/^Section 1 of/).innerText()).match(/of (\d+)/)[1]);
  await slow(4);
  const all = [];
  for (let i = 1; i < count; i += 1) all.push(await pressed(page));
  await slow(1);
  return all;
}

async function measure() {
  const app = await start();
  const { page, context, seen } = await app.newPhone();
  const cdp = await context.newCDPSession(page);
  const slow = (rate) => cdp.send("Emulation.setCPUThrottlingRate", { rate });
  const empty = [...await atTheChair(app, page, slow), ...await atTheChair(app, page, slow)];
  const few = [];
  for (let i = 0; i < 6; i += 1) {
    await slow(1);
    await open(app, page, "/settings");
    await page.waitForTimeout(200);
    await slow(4);
    few.push(await opened(page));
  }
  await slow(1);
  console.log(`the list opened for the first time with two cuts, slowed 4x: ${told(few)}`);
  await fill(app, page);
  const used = () => page.evaluate(() => {
    const ours = Object.entries(localStorage).filter(([key]) => key.startsWith("tautline"));
    const units = ours.reduce((sum, [key, text]) => sum + key.length + text.length, 0);
    const bytes = ours.reduce((sum, [key, text]) => sum + new TextEncoder().encode(key + text).length, 0);
    return [units, bytes];
  });
  await slow(4);
  console.log(`the list opened where no line is yet, slowed 4x: ${(await opened(page)).toFixed(0)} ms`);
  const [units, bytes] = await used();
  console.log(`${VISITS} visits, ${CLIENTS} clients: ${units} of ${ROOM} UTF-16 units, ${bytes} bytes in UTF-8`);
  const first = [];
  const soon = [];
  const again = [];
  for (let i = 0; i < 6; i += 1) {
    await slow(1);
    await open(app, page, "/settings");
    await page.waitForTimeout(200);
    await slow(4);
    soon.push(await opened(page));
    await slow(1);
    await open(app, page, "/settings");
    // The app reads what lists need a moment after the start.
    await page.waitForTimeout(1500);
    await slow(4);
    first.push(await opened(page));
    await page.getByRole("link", { name: "Settings" }).click();
    await page.getByRole("heading", { level: 1, name: "Settings" }).waitFor();
    again.push(await opened(page));
  }
  console.log(`the list opened at once after the start, slowed 4x: ${told(soon)}`);
  console.log(`the list opened for the first time, later, slowed 4x: ${told(first)}`);
  console.log(`the list opened again, slowed 4x: ${told(again)}`);
  const keys = [];
  for (const words of ["zoe march", "2024-05", "bob likes", "exam ł", "nothing of this"]) {
    for (let i = 1; i <= words.length; i += 1) keys.push(await typed(page, words.slice(0, i)));
    keys.push(await typed(page, ""));
  }
  console.log(`a letter of a search until it is painted, slowed 4x: ${told(keys)}`);
  const full = [...await atTheChair(app, page, slow), ...await atTheChair(app, page, slow)];
  console.log(`Done at the chair, slowed 4x, nothing else kept: ${told(empty)}`);
  console.log(`Done at the chair, slowed 4x, ${VISITS} visits kept: ${told(full)}`);
  if (seen.errors.length > 0) console.error(seen.errors);
  await app.close();
}

if (process.argv[1] === new URL(import.meta.url).pathname) await measure();
