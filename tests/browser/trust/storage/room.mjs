// Whether the browser keeps it (asked once, answered in words), and how full it is against what is so.
import { open, start, violations } from "../../harness.mjs";
import { day } from "./day.mjs";
import { fill, follow, settled, unfill } from "./faults.mjs";

// The browser's answers, and how often it was asked, over loads too.
const answers = (answer) => {
  const count = (what) => {
    const key = `asked.${what}`;
    sessionStorage.setItem(key, String(Number(sessionStorage.getItem(key) ?? 0) + 1));
  };
  if (answer === "none") {
    Object.defineProperty(Navigator.prototype, "storage", { value: undefined });
    return;
  }
  if (answer === "throws") {
    StorageManager.prototype.persist = () => { count("persist"); throw new TypeError("no"); };
    StorageManager.prototype.persisted = () => Promise.reject(new TypeError("no"));
    return;
  }
  StorageManager.prototype.persist = async () => { count("persist"); return answer === "yes"; };
  StorageManager.prototype.persisted = async () => answer === "yes" && sessionStorage.getItem("asked.persist") !== null;
};

const SAID = { yes: "promised to clear nothing", no: "promised nothing", none: "can't be asked", throws: "can't be asked" };

async function asked(full) {
  const app = await start();
  const wrong = [];
  const all = Object.keys(SAID).slice(0, full ? undefined : 2);
  try {
    for (const answer of all) {
      const { context, page, seen } = await app.newPhone();
      await context.addInitScript(answers, answer);
      const count = () => page.evaluate(() => Number(sessionStorage.getItem("asked.persist") ?? 0));
      const say = (what) => wrong.push(`${answer}: ${what}`);
      await open(app, page, "/");
      await page.waitForTimeout(1000);
      if (await count() !== 0) say("asked at the first start");
      await page.getByRole("button", { name: "New cut" }).click();
      await page.getByRole("heading", { level: 1, name: "The head" }).waitFor();
      for (const title of ["First thing", "Second", "Third"]) {
        await page.getByLabel("Name of this cut").fill(title);
        await page.getByLabel("Name of this cut").press("Tab");
        await settled(page);
      }
      const expected = answer === "none" ? 0 : 1;
      if (await count() !== expected) say(`asked ${await count()} times`);
      await page.reload();
      await page.getByLabel("Name of this cut").fill("Fourth");
      await page.getByLabel("Name of this cut").press("Tab");
      await settled(page);
      if (await count() !== expected) say(`asked ${await count()} times after a reload`);
      await follow(page, "/keep");
      await page.locator("main").getByText(SAID[answer]).waitFor({ timeout: 3000 }).catch(() => say(`does not say “${SAID[answer]}”`));
      (await violations(page)).forEach(say);
      seen.errors.forEach(say);
      await context.close();
    }
  } finally {
    await app.close();
  }
  return { tries: all.length, figure: wrong.length === 0 ? "asked once, after the first save; the answer stands in words" : wrong.slice(0, 4).join("; "), well: wrong.length === 0 };
}

const meter = (page) => page.locator("meter#room").evaluate((el) => ({ value: Number(el.getAttribute("value")), max: Number(el.getAttribute("max")), said: el.labels[0].innerText }));

// How much there is really, in UTF-16 units of keys and texts.
const used = (page) => page.evaluate(() => Object.entries(localStorage).reduce((sum, [key, text]) => sum + key.length + text.length, 0));

async function measured() {
  const app = await start();
  const wrong = [];
  let tries = 0;
  let limit = 0;
  try {
    const { page, seen } = await app.newPhone();
    await open(app, page, "/");
    await day(page);
    for (const share of [0, 0.3, 0.79, 0.81, 0.95, 1]) {
      tries += 1;
      await follow(page, "/");
      await unfill(page);
      await page.evaluate((share) => {
        if (share === 0 || share === 1) return;
        const now = Object.entries(localStorage).reduce((sum, [key, text]) => sum + key.length + text.length, 0);
        localStorage.setItem("fill", "é".repeat(Math.floor(share * 5 * 1024 * 1024) - now - 4));
      }, share);
      if (share === 1) {
        await fill(page);
        limit = await used(page);
      }
      await follow(page, "/keep");
      const { value, max, said } = await meter(page);
      const real = await used(page);
      if (value !== real) wrong.push(`the meter says ${value} for ${real}`);
      const percent = Number(/(\d+) %/.exec(said)?.[1]);
      if (Math.abs(percent - (real / max) * 100) > 1) wrong.push(`${said} for ${real} of ${max}`);
      const warns = (await page.locator("main").getByText("There is little room left").count()) > 0;
      if (warns !== share > 0.8) wrong.push(`${percent} %: ${warns ? "warns" : "does not warn"}`);
      if (share === 1 && Math.abs(limit - max) > max * 0.005) wrong.push(`the browser's limit is ${limit}, the meter's ${max}`);
    }
    wrong.push(...seen.errors);
  } finally {
    await app.close();
  }
  return {
    tries,
    figure: wrong.length === 0 ? `exact at ${tries} fillings; Chromium's own limit ${limit} of the meter's ${5 * 1024 * 1024}` : wrong.slice(0, 4).join("; "),
    well: wrong.length === 0,
  };
}

export const room = [
  { name: "persistent storage asked for, its answer shown", budget: "once, after the first save, never at the start", quick: true, run: asked },
  { name: "the meter against the browser's real limit", budget: "within 0.5 %, warns from 80 % on", quick: true, run: measured },
];
