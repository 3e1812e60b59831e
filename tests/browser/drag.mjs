// Measures how fast the plan follows a dragged elevation: `make drag`.
//
// Every cut whose steps have an elevation, every such step, in a phone-sized page; first as fast as
// this machine is, then slowed 4 times. A sample runs from the slider's input event in a frame to
// the end of that frame, when lengths, fall and weight are painted.
import { newExample, toPlan } from "./flow.mjs";
import { quantile, start } from "./harness.mjs";

const PLANS = process.argv.slice(2);
const USUAL = ["soft-layers-face-frame", "graduated-bob", "uniform-layers", "long-layers"];

// Drags the open step's elevation up and down, one move a frame; → milliseconds of each move.
function drag(page) {
  return page.evaluate(async () => {
    const slider = document.querySelector("#elevation").closest(".dial").querySelector("[type=range]");
    const from = Number(slider.value);
    const frame = (work) => new Promise((done) => {
      requestAnimationFrame(() => {
        const before = performance.now();
        work();
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => done(performance.now() - before);
        // Answered once this frame is laid out and painted.
        port2.postMessage(0);
      });
    });
    const samples = [];
    for (let move = 0; move < 60; move += 1) {
      const to = Math.max(0, Math.min(180, from + 25 * Math.sin(move / 6)));
      samples.push(await frame(() => {
        slider.value = String(Math.round(to));
        slider.dispatchEvent(new Event("input", { bubbles: true }));
      }));
    }
    return samples.slice(5);
  });
}

const app = await start();
const { page, context, seen } = await app.newPhone();
const cdp = await context.newCDPSession(page);
await newExample(app, page);
await toPlan(page);
const id = page.url().split("/cut/")[1].split("/")[0];
const all = { 1: [], 4: [] };
for (const plan of PLANS.length > 0 ? PLANS : USUAL) {
  await page.evaluate((plan) => {
    for (const key of Object.keys(localStorage).filter((k) => k.startsWith("tautline.cut."))) {
      const { own, ...cut } = JSON.parse(localStorage[key]);
      localStorage[key] = JSON.stringify({ ...cut, plan, choices: {} });
    }
  }, plan);
  await page.goto(`${app.url}/cut/${id}/edit`);
  await page.getByRole("heading", { level: 1, name: "Change the plan" }).waitFor();
  const steps = page.locator(".steps button");
  for (let i = 0; i < await steps.count(); i += 1) {
    await steps.nth(i).click();
    if ((await page.locator("#elevation").count()) === 0) continue;
    for (const rate of [1, 4]) {
      await cdp.send("Emulation.setCPUThrottlingRate", { rate });
      const samples = await drag(page);
      all[rate].push(...samples);
      const [half, most] = [0.5, 0.95].map((q) => quantile(samples, q).toFixed(1));
      console.log(`${plan}, step ${i + 1}, slowed ${rate}x: median ${half} ms, 95 % ${most} ms`);
    }
    await cdp.send("Emulation.setCPUThrottlingRate", { rate: 1 });
  }
}
for (const rate of [1, 4]) {
  const [half, most] = [0.5, 0.95].map((q) => quantile(all[rate], q).toFixed(1));
  console.log(`all, slowed ${rate}x: median ${half} ms, 95 % ${most} ms of ${all[rate].length} moves`);
}
if (seen.errors.length > 0) console.error(seen.errors);
await app.close();
