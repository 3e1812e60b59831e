// A restless hand at the chair: presses, types and turns back at random, and looks after every action whether
// what was put down is still kept and what is shown can be cut. By hand:
//
//   node monkey_chair.mjs [ACTIONS a plan] [SEED] [PLAN ids, separated by commas]
//
//   chairMonkey(app, options)  → { done, failures }: `options` are { plan, seed, actions, until }
//
// After every action: a heading is seen, nothing was written to the console as an error, the app did not stop,
// the kept cut reads, a target is no less than nothing and no longer than the hair was, and every value that
// was put down is kept until it is taken back.
import { fileURLToPath } from "node:url";
import { newExample, unpacked } from "./flow.mjs";
import { open, start, workerReady } from "./harness.mjs";
import { PLANS, random } from "./monkey.mjs";

// Nothing that a person did may take longer, ms, on a busy machine.
const SOON = 5000;
const TYPED = ["", " ", "abc", "1e999", "-3", "0", "0.1", "2", "12", "17.4 cm", "7 3/8 in", "30", "100", "500", "🙂", "½"];
const KEYS = ["PageDown", "ArrowRight", " ", "Enter", "PageUp", "ArrowLeft", "Tab", "Escape", "PageDown", "PageDown"];
const BUTTONS = [
  "Done", "Done", "Done", "Done", "Done", "Back", "Back", "Length", "Hold", "How", "Result", "Result", "Turn",
  "Shorter", "Shorter", "Longer", "Keep the plan", "Follow it", "Take it back", "Match it", "Back to the plan's length",
  "Pause", "Go on", "Overview", "Close", "Back to the section", "All right", "Planned and cut", "Back to the chair", "To go to",
];

// In the page: presses the first or last button seen whose text begins so; says what was pressed.
function press([text, which]) {
  const seen = (el) => el.checkVisibility() && !el.disabled;
  const named = (el) => (el.textContent || el.getAttribute("aria-label") || "").trim().startsWith(text);
  const all = text === "To go to"
    ? [...document.querySelectorAll(".overview .steps button")]
    : [...document.querySelectorAll("main button, main a.button")].filter((el) => seen(el) && named(el));
  if (all.length === 0) return "";
  const el = all[Math.floor(which * all.length)];
  el.click();
  return el.textContent.trim().slice(0, 50);
}

function type([text, which]) {
  const fields = [...document.querySelectorAll("main input[type=text]")].filter((el) => el.checkVisibility());
  if (fields.length === 0) return "";
  const el = fields[Math.floor(which * fields.length)];
  el.focus();
  el.value = text;
  for (const event of ["input", "change"]) el.dispatchEvent(new Event(event, { bubbles: true }));
  return `${el.id} := ${text}`;
}

function look() {
  const heading = [...document.querySelectorAll("h1")].some((h) => h.getClientRects().length > 0 && h.innerText.trim() !== "");
  const main = document.querySelector("main")?.innerText ?? "";
  const [, cut] = Object.entries(localStorage).find(([key]) => key.startsWith("tautline.cut.")) ?? [];
  const settings = JSON.parse(localStorage.getItem("tautline.settings") ?? "{}");
  return {
    heading, cut, unit: settings.unit ?? "cm", stopped: document.getElementById("stopped") !== null,
    odd: /\bNaN\b|\binf\b|undefined|(?<![\d–])-\d/.exec(main)?.[0],
    number: document.querySelector(".target-number")?.textContent ?? "",
    wide: document.documentElement.scrollWidth - innerWidth,
  };
}

// `8 1/2 in` or `21.5cm` as a number.
function read(text) {
  const [, whole, part] = /^(-?[\d.]+)?(?:\s*(\d+\/\d+))?/.exec(text.trim()) ?? [];
  const [up, down] = (part ?? "0/1").split("/").map(Number);
  return Number(whole ?? 0) + up / down;
}

// What was put down of a walk: sections, checks, matches.
function values(walk) {
  const key = (k) => `${k.step} ${k.side} ${k.number}`;
  const all = new Map();
  for (const d of walk?.done ?? []) if (d.came_out_at !== undefined) all.set(key(d.key), d.came_out_at);
  for (const c of walk?.checked ?? []) all.set(`check ${key(c.key)} ${c.place}`, c.length);
  for (const m of walk?.matched ?? []) all.set(`match ${key(m.key)}`, m.length);
  return all;
}

