// Measures how long the pictures of a cut take to be drawn: `make redraw`. In a phone-sized page slowed 4
// times: from the press that shows head, outline, lengths or scalp to the frame in which it is painted, for
// every built-in cut; the first time, when hair must fall first, and again.
import { readdir } from "node:fs/promises";
import { newExample, toPlan } from "./flow.mjs";
import { open, quantile, start } from "./harness.mjs";

const CUTS = new URL("../../src/plan/cuts/", import.meta.url);
const named = process.argv.slice(2);
const plans = named.length > 0 ? named : (await readdir(CUTS)).map((file) => file.replace(".json", ""));
const PARTS = ["outline", "lengths", "scalp", "head"];

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

const told = (all) => `median ${quantile(all, 0.5).toFixed(0)}, 95 % ${quantile(all, 0.95).toFixed(0)}, `
  + `most ${Math.max(...all).toFixed(0)} ms`;

const app = await start();
const { page, context, seen } = await app.newPhone();
const cdp = await context.newCDPSession(page);
await newExample(app, page);
await toPlan(page);
const id = page.url().split("/cut/")[1].split("/")[0];
const first = Object.fromEntries(PARTS.map((part) => [part, []]));
const again = Object.fromEntries(PARTS.map((part) => [part, []]));
const together = [];
for (const plan of plans) {
  await cdp.send("Emulation.setCPUThrottlingRate", { rate: 1 });
  await page.evaluate((plan) => {
    for (const key of Object.keys(localStorage).filter((key) => key.startsWith("tautline.cut."))) {
      const { own, walk, ...cut } = JSON.parse(localStorage[key]);
      localStorage[key] = JSON.stringify({ ...cut, plan, choices: {} });
    }
  }, plan);
  await open(app, page, `/cut/${id}/see/head`);
  await cdp.send("Emulation.setCPUThrottlingRate", { rate: 4 });
  for (const part of PARTS) first[part].push(await shown(page, part));
  const last = {};
  for (let i = 0; i < 4; i += 1) {
    for (const part of PARTS) {
      last[part] = await shown(page, part);
      again[part].push(last[part]);
    }
    together.push(last.head + last.outline + last.scalp);
  }
  console.log(`${plan}: ${PARTS.map((part) => `${part} ${first[part].at(-1).toFixed(0)}, ${last[part].toFixed(0)}`).join("; ")} ms`);
}
for (const part of PARTS) console.log(`${part}: first ${told(first[part])}; again ${told(again[part])}`);
console.log(`map, outline and head together, again: ${told(together)}`);
if (seen.errors.length > 0) console.error(seen.errors);
await app.close();
