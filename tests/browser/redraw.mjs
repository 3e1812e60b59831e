// Measures how long the pictures of a cut take to be drawn anew: `make redraw`, or `node redraw.mjs [PLAN…]`,
// `node redraw.mjs all`. DIST=… measures another build.
//
// In a phone-sized page slowed 4 times, with motion reduced and one section cut, from the press to the
// frame in which it is painted: the head turned one step, the outline seen from another side, the map of
// lengths as planned or as cut. "First" is worked out, "again" was shown before. A second table: from the
// press on the name of a part to its painted frame.
import { readdir } from "node:fs/promises";
import { done, newExample, toChair, toPlan } from "./flow.mjs";
import { open, quantile, start } from "./harness.mjs";

const CUTS = new URL("../../src/plan/cuts/", import.meta.url);
const USUAL = ["soft-layers-face-frame", "long-layers", "uniform-layers", "one-length-bob", "graduated-bob"];
const named = process.argv.slice(2);
const all = named[0] === "all" && (await readdir(CUTS)).map((file) => file.replace(".json", ""));
const plans = all || (named.length > 0 ? named : USUAL);
const PARTS = ["outline", "lengths", "scalp", "head"];
const PICTURES = ["head", "outline", "map"];
const ROUNDS = 3;

// Presses something; → milliseconds until the picture reads otherwise and is painted, and of it until it
// is written.
const redrawn = (page, how) => page.evaluate(({ press, key, read }) => new Promise((shown, failed) => {
  const state = () => eval(read);
  requestAnimationFrame(() => {
    const old = state();
    const on = document.querySelector(press);
    const before = performance.now();
    if (key) {
      on.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true }));
    } else {
      on.click();
    }
    let written = 0;
    let frames = 0;
    const painted = () => {
      const now = performance.now() - before;
      if (state() !== old) {
        shown({ written: written || now, painted: now });
      } else if (frames > 100) {
        failed(new Error(`${press} changes nothing`));
      } else {
        frames += 1;
        requestAnimationFrame(next);
      }
    };
    const next = () => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = painted;
      port2.postMessage(0);
    };
    // What follows of the press is done once the microtasks that it began are.
    queueMicrotask(() => queueMicrotask(() => queueMicrotask(() => {
      if (state() !== old) written = performance.now() - before;
    })));
    next();
  });
}), how);

const HEAD = "document.querySelector('#head-picture path.d-head').getAttribute('d')";
const DESC = (of) => `document.querySelector('${of} svg[role=img] title')?.textContent`;
const turn = { press: ".head-handle", key: "ArrowRight", read: HEAD };
const view = (value) => ({ press: `input[name=view][value=${value}]`, read: DESC("#outline-picture") });
const map = (value) => ({ press: `input[name=scalp][value=${value}]`, read: DESC("#scalp-picture") });

// Shows a part; → milliseconds until it stands there and is painted.
const shown = (page, part) => page.evaluate((part) => new Promise((done) => {
  requestAnimationFrame(() => {
    const link = document.querySelector(`.parts a[href$="/see/${part}"]`);
    const before = performance.now();
    link.click();
    const look = () => {
      if (link.getAttribute("aria-current") !== "page" || !document.querySelector("main svg[role=img]")) {
        setTimeout(look, 0);
        return;
      }
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => done(performance.now() - before);
        port2.postMessage(0);
      });
    };
    setTimeout(look, 0);
  });
}), part);

const ms = (all, share) => quantile(all, share).toFixed(1);
const told = (all) => `median ${ms(all, 0.5)}, 95 % ${ms(all, 0.95)} ms`;

const app = await start(process.env.DIST);
const { page, context, seen } = await app.newPhone({ reducedMotion: "reduce" });
const cdp = await context.newCDPSession(page);
const slowed = (rate) => cdp.send("Emulation.setCPUThrottlingRate", { rate });
await newExample(app, page);
await toPlan(page);
const id = page.url().split("/cut/")[1].split("/")[0];
const lists = (names) => Object.fromEntries(names.map((name) => [name, []]));
const [first, again, written] = [lists(PICTURES), lists(PICTURES), lists(PICTURES)];
const [partFirst, partAgain] = [lists(PARTS), lists(PARTS)];
const together = [];

