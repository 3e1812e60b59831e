// A long day of a restless hand over the whole app, with no network: presses, types, slides, turns the phone,
// switches the look, opens second windows, takes files in and out, deletes. By hand:
//
//   node soak.mjs [ACTIONS] [SEED]
//
//   soak(app, options)   → { done, failures, figures, folder }: `options` are { actions, seed }; the server is
//                          stopped on the way. figures are what memory came to, folder has what was kept
//                          every hundred actions, as files that the app saves after a crash
//
// After every action: a heading is seen, nothing was written to the console as an error, the app did not stop,
// nothing took more than ten seconds. Every hundred actions what is kept is looked over. The one window is never
// loaded anew, so that what it does not let go of adds up; second windows are.
import { mkdtemp, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { open, start, workerReady } from "./harness.mjs";
import { TEXTS, random } from "./monkey.mjs";
import { follow, kept, settled, sound } from "./trust/storage/faults.mjs";

const SOON = 10_000;
const MOST_CUTS = 12;
const SCREENS = ["head", "client", "plan", "choose", "edit", "edit", "aim", "compare", "see", "see/head", "see/outline", "see/lengths", "sheet", "pass", "walk", "walk", "walk", "end", "visit", "judge", "assess"];
const PLACES = ["/", "/", "/book", "/trends", "/take", "/keep", "/settings", "/learn", "/learn/weight", "/no/such/place"];
const HOSTILE = [...TEXTS, "\u0000", "\ud800", "</textarea><script>throw 1</script>", "javascript:throw(1)", "%00%ff", "a\u0301".repeat(50), "\u200b", "2026-02-30", "2026-11-26", "= 1+1", "57", "57.5 cm", "22 1/2 in"];
const KEYS = ["Tab", "Tab", "Enter", " ", "Escape", "ArrowRight", "ArrowLeft", "ArrowUp", "ArrowDown", "PageDown", "PageUp", "Home", "End", "Control+z", "Control+y"];
const SIZES = [[360, 740], [740, 360], [320, 568], [768, 1024], [1280, 800]];
const FILES = [
  "", "{", "null", "[1]", "{\"kind\":\"tautline\",\"schema\":1}", "{\"kind\":\"tautline\",\"schema\":9}", "{\"kind\":\"tautline-plan\",\"schema\":1}", "[".repeat(50_000), "\u0000\u0001",
  "{\"kind\":\"tautline\",\"schema\":1,\"cuts\":[{\"schema\":3,\"id\":\"soaked\",\"saved_at\":\"2026-01-01T00:00:00.000Z\",\"title\":\"<b>soaked</b>\",\"plan\":\"straight-fringe\"}]}",
  "{\"kind\":\"tautline\",\"schema\":1,\"records\":[{\"schema\":1,\"id\":\"soaked\",\"saved_at\":\"2026-01-01T00:00:00.000Z\",\"kind\":\"practice\",\"name\":\"Soaked (invented)\"}]}",
];

// In the page: does one thing to one of the controls that are seen, and says what.
function act({ which, how, text, few }) {
  const seen = (el) => el.checkVisibility() && el.getClientRects().length > 0;
  const makes = /^(New cut|Try an invented|Load the invented|New visit|Make the card|Keep it|The next cut|The same cut|Add it)/;
  const all = [...document.querySelectorAll("#app button, #app select, #app input, #app textarea, #app summary, #app a[href], #app svg [tabindex]")]
    .filter((el) => seen(el) && !el.disabled && el.type !== "file")
    .filter((el) => few || !makes.test((el.textContent ?? "").trim()));
  if (all.length === 0) return "nothing to press";
  const el = all[Math.floor(which * all.length)];
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
  if (el.tagName === "TEXTAREA" || ["text", "number", "search", "password", "date"].includes(el.type)) {
    el.focus();
    el.value = text;
    say("input");
    say("change");
    if (how < 0.8) el.blur();
    return `${name} := ${JSON.stringify(text.slice(0, 30))}`;
  }
  if (el instanceof SVGElement) {
    const key = ["ArrowUp", "ArrowDown", "PageUp", "Home", "Enter", " "][Math.floor(how * 6)];
    el.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
    return `${name} key ${key}`;
  }
  el.focus();
  el.click();
  return `${name} pressed`;
}

function look() {
  const heading = [...document.querySelectorAll("h1")].some((h) => h.checkVisibility() && h.innerText.trim() !== "");
  const text = document.querySelector("main")?.innerText ?? "";
  return { heading, stopped: document.getElementById("stopped") !== null, blank: text.trim().length < 10, odd: /\bNaN\b|\binf\b|undefined/.exec(text.replace(/“[^”]*”/g, ""))?.[0] };
}

// Memory of the one window, on a quiet screen, once everything that may go has gone.
async function measured(page, cdp) {
  await follow(page, "/settings");
  await page.waitForTimeout(300);
  for (let i = 0; i < 3; i += 1) await cdp.send("HeapProfiler.collectGarbage");
  const { metrics } = await cdp.send("Performance.getMetrics");
  const of = (name) => metrics.find((m) => m.name === name).value;
  const wasm = await page.evaluate(() => globalThis.memories.reduce((sum, memory) => sum + memory.buffer.byteLength, 0));
  return { heap: of("JSHeapUsedSize") / 1e6, wasm: wasm / 1e6, nodes: of("Nodes"), listeners: of("JSEventListeners") };
}

const cutsOf = (page) => page.evaluate(() => {
  const index = (key) => Object.keys(JSON.parse(localStorage.getItem(key) ?? "{\"cuts\":{}}").cuts);
  return [index("tautline.index"), index("tautline.records")];
});

async function somewhere(page, chance) {
  const [cuts, cards] = await cutsOf(page);
  const dice = chance.next();
  let path = chance.of(PLACES);
  if (dice < 0.7 && cuts.length > 0) path = `/cut/${chance.of(cuts)}/${chance.of(SCREENS)}`;
  else if (dice < 0.8 && cards.length > 0) path = `/book/${chance.of(cards)}`;
  await follow(page, encodeURI(path));
  return `go ${path}`;
}

// One action in one window; → what it was.
async function once(page, chance, context) {
  const dice = chance.next();
  if (dice < 0.1) return somewhere(page, chance);
  if (dice < 0.13) {
    // Never out of the app, to the blank page that a window begins with.
    await page.evaluate((back) => {
      if (!back) history.forward();
      else if (navigation.currentEntry.index > 1) history.back();
    }, chance.next() < 0.7);
    await page.waitForTimeout(30);
    return "back or forward";
  }
  if (dice < 0.2) {
    const key = chance.of(KEYS);
    await page.keyboard.press(key);
    return `key ${key}`;
  }
  if (dice < 0.215) {
    const [width, height] = chance.of(SIZES);
    await page.setViewportSize({ width, height });
    return `turned to ${width} × ${height}`;
  }
  if (dice < 0.23) {
    const colorScheme = chance.of(["light", "dark"]);
    await page.emulateMedia({ colorScheme, reducedMotion: chance.of(["reduce", "no-preference"]) });
    return colorScheme;
  }
  if (dice < 0.25) {
    const path = chance.of(["/keep", "/take"]);
    await follow(page, path);
    const field = page.locator("input[type=file]").first();
    if (await field.count() === 0) return `no file at ${path}`;
    const buffer = Buffer.from(chance.of(FILES));
    await field.setInputFiles({ name: "file.json", mimeType: "application/json", buffer });
    await page.waitForTimeout(80);
    return `file at ${path}: ${buffer.toString().slice(0, 30)}`;
  }
  if (dice < 0.258 && context) return second(context, chance);
  const few = (await cutsOf(page))[0].length < MOST_CUTS;
  return page.evaluate(act, { which: chance.next(), how: chance.next(), text: chance.of(HOSTILE), few });
}

// Waits until nothing is under way. The page may start anew for one reason: another language was chosen.
async function calm(page) {
  const lang = () => page.evaluate(() => document.documentElement.lang);
  try {
    await settled(page);
    page.spoken = await lang();
  } catch (error) {
    if (!/context was destroyed/.test(String(error))) throw error;
    await page.waitForLoadState();
    await page.getByRole("heading", { level: 1 }).first().waitFor();
    await settled(page);
    const before = page.spoken;
    page.spoken = await lang();
    if (page.spoken === before) throw new Error("the page started anew", { cause: error });
  }
}

// A second window on the same data: loaded, pressed in, loaded again, closed.
async function second(context, chance) {
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  const log = [];
  try {
    await page.goto("/");
    await page.getByRole("heading", { level: 1 }).first().waitFor();
    for (let i = 0; i < 4; i += 1) {
      log.push(await once(page, chance));
      await calm(page);
    }
    await page.reload();
    await page.getByRole("heading", { level: 1 }).first().waitFor();
    const view = await page.evaluate(look);
    if (view.blank || view.stopped) throw new Error(`the second window is ${view.stopped ? "stopped" : "blank"} at ${page.url()}`);
  } finally {
    await page.close();
  }
  return `second window: ${log.join(", ")}`;
}

export async function soak(app, { actions, seed }) {
  const chance = random(seed);
  const { context, page, seen } = await app.newPhone({ acceptDownloads: true });
  page.setDefaultTimeout(15_000);
  await context.addInitScript(() => {
    globalThis.print = () => {};
    globalThis.memories = [];
    // Every memory that the app's wasm brings, whichever way it is made.
    const note = (instance) => {
      const found = Object.values(instance.exports).find((thing) => thing instanceof WebAssembly.Memory);
      if (found && !globalThis.memories.includes(found)) globalThis.memories.push(found);
    };
    for (const name of ["instantiate", "instantiateStreaming"]) {
      const real = WebAssembly[name];
      WebAssembly[name] = async (...all) => {
        const made = await real.apply(WebAssembly, all);
        note(made.instance ?? made);
        return made;
      };
    }
  });
  const failures = [];
  const log = [];
  const folder = await mkdtemp(join(tmpdir(), "tautline-soak-"));
  const fail = (what) => failures.push({ seed, step: log.length, what, last: log.slice(-6) });
  await open(app, page, "/");
  await workerReady(page);
  await app.stopServer();
  // What was asked for before the worker had the page, and now is not there.
  seen.errors.splice(0);
  const cdp = await context.newCDPSession(page);
  await cdp.send("Performance.enable");
  const figures = [];
  const quarter = Math.max(25, Math.floor(actions / 4));
  let done = 0;
  for (; done < actions && failures.length < 12; done += 1) {
    const began = Date.now();
    let what = "";
    try {
      what = done === 0 ? "the first cut" : await once(page, chance, context);
      if (done === 0) await page.getByRole("button", { name: "Try an invented example" }).click();
      await calm(page);
      const took = Date.now() - began;
      const path = new URL(page.url()).pathname;
      log.push(`${what} @${path} ${took} ms`);
      if (took > (what.startsWith("second") ? 4 * SOON : SOON)) fail(`took ${took} ms`);
      let view = await page.evaluate(look);
      for (let i = 0; i < 40 && (!view.heading || view.blank); i += 1) {
        await page.waitForTimeout(50);
        view = await page.evaluate(look);
      }
      if (!view.heading || view.blank) fail(`blank at ${path}`);
      if (view.stopped) fail("stopped");
      if (view.odd) fail(`says ${view.odd}`);
      if (seen.errors.length > 0) fail(`console: ${seen.errors.splice(0).join("; ").slice(0, 500)}`);
      if (view.stopped || !view.heading) await page.goto("/");
      if ((done + 1) % 100 === 0 || done + 1 === actions) {
        const keys = await kept(page);
        sound(keys).forEach((wrong) => fail(`kept: ${wrong}`));
        await writeFile(join(folder, `${done + 1}.json`), JSON.stringify({ kind: "tautline-rescue", keys }));
      }
      if ((done + 1) % quarter === 0) figures.push(await measured(page, cdp));
    } catch (error) {
      log.push(`${what} threw`);
      fail(String(error).replaceAll(/\s+/g, " ").slice(0, 400));
      await page.goto("/").catch(() => {});
      seen.errors.splice(0);
    }
  }
  if (process.env.SAY) console.log(log.join("\n"));
  await context.close();
  return { done, failures, figures, folder };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [actions = 2000, seed = 1] = process.argv.slice(2).map(Number);
  const app = await start();
  try {
    const began = Date.now();
    const { done, failures, figures, folder } = await soak(app, { actions, seed });
    for (const failure of failures) console.log(JSON.stringify(failure, null, 1));
    console.log(`${done} actions, seed ${seed}: ${failures.length} failures, ${Math.round((Date.now() - began) / 1000)} s`);
    for (const figure of figures) console.log(JSON.stringify(figure));
    console.log(folder);
    process.exitCode = failures.length > 0 ? 1 : 0;
  } finally {
    await app.close();
  }
}
