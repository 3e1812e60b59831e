// A restless hand: opens a cut and does random things on every screen, then says what broke. By hand:
//
//   node monkey.mjs [ACTIONS a plan] [SEED] [PLAN ids, separated by commas]
//
//   monkey(app, options)    → { done, failures }: `options` are { plan, seed, actions, until }
//   PLANS                   the ids of the built-in cuts
//   TEXTS                   what is typed: numbers at their ends, marks, other scripts, much
//
// After every action: a heading of the first level is seen, nothing was thrown or written to the console
// as an error, the app did not stop, the kept cut reads, and nothing hung (ten seconds, on a busy machine). Now
// and then the page is loaded again and must show what it showed; everything is taken back and done
// again and must be what it was.
import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { newExample, unpacked } from "./flow.mjs";
import { open, start, workerReady } from "./harness.mjs";

const CUTS = fileURLToPath(new URL("../../src/plan/cuts", import.meta.url));
export const PLANS = readdirSync(CUTS).map((file) => file.replace(/\.json$/, "")).sort();

const SCREENS = ["edit", "edit", "edit", "edit", "aim", "client", "plan", "head", "compare", "choose", "walk", "end", "visit", "judge", "pass", "settings"];
export const TEXTS = [
  "", " ", "0", "-0", "1", "7", "12", "12.5 cm", "4 1/2 in", "45", "90", "-3", "−2 cm", "60 cm", "1e9", "-1e9",
  "1e308", "1e400", "1e-300", "nan", "Infinity", "-infinity", "steep", "<b>x</b>", "🙂✂️", "\u202eback", "null", "{\"a\":1}",
  "9999999999999999999", "1/0", "½", "½ in", "0x10", "long ".repeat(1000),
];
// Nothing that a person did may take longer, ms.
const SOON = 10000;

// A small generator of random numbers, so that a seed says it all.
export function random(seed) {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return { next, of: (list) => list[Math.floor(next() * list.length)] };
}

// In the page: does one thing to one of the controls that are seen, and says what.
function act({ which, how, text }) {
  const seen = (el) => el.checkVisibility() && el.getClientRects().length > 0;
  const all = [...document.querySelectorAll("main button, main select, main input, main textarea, main summary, main a.button, main svg [tabindex]")]
    .filter((el) => seen(el) && !el.disabled && !el.hasAttribute("download"))
    // What is gone on purpose is not lost.
    .filter((el) => !/Delete|Remove this cut/.test(el.textContent ?? ""));
  if (all.length === 0) return "nothing to press";
  const pick = (from) => from[Math.floor(which * from.length)];
  const stays = all.filter((el) => el.tagName !== "A");
  // Mostly it stays on the screen.
  const el = how < 0.8 && stays.length > 0 ? pick(stays) : pick(all);
  const name = `${el.tagName.toLowerCase()}#${el.id} ${(el.textContent || el.getAttribute("aria-label") || "").trim().slice(0, 40)}`;
  const say = (type) => el.dispatchEvent(new Event(type, { bubbles: true }));
  if (el.tagName === "SELECT") {
    const options = [...el.options].filter((o) => !o.disabled);
    if (options.length === 0) return `${name} has no options`;
    el.value = options[Math.floor(how * options.length)].value;
    say("input");
    say("change");
    return `${name} := ${el.value}`;
  }
  if (el.type === "range") {
    const [low, high] = [Number(el.min), Number(el.max)];
    for (const share of [how, how / 2, how]) {
      el.value = String(Math.round(low + (high - low) * share));
      say("input");
    }
    if (how < 0.9) say("change");
    return `${name} slid to ${el.value}`;
  }
  if (el.tagName === "TEXTAREA" || el.type === "text" || el.type === "number") {
    el.focus();
    el.value = text;
    const typed = el.value;
    say("input");
    say("change");
    const lost = el.isConnected && typed.trim() !== "" && !/\d|½/.test(typed) && el.value.trim() !== typed.trim();
    return `${lost ? "LOST " : ""}${name} := ${JSON.stringify(text.slice(0, 30))}${lost ? ` shows ${JSON.stringify(el.value.slice(0, 30))}` : ""}`;
  }
  if (el.tagName.toLowerCase() === "g" || el instanceof SVGElement) {
    const key = ["ArrowUp", "ArrowDown", "PageUp", "Home", "Enter", " "][Math.floor(how * 6)];
    el.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
    return `${name} key ${key}`;
  }
  el.click();
  return `${name} pressed`;
}