for (const plan of plans) {
  await slowed(1);
  await page.evaluate((plan) => {
    for (const key of Object.keys(localStorage).filter((key) => key.startsWith("tautline.cut."))) {
      const { own, walk, ...cut } = JSON.parse(localStorage[key]);
      localStorage[key] = JSON.stringify({ ...cut, plan, choices: {} });
    }
  }, plan);
  await open(app, page, `/cut/${id}/plan`);
  await toChair(page);
  await done(page);
  const own = lists(PICTURES);
  const take = (into, what, sample) => {
    into[what].push(sample.painted);
    own[what].push(sample.painted);
    written[what].push(sample.written);
  };
  const to = async (part, ready) => {
    await open(app, page, `/cut/${id}/see/${part}`);
    await page.locator(ready).first().waitFor({ state: "attached" });
    await page.waitForTimeout(300);
    await slowed(4);
  };

  await to("head", "#head-picture path.d-head[d^=M]");
  for (let i = 0; i < 3; i += 1) await redrawn(page, turn);
  for (let i = 0; i < 8; i += 1) take(again, "head", await redrawn(page, turn));

  await slowed(1);
  await to("outline", "#outline-picture svg");
  for (let i = 0; i < ROUNDS; i += 1) {
    for (const from of ["right", "front", "back", "left"]) {
      const sample = await redrawn(page, view(from));
      take(i === 0 && from !== "left" ? first : again, "outline", sample);
    }
  }

  // It is there as cut, as the first; whatever is shown a first time is worked out.
  await slowed(1);
  await to("scalp", "#scalp-picture .c-hairline");
  take(first, "map", await redrawn(page, map("planned")));
  await redrawn(page, map("cut"));
  for (let i = 0; i < ROUNDS; i += 1) {
    await redrawn(page, map("order"));
    take(again, "map", await redrawn(page, map("planned")));
    take(again, "map", await redrawn(page, map("cut")));
  }
  // A build that keeps nothing takes as long again; one that keeps it is opened anew.
  for (let i = 0; i < 2; i += 1) {
    await slowed(1);
    await to("scalp", "#scalp-picture .c-hairline");
    take(first, "map", await redrawn(page, map("planned")));
  }

  await slowed(1);
  await to("head", "#head-picture path.d-head[d^=M]");
  for (const part of PARTS) partFirst[part].push(await shown(page, part));
  for (let i = 0; i < ROUNDS; i += 1) {
    for (const part of PARTS) partAgain[part].push(await shown(page, part));
  }
  const median = (what) => quantile(own[what], 0.5);
  together.push(PICTURES.reduce((sum, what) => sum + median(what), 0));
  console.log(`${plan}: ${PICTURES.map((what) => `${what} ${median(what).toFixed(1)}`).join(", ")}; together ${together.at(-1).toFixed(1)} ms`);
}
await slowed(1);
for (const what of PICTURES) {
  const worked = first[what].length > 0 ? `first ${told(first[what])}; ` : "";
  console.log(`${what}, to the painted frame: ${worked}again ${told(again[what])}; written within ${ms(written[what], 0.5)} ms`);
}
const sum = (lists) => PICTURES.reduce((all, what) => all + quantile((lists[what].length > 0 ? lists : again)[what], 0.5), 0).toFixed(1);
console.log(`head, outline and map together, median of the cuts ${ms(together, 0.5)} ms, most ${Math.max(...together).toFixed(1)} ms; sum of the medians: first ${sum(first)}, again ${sum(again)} ms`);
for (const part of PARTS) console.log(`to the part "${part}": first ${told(partFirst[part])}; again ${told(partAgain[part])}`);
if (seen.errors.length > 0) console.error(seen.errors);
await app.close();
