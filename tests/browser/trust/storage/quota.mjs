// No room left: at any write of a day, and really, to the last sign.
import { readFile } from "node:fs/promises";
import { open, start, violations } from "../../harness.mjs";
import { TYPED, day, missing, takeIn } from "./day.mjs";
import { alerts, fill, follow, kept, setFault, settled, sound, unfill, withFault } from "./faults.mjs";

const SAID = "no room left";

// One day with a fault; what went wrong in it.
async function dayWith(app, fault) {
  const { context, page, seen } = await app.newPhone();
  page.setDefaultTimeout(10_000);
  const wrong = [];
  try {
    await withFault(context);
    await open(app, page, "/");
    await page.waitForTimeout(50);
    await setFault(page, fault);
    const made = await day(page);
    wrong.push(...made.problems);
    const during = await kept(page);
    // What the day deletes may still be named: its documents go first, and the index finds no room.
    wrong.push(...sound(during).filter((what) => !what.startsWith("tautline.cut.of-the-file.")));
    // Whatever is not kept by now is said.
    const lacks = missing(during, made);
    const said = await alerts(page);
    if (lacks.length > 0 && !said.includes(SAID)) wrong.push(`not kept and not said: ${lacks[0]}`);
    if (fault.from === 1 && lacks.length === 0) wrong.push("the fault did nothing");
    // Room again: what waited is kept, and the work goes on.
    await setFault(page, {});
    await tryAgain(page);
    if (!made.taken) {
      made.taken = await takeIn(page);
      if (!made.taken) wrong.push("the file is not taken in with room");
    }
    await settled(page);
    if ((await alerts(page)).includes(SAID)) wrong.push("still said with room");
    const after = await kept(page);
    wrong.push(...sound(after), ...missing(after, made));
    await page.reload();
    await page.getByRole("heading", { level: 1 }).first().waitFor();
    const opened = await kept(page);
    wrong.push(...sound(opened), ...missing(opened, made), ...seen.errors);
  } catch (error) {
    wrong.push(String(error).replaceAll(/\s+/g, " ").slice(0, 250));
  }
  await context.close();
  return wrong.map((what) => `${JSON.stringify(fault)}: ${what}`);
}

// Presses it where it is: it is tried again by itself too, and may be gone in between.
const tryAgain = (page) => page.evaluate(() => {
  [...document.querySelectorAll(".trouble button")].find((button) => button.innerText === "Try again")?.click();
});

// How many writes a day has.
async function writes(app) {
  const { context, page } = await app.newPhone();
  await withFault(context);
  await open(app, page, "/");
  await setFault(page, {});
  await day(page);
  const count = await page.evaluate(() => globalThis.writes);
  await context.close();
  return count;
}

async function anyWrite(full) {
  const app = await start();
  try {
    const count = await writes(app);
    const every = Array.from({ length: count }, (_, i) => i + 1);
    const some = full ? every : [1, 3, Math.floor(count / 2)];
    const faults = some.flatMap((n) => (full ? [{ from: n }, { only: n }] : [n % 2 ? { from: n } : { only: n }]));
    const wrong = [];
    // Two at a time.
    const next = async () => {
      for (let fault = faults.shift(); fault; fault = faults.shift()) wrong.push(...await dayWith(app, fault));
    };
    const tries = faults.length;
    await Promise.all([next(), next()]);
    const bad = new Set(wrong.map((line) => line.split(":").slice(0, 2).join(":"))).size;
    return {
      tries,
      figure: wrong.length === 0 ? `${tries} of ${tries} days lost nothing (${count} writes a day)` : `${bad} of ${tries}: ${wrong.slice(0, 4).join("; ")}`,
      well: wrong.length === 0,
    };
  } finally {
    await app.close();
  }
}

// The real limit: everything goes on, also over a reload, and a file has it all.
async function reallyFull(full) {
  const app = await start();
  const wrong = [];
  const spares = full ? [0, 40, 300, 900, 2500, 6000] : [0];
  try {
    for (const spare of spares) {
      const { context, page, seen } = await app.newPhone({ acceptDownloads: true });
      page.setDefaultTimeout(10_000);
      const say = (what) => wrong.push(`${spare} to spare: ${what}`);
      await open(app, page, "/");
      await fill(page, spare);
      const made = await day(page);
      made.problems.forEach(say);
      // With enough to spare a day may fit after all.
      const lacks = async () => spare === 0 || missing(await kept(page), made).length > 0;
      if (await lacks() && !(await alerts(page)).includes(SAID)) say("nothing is said");
      (await violations(page)).forEach(say);
      sound(await kept(page)).forEach(say);
      // Loaded again without room: the journal has it.
      await page.waitForTimeout(300);
      await page.reload();
      await page.locator(".cuts .title").getByText(TYPED.title).waitFor();
      if (await lacks() && !(await alerts(page)).includes(SAID)) say("nothing is said after a reload");
      await follow(page, "/keep");
      const download = page.waitForEvent("download");
      await page.getByRole("button", { name: "Save everything as a file" }).click();
      const file = JSON.parse(await readFile(await (await download).path(), "utf8"));
      const cut = file.cuts.find((c) => c.id === made.cut);
      if (cut?.visit?.notes !== TYPED.notes || cut?.walk?.done.length !== made.count) say("the file lacks what was done");
      await unfill(page);
      await follow(page, "/");
      await tryAgain(page);
      await page.getByText(SAID).waitFor({ state: "detached" });
      made.taken = await takeIn(page);
      if (!made.taken) say("the file is not taken in with room");
      const texts = await kept(page);
      [...sound(texts), ...missing(texts, made), ...seen.errors].forEach(say);
      await context.close();
    }
  } finally {
    await app.close();
  }
  return {
    tries: spares.length,
    figure: wrong.length === 0 ? "all kept once there was room, also over a reload without" : wrong.slice(0, 4).join("; "),
    well: wrong.length === 0,
  };
}

const BUDGET = "nothing lost, said plainly, kept once there is room";
export const quota = [
  { name: "quota exceeded at the n-th write of a day, all after it or only it", budget: BUDGET, quick: true, run: anyWrite },
  { name: "local storage really full (5 Mi signs)", budget: BUDGET, quick: true, run: reallyFull },
];
