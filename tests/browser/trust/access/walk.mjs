// One walk over every state, with every look at each of them.
//
//   walk(full)  → { states, looks }: looks is name → { tries, found }, found one line each; without
//               full only the states that are quick, and fewer looks. The same walk serves every measure.
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { start } from "../../harness.mjs";
import { QUIET, pale } from "./ink.mjs";
import * as looks from "./looks.mjs";
import { STATES, WORLDS, go } from "./states.mjs";

const PHONE = { width: 360, height: 740 };
// 1280 × 800 at 200 %, and the width that WCAG's reflow asks for.
const ZOOMED = { width: 640, height: 400 };
const NARROW = { width: 320, height: 568 };
const TABLET = { width: 768, height: 1024 };
const DESK = { width: 1280, height: 800 };
const LIGHT = { colorScheme: "light", forcedColors: "none", reducedMotion: "no-preference" };

// Letters and lines as far apart as WCAG's text spacing asks for (1.4.12).
const SPACING = `* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important }
  p { margin-bottom: 2em !important }`;

const AXE = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

// Every rule of axe that is stable, best practices and the size of targets too.
async function axe(page) {
  await page.evaluate(AXE);
  const found = await page.evaluate(async () => {
    // What lies under the bar at the foot comes out with a scroll (Tab does it: the focus is looked at below),
    // but would count as a smaller target here.
    const bars = [...document.querySelectorAll(".onward")];
    for (const bar of bars) bar.style.position = "static";
    const found = await globalThis.axe.run({ rules: { "target-size": { enabled: true } } });
    for (const bar of bars) bar.style.position = "";
    return found;
  });
  return found.violations.flatMap(({ id, help, nodes }) => nodes.map((node) => `${id}: ${help}: ${node.target.join(" ")}`));
}

// Goes through the page with Tab, or backwards with Shift+Tab.
async function tabbed(page, key) {
  await page.evaluate(() => { globalThis.lookedAt = new Map(); });
  const want = await page.evaluate(looks.stops);
  const found = [];
  const met = new Set();
  let out = 0;
  let round = "";
  for (let i = 0; i < 500 && out < 2; i += 1) {
    await page.keyboard.press(key);
    const at = await page.evaluate(looks.focused);
    // Once round, from wherever it began: the page is left twice.
    if (at === null) {
      out += 1;
      continue;
    }
    if (met.has(at.place)) {
      // A day is told in parts, each a stop of its own.
      if (at.day) continue;
      // Round, or caught somewhere: that shows in what was not reached.
      round = at.name;
      break;
    }
    met.add(at.place);
    if (!at.seen && !at.hushed) found.push(`not seen when focused: ${at.name}`);
    if (at.ring < 3) found.push(`no ring, or a faint one (${at.ring.toFixed(2)}): ${at.name}`);
  }
  // The button that moves the page goes where there is no more to read.
  const least = Math.min(want, await page.evaluate(looks.stops));
  if (met.size < least) found.push(`${key} reaches ${met.size} of ${least} controls, then ${round || "leaves the page"}`);
  return { found, tries: met.size };
}

// All looks at one state that stands.
async function lookAll(page, state, put, full) {
  const one = async (name, run) => {
    const found = await run();
    put(name, state.name, found);
  };
  const see = (run, argument) => page.evaluate(run, argument);
  const begin = () => page.evaluate(looks.COMMON);
  const media = (more) => page.emulateMedia({ ...LIGHT, ...more });
  await begin();
  await one("axe", () => axe(page));
  await one("targets", () => see(looks.small, state.chair ? 48 : 24));
  await one("edges", () => see(looks.faint));
  await one("alike", () => see(looks.alike));
  const ink = async () => {
    const { found, unsaid } = await see(pale, Object.keys(QUIET));
    return [...found, ...unsaid.map((what) => `no words: ${what}`)];
  };
  await one("ink", ink);
  await media({ colorScheme: "dark" });
  await one("axe", () => axe(page));
  await one("edges", () => see(looks.faint));
  await one("ink", ink);
  await media({ forcedColors: "active" });
  await one("forced", ink);
  await one("forced", () => see(looks.alike));
  await one("forced", () => see(looks.plated));
  await media({ forcedColors: "active", colorScheme: "dark" });
  await one("forced", ink);
  await one("forced", () => see(looks.plated));
  await media({ reducedMotion: "reduce" });
  await one("motion", () => see(looks.moving));
  await media({});

  const sized = async (name, size, before, after) => {
    await page.setViewportSize(size);
    await before?.();
    await page.waitForTimeout(60);
    await one(name, async () => [...await see(looks.wide), ...await see(looks.lost)]);
    await after?.();
  };
  const letters = (size) => () => see((size) => { document.documentElement.style.fontSize = size; }, size);
  await sized("reflow", NARROW);
  await sized("zoom", ZOOMED);
  await sized("zoom", PHONE, letters("200%"), letters(""));
  await sized("spacing", PHONE, () => see((css) => {
    // The page's own policy lets no style into it as an element.
    const style = new CSSStyleSheet();
    style.replaceSync(css);
    document.adoptedStyleSheets = [style];
  }, SPACING), () => see(() => { document.adoptedStyleSheets = []; }));
  if (full) {
    for (const size of [TABLET, DESK]) {
      await page.setViewportSize(size);
      await page.waitForTimeout(60);
      await one("axe", () => axe(page));
      await one("reflow", async () => [...await see(looks.wide), ...await see(looks.lost)]);
    }
  }
  const keys = async (size, key) => {
    await page.setViewportSize(size);
    const { found, tries } = await tabbed(page, key);
    put("focus", state.name, found, tries);
  };
  await keys(PHONE, "Tab");
  if (full) await keys(ZOOMED, "Shift+Tab");
  await page.setViewportSize(PHONE);
}

async function walkAll(full, only = () => true) {
  const app = await start();
  const phones = {};
  const all = {};
  const put = (name, where, found, tries = 1) => {
    all[name] ??= { tries: 0, found: [] };
    all[name].tries += tries;
    all[name].found.push(...found.map((what) => `${where}: ${what}`));
  };
  let states = 0;
  try {
    for (const state of STATES.filter((state) => (full || state.quick) && only(state))) {
      phones[state.world] ??= await (async () => {
        const phone = await app.newPhone();
        phone.page.setDefaultTimeout(20_000);
        return { ...phone, ids: await WORLDS[state.world](app, phone.page) };
      })();
      const { page, seen, ids } = phones[state.world];
      try {
        await go(app, page, state, ids);
        states += 1;
        await lookAll(page, state, put, full);
      } catch (error) {
        put("reached", state.name, [String(error?.message ?? error).split("\n")[0]]);
        await page.emulateMedia(LIGHT).catch(() => {});
        await page.setViewportSize(PHONE).catch(() => {});
      }
      put("errors", state.name, seen.errors.splice(0));
    }
  } finally {
    await app.close();
  }
  return { states, looks: all };
}

const walks = {};
export const walk = (full, only) => (only ? walkAll(full, only) : walks[full] ??= walkAll(full));