export async function chairMonkey(app, { plan, seed, actions, until = Infinity }) {
  const chance = random(seed);
  const { context, page, seen } = await app.newPhone();
  page.setDefaultTimeout(15000);
  const [failures, log] = [[], []];
  const fail = (what) => failures.push({ plan, seed, step: log.length, what, last: log.slice(-6) });
  await newExample(app, page);
  // From then on it answers every address; before, a cold one is looked for (climb.js).
  await workerReady(page);
  const id = new URL(page.url()).pathname.split("/")[2];
  await page.evaluate(([id, plan]) => {
    const key = Object.keys(localStorage).find((k) => k.startsWith(`tautline.cut.${id}.`));
    localStorage.setItem(key, JSON.stringify({ ...JSON.parse(localStorage.getItem(key)), plan }));
  }, [id, plan]);
  const settled = () => page.evaluate(() => new Promise((done) => { requestAnimationFrame(() => setTimeout(done, 0)); }));
  const walk = `/cut/${id}/walk`;
  await open(app, page, walk);
  await page.evaluate(press, ["Start", 0]);
  await settled();
  // No hair of the example is longer than this before the cut, cm: from the crown to the waist.
  const longest = 75;
  let [done, was] = [0, values(null)];
  for (; done < actions && failures.length < 8 && Date.now() < until; done += 1) {
    const dice = chance.next();
    const began = Date.now();
    let what = "";
    try {
      if (dice < 0.12) what = `typed ${await page.evaluate(type, [chance.of(TYPED), chance.next()])}`;
      else if (dice < 0.2) {
        const key = chance.of(KEYS);
        await page.keyboard.press(key);
        what = `key ${key}`;
      } else if (dice < 0.23) {
        const button = page.locator("button.done");
        const box = (await button.count()) > 0 ? await button.boundingBox() : null;
        if (box) await page.mouse.dblclick(box.x + box.width / 2, box.y + box.height / 2);
        what = "double tap";
      } else if (dice < 0.26) {
        await page.reload();
        await page.getByRole("heading", { level: 1 }).first().waitFor();
        what = "reload";
      } else if (dice < 0.275) {
        await page.goBack({ waitUntil: "commit" }).catch(() => {});
        what = "browser back";
      } else if (dice < 0.31) {
        // Inches, American words, the left hand, the client looks on, and back.
        const change = chance.of([{ unit: "inches" }, { unit: "cm" }, { usage: "us" }, { usage: "uk" }, { hand: "left" }, { hand: "right" }, { seen: true }, { seen: false }]);
        await page.evaluate((change) => localStorage.setItem("tautline.settings", JSON.stringify({ ...JSON.parse(localStorage.getItem("tautline.settings") ?? "{}"), ...change })), change);
        await page.reload();
        await page.getByRole("heading", { level: 1 }).first().waitFor();
        what = `set ${JSON.stringify(change)}`;
      } else what = `pressed ${await page.evaluate(press, [chance.of(BUTTONS), chance.next()])}`;
      await settled();
      const took = Date.now() - began;
      let view = await page.evaluate(look);
      for (let i = 0; i < 40 && !view.heading; i += 1) {
        await page.waitForTimeout(50);
        view = await page.evaluate(look);
      }
      const path = new URL(page.url()).pathname;
      log.push(`${what} @${path.split("/").slice(3).join("/") || path} ${view.number} ${took} ms`);
      if (took > SOON) fail(`took ${took} ms`);
      if (!view.heading) fail("no heading");
      if (view.stopped) fail("stopped");
      if (view.odd) fail(`says ${view.odd}`);
      if (view.wide > 0) fail(`${view.wide} px too wide`);
      if (seen.errors.length > 0) fail(`console: ${seen.errors.splice(0).join("; ").slice(0, 400)}`);
      const is = view.cut ? unpacked(view.cut).walk : null;
      if (!is) fail("the walk is gone");
      const now = values(is);
      const taken = /Take it back|Back to the plan/.test(what) ? 1 : 0;
      const lost = [...was.keys()].filter((key) => !now.has(key));
      if (lost.length > taken) fail(`lost: ${lost.join(", ")}`);
      was = now;
      if (new Set(is?.done.map((d) => JSON.stringify(d.key))).size !== is?.done.length) fail("a section stands twice");
      if (view.number !== "") {
        const cm = read(view.number) * (view.unit === "inches" ? 2.54 : 1);
        if (!(cm >= 0 && cm <= longest)) fail(`a target of ${view.number}`);
      }
      if (path !== walk && !path.endsWith("/end")) {
        await page.goto(app.url + walk);
        await page.getByRole("heading", { level: 1 }).first().waitFor();
      }
    } catch (error) {
      log.push(`${what} threw`);
      fail(String(error).slice(0, 300));
      await page.goto(app.url + walk).catch(() => {});
      await page.waitForTimeout(300);
    }
  }
  if (process.env.SAY) console.log(log.join("\n"));
  await context.close();
  return { done, failures };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [actions = 300, seed = Date.now() % 100000] = process.argv.slice(2, 4).map(Number);
  const plans = process.argv[4]?.split(",") ?? PLANS;
  const app = await start();
  let [total, failed] = [0, 0];
  const began = Date.now();
  try {
    for (const [i, plan] of plans.entries()) {
      const { done, failures } = await chairMonkey(app, { plan, seed: seed + i, actions });
      total += done;
      failed += failures.length;
      console.log(`${plan} seed ${seed + i}: ${done} actions, ${failures.length} failures`);
      for (const failure of failures) console.log(JSON.stringify(failure, null, 1));
    }
  } finally {
    await app.close();
  }
  console.log(`${total} actions, ${failed} failures, ${Math.round((Date.now() - began) / 1000)} s`);
  process.exitCode = failed > 0 ? 1 : 0;
}