// In the page: goes to an address without loading the page again.
function follow(path) {
  const link = document.createElement("a");
  link.href = path;
  document.querySelector("main").append(link);
  link.click();
  link.remove();
}

function look() {
  const heading = [...document.querySelectorAll("h1")].some((h) => h.getClientRects().length > 0 && h.innerText.trim() !== "");
  const text = document.querySelector("main")?.innerText ?? "";
  return { heading, stopped: document.getElementById("stopped") !== null, blank: text.trim().length < 10, odd: /\bNaN\b|\binf\b|undefined/.exec(text.replace(/“[^”]*”/g, ""))?.[0] };
}

// What every field shows, so that it can be held against the same after the page was loaded again.
function shown() {
  return [...document.querySelectorAll("main input, main select, main textarea")]
    .filter((el) => el.id !== "").map((el) => `${el.id}=${el.type === "checkbox" || el.type === "radio" ? el.checked : el.value}`);
}

const stored = () => Object.entries(localStorage).filter(([key]) => key.startsWith("tautline.cut."));

export async function monkey(app, { plan, seed, actions, until = Infinity }) {
  const chance = random(seed);
  const { context, page, seen } = await app.newPhone();
  page.setDefaultTimeout(15000);
  const failures = [];
  const log = [];
  let fresh = true;
  const fail = (what) => {
    failures.push({ plan, seed, step: log.length, what, last: log.slice(-6) });
    fresh = false;
  };
  await newExample(app, page);
  // From then on it answers every address; before, a cold one is looked for (climb.js).
  await workerReady(page);
  const id = new URL(page.url()).pathname.split("/")[2];
  await page.evaluate(([id, plan]) => {
    const key = Object.keys(localStorage).find((k) => k.startsWith(`tautline.cut.${id}.`));
    localStorage.setItem(key, JSON.stringify({ ...JSON.parse(localStorage.getItem(key)), plan }));
  }, [id, plan]);
  const settled = () => page.evaluate(() => new Promise((done) => { requestAnimationFrame(() => setTimeout(done, 0)); }));
  const go = async (screen) => {
    const path = screen === "settings" ? "/settings" : `/cut/${id}/${screen}`;
    await page.evaluate(follow, path);
    return path;
  };
  const kept = async () => {
    const [, text] = (await page.evaluate(stored)).find(([key]) => key.includes(id)) ?? [];
    if (text === undefined) return null;
    const cut = JSON.parse(text);
    return JSON.stringify([cut.plan, cut.own, cut.choices]);
  };
  const undoAll = async (name) => page.evaluate((name) => {
    const press = () => {
      const button = [...document.querySelectorAll(".undo button")].find((b) => b.innerText.includes(name));
      if (!button || button.disabled) return false;
      button.click();
      return true;
    };
    return new Promise((done) => {
      let count = 0;
      const more = () => (count < 400 && press() ? (count += 1, setTimeout(more, 0)) : done(count));
      more();
    });
  }, name);

  await open(app, page, `/cut/${id}/edit`);
  let done = 0;
  for (; done < actions && failures.length < 12 && Date.now() < until; done += 1) {
    const dice = chance.next();
    let what = "";
    const began = Date.now();
    let limit = SOON;
    try {
      if (dice < 0.1) what = `go ${await go(chance.of(SCREENS))}`;
      else if (dice < 0.115) { await page.goBack({ waitUntil: "commit" }).catch(() => {}); what = "back"; limit = 6000; }
      else if (dice < 0.125) { await page.goForward({ waitUntil: "commit" }).catch(() => {}); what = "forward"; limit = 6000; }
      else if (dice < 0.15) {
        limit = 15000;
        const at = await page.evaluate(() => [...document.querySelectorAll(".steps button")].findIndex((b) => b.ariaCurrent === "step"));
        const openStep = (at) => page.evaluate((at) => document.querySelectorAll(".steps button")[at]?.click(), at);
        await page.waitForTimeout(50);
        const was = await page.evaluate(shown);
        await page.reload();
        await page.getByRole("heading", { level: 1 }).first().waitFor();
        if (at >= 0) await openStep(at);
        await settled();
        const is = await page.evaluate(shown);
        what = `reload ${new URL(page.url()).pathname}`;
        const screen = new URL(page.url()).pathname.split("/")[3] ?? "";
        const gone = was.filter((field) => !is.includes(field));
        // A slider that was never let go is not kept, nor what is only looked at.
        if (["head", "client", "edit"].includes(screen) && gone.length > 0 && !log.slice(-3).some((l) => /slid/.test(l))) {
          fail(`other after a reload: ${gone.slice(0, 4).join(" | ").slice(0, 300)} → ${is.filter((f) => !was.includes(f)).slice(0, 4).join(" | ").slice(0, 300)}`);
        }
      } else if (dice < 0.165) {
        await go("edit");
        await page.getByRole("heading", { level: 1, name: "Change the plan" }).waitFor();
        const was = await kept();
        const back = await undoAll("Undo");
        const on = await undoAll("Redo");
        const is = await kept();
        limit = SOON + (back + on) * SOON;
        what = `undo all ${back}, redo all ${on}`;
        if (was !== is && back === on) fail(`undo and redo: ${was?.slice(0, 200)} → ${is?.slice(0, 200)}`);
      } else if (dice < 0.175) {
        const key = chance.of(["Control+z", "Control+y", "Control+Shift+z", "Escape", "Tab", "Enter", "ArrowRight"]);
        await page.keyboard.press(key);
        what = `key ${key}`;
      } else what = await page.evaluate(act, { which: chance.next(), how: chance.next(), text: chance.of(TEXTS) });
      await settled();
      const took = Date.now() - began;
      const path = new URL(page.url()).pathname;
      log.push(`${what} @${path.split("/").slice(3).join("/") || path} ${took} ms`);
      if (what.startsWith("LOST")) fail("what was typed is lost");
      if (took > limit) fail(`took ${took} ms`);
      let view = await page.evaluate(look);
      for (let i = 0; i < 20 && !view.heading; i += 1) {
        await page.waitForTimeout(50);
        view = await page.evaluate(look);
      }
      if (!view.heading || view.blank) fail("blank");
      if (view.stopped) fail("stopped");
      if (view.odd) fail(`says ${view.odd}`);
      if (seen.errors.length > 0) fail(`console: ${seen.errors.splice(0).join("; ").slice(0, 500)}`);
      const cuts = await page.evaluate(stored);
      if (cuts.length === 0) fail("no cut is kept");
      for (const [key, text] of cuts) {
        const { own = {}, aims = {} } = unpacked(text);
        if (/:null\b/.test(JSON.stringify([own, aims]))) fail(`${key} holds null`);
      }
      if (view.stopped || !path.includes("/")) fresh = false;
    } catch (error) {
      log.push(`${what} threw`);
      fail(String(error).slice(0, 400));
    }
    if (!fresh) {
      fresh = true;
      await page.goto(`${app.url}/cut/${id}/edit`).catch(() => {});
      await page.waitForTimeout(300);
      seen.errors.splice(0);
    }
  }
  // Whatever was done, the cut still opens and reads.
  await page.goto(app.url);
  await page.getByRole("heading", { level: 1, name: "Your cuts" }).waitFor();
  if (await page.getByText("A cut that can't be read").count() > 0) fail("a cut can't be read any more");
  if (process.env.SAY) console.log(log.join("\n"));
  await context.close();
  return { done, failures };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [actions = 300, seed = Date.now() % 100000] = process.argv.slice(2, 4).map(Number);
  const plans = process.argv[4]?.split(",") ?? PLANS;
  const app = await start();
  let [total, failed] = [0, 0];
  try {
    for (const [i, plan] of plans.entries()) {
      const began = Date.now();
      const { done, failures } = await monkey(app, { plan, seed: seed + i, actions });
      total += done;
      failed += failures.length;
      console.log(`${plan} seed ${seed + i}: ${done} actions, ${failures.length} failures, ${Date.now() - began} ms`);
      for (const failure of failures) console.log(JSON.stringify(failure, null, 1));
    }
  } finally {
    await app.close();
  }
  console.log(`${total} actions, ${failed} failures`);
  process.exitCode = failed > 0 ? 1 : 0;
}
