// The browser is killed at random moments of a walk, as by a battery that dies: opened again, the
// walk stands on the section that was on the screen, with every value that was put down.
//
// `KILLS=60 SEED=7 LATEST=0 node --test kill.test.mjs` does more, others, and at once.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { setTimeout as pause } from "node:timers/promises";
import { chromium } from "playwright-core";
import { back, cameOut, longer, newExample, section, toChair, toPlan } from "./flow.mjs";
import { DIST, FLAGS, findChromium } from "./harness.mjs";
import { serve } from "./serve.mjs";

const KILLS = Number(process.env.KILLS ?? 20);
const SEED = Number(process.env.SEED ?? 1);
// How long after the screen has shown a tap the kill may come, ms.
const LATEST = Number(process.env.LATEST ?? 300);

let server;
let profile;
// What ends each browser that is still running.
const running = new Set();
before(async () => {
  server = await serve(process.env.BUILD ?? DIST);
  profile = await mkdtemp(join(tmpdir(), "tautline-kill-"));
});
after(async () => {
  await Promise.all([...running].map((stop) => stop()));
  await server?.stop();
  await rm(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
});
// Also where the test itself is stopped.
process.once("SIGTERM", () => {
  for (const stop of running) stop();
  process.exit(1);
});

// Chance that comes out the same each time (mulberry32).
function chance(seed) {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

// A browser of its own process group on the one profile, so that all of it can be killed at once.
async function launch() {
  const told = join(profile, "DevToolsActivePort");
  await rm(told, { force: true });
  const flags = [...FLAGS, "--headless=new", "--remote-debugging-port=0", `--user-data-dir=${profile}`];
  const child = spawn(findChromium(), [...flags, "about:blank"], { detached: true, stdio: "ignore" });
  const gone = new Promise((ended) => child.once("exit", ended));
  const stop = () => {
    try { process.kill(-child.pid, "SIGKILL"); } catch { /* Gone already. */ }
    return gone;
  };
  running.add(stop);
  let lines = [];
  for (let i = 0; lines.length < 2 && i < 400; i += 1) {
    await pause(25);
    lines = (await readFile(told, "utf8").catch(() => "")).split("\n");
  }
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${lines[0]}`);
  const page = browser.contexts()[0].pages()[0];
  page.setDefaultTimeout(15_000);
  await page.setViewportSize({ width: 360, height: 740 });
  return {
    page,
    async kill() {
      await stop();
      running.delete(stop);
      await browser.close().catch(() => {});
    },
  };
}

// Every value that was put down, as the look back shows it, by the section's place.
async function allMeasured(page, address) {
  await page.goto(address.replace(/\/walk$/, "/end"));
  await page.getByRole("table").waitFor();
  const rows = await page.locator("tbody tr:not(.group)").evaluateAll((lines) =>
    lines.map((line) => [line.innerText.includes("measured"), line.cells[2].innerText]));
  const found = {};
  rows.forEach(([measured, cut], i) => { if (measured) found[i + 1] = `${cut} cm`; });
  return found;
}

// Done: from a section that was gone back to it leads to the first one that is due.
async function onward(page) {
  const { place, count } = await section(page);
  await page.getByRole("button", { name: /^Done/ }).click();
  await page.getByText(`Section ${place} of ${count}`).waitFor({ state: "detached" });
}

// A walk that begins; gives its address.
async function begin(page) {
  await newExample({ url: server.url }, page);
  await toPlan(page);
  await toChair(page);
  return page.url();
}

test("killed at random moments of a walk, it opens on the same section with every value", async (t) => {
  const next = chance(SEED);
  let phone = await launch();
  let address = await begin(phone.page);
  // What the screen has shown: where the walk stands, and the values by place.
  let place = 1;
  let values = {};
  const lost = [];
  for (let kill = 1; kill <= KILLS; kill += 1) {
    const { page } = phone;
    for (let taps = 1 + Math.floor(next() * 4); taps > 0; taps -= 1) {
      const what = next();
      // The first check of the plan is as far as this goes: nothing is put down there.
      const check = (await page.getByLabel("Came out at").count()) === 0;
      if (!check && what < 0.4) {
        await longer(page);
        values[place] = await cameOut(page);
      } else if (check || (what < 0.55 && place > 1)) {
        await back(page);
      } else {
        await onward(page);
      }
      ({ place } = await section(page));
    }
    await pause(next() * LATEST);
    await phone.kill();

    phone = await launch();
    // Half the times as from the home screen, half as a tab that the browser opens again.
    await phone.page.goto(kill % 2 ? address : `${server.url}/?start`);
    const shown = await section(phone.page).catch(() => ({ place: 0 }));
    const measured = await allMeasured(phone.page, address).catch(() => ({}));
    try {
      assert.deepEqual([shown.place, measured], [place, values]);
      await phone.page.goto(address);
      await section(phone.page);
    } catch {
      lost.push(`kill ${kill}: ${JSON.stringify([place, values])} became ${JSON.stringify([shown.place, measured])}`);
      // Go on from a walk of its own.
      address = await begin(phone.page);
      [place, values] = [1, {}];
    }
  }
  await phone.kill();
  t.diagnostic(`${KILLS - lost.length} of ${KILLS} kills lost nothing`);
  assert.deepEqual(lost, []);
});
