// Measures the chair: `make next`. From a press of Done to the frame in which the next section is painted,
// for every section of every built-in cut, in a phone-sized page slowed 4 times; then from a value put down
// to the frame that shows it, and to the line that says what follows it.
import { readdir } from "node:fs/promises";
import { newExample, toPlan } from "./flow.mjs";
import { quantile, start } from "./harness.mjs";

const CUTS = new URL("../../src/plan/cuts/", import.meta.url);
const named = process.argv.slice(2);
const plans = named.length > 0 ? named : (await readdir(CUTS)).map((file) => file.replace(".json", ""));

// Presses a button in a frame; → milliseconds until that frame is laid out and painted.
const painted = (page, selector) => page.evaluate((selector) => new Promise((done) => {
  requestAnimationFrame(() => {
    const before = performance.now();
    document.querySelector(selector).click();
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => done(performance.now() - before);
    port2.postMessage(0);
  });
}), selector);

// Puts a value down; → milliseconds until what follows is said otherwise than before, if it is.
const said = (page) => page.evaluate(() => new Promise((done) => {
  const line = () => document.querySelector(".follows")?.textContent;
  const [was, before] = [line(), performance.now()];
  const watch = new MutationObserver(() => {
    if (line() === was || line() === "Put down.") return;
    watch.disconnect();
    done(performance.now() - before);
  });
  watch.observe(document.querySelector(".came-out"), { subtree: true, childList: true, characterData: true });
  setTimeout(() => done(null), 3000);
  document.querySelector(".came-out .stepper button").click();
}));

const told = (all) => `median ${quantile(all, 0.5).toFixed(0)} ms, 95 % ${quantile(all, 0.95).toFixed(0)} ms, `
  + `most ${Math.max(...all).toFixed(0)} ms of ${all.length}`;

const app = await start();
const { page, context, seen } = await app.newPhone();
const cdp = await context.newCDPSession(page);
await newExample(app, page);
await toPlan(page);
const id = page.url().split("/cut/")[1].split("/")[0];
const moves = [];
const values = [];
const lines = [];
for (const plan of plans) {
  await cdp.send("Emulation.setCPUThrottlingRate", { rate: 1 });
  // By hand, as another plan of the same cut; the page is loaded anew below.
  await page.evaluate((plan) => {
    for (const key of Object.keys(localStorage).filter((key) => key.startsWith("tautline.cut."))) {
      const { own, walk, ...cut } = JSON.parse(localStorage[key]);
      localStorage[key] = JSON.stringify({ ...cut, plan, choices: {} });
    }
  }, plan);
  await page.goto(`${app.url}/cut/${id}/walk`);
  await page.getByRole("button", { name: "Start" }).click();
  const count = Number((await page.getByText(/^Section 1 of/).innerText()).match(/of (\d+)/)[1]);
  await cdp.send("Emulation.setCPUThrottlingRate", { rate: 4 });
  const own = [];
  for (let i = 1; i < count; i += 1) own.push(await painted(page, ".done"));
  moves.push(...own);
  await page.reload();
  await page.getByText(`Section ${count} of`).waitFor();
  const back = [];
  for (let i = 1; i < count; i += 1) back.push(await painted(page, ".back"));
  moves.push(...back);
  // On the first section, which most often guides the rest.
  const put = [];
  for (let i = 0; i < 6; i += 1) put.push(await painted(page, ".came-out .stepper button"));
  values.push(...put);
  for (let i = 0; i < 3; i += 1) {
    const after = await said(page);
    if (after !== null) lines.push(after);
  }
  console.log(`${plan}: ${told([...own, ...back])}; a value: ${told(put)}`);
}
console.log(`next section, slowed 4x: ${told(moves)}`);
console.log(`a value put down, slowed 4x: ${told(values)}`);
console.log(`what follows it, slowed 4x: ${told(lines)}`);
if (seen.errors.length > 0) console.error(seen.errors);
await app.close();
