// Measures how fast the head turns under a dragging hand: `node turn.mjs [PLAN…]`.
//
// Held and let down, in a phone-sized page; first as fast as this machine is, then slowed 4 times. A sample
// runs from the pointer's move in a frame to the end of that frame; frames a second are counted over a
// whole turn.
import { newExample } from "./flow.mjs";
import { quantile, start } from "./harness.mjs";

const PLANS = process.argv.slice(2);
const USUAL = ["soft-layers-face-frame", "long-layers", "uniform-layers"];

function drag(page) {
  return page.evaluate(async () => {
    const own = document.querySelector(".head-handle");
    own.setPointerCapture = () => {};
    const box = own.getBoundingClientRect();
    const at = (type, x) => own.dispatchEvent(new PointerEvent(type, {
      bubbles: true, pointerType: "touch", pointerId: 7, clientX: x, clientY: box.y + 50, button: 0,
    }));
    const drawn = [];
    const outline = document.querySelector("#head-picture path.d-head");
    let last = "";
    at("pointerdown", box.x);
    const began = performance.now();
    for (let move = 1; move <= 90; move += 1) {
      const before = performance.now();
      // Two moves a frame, as a fast finger makes them.
      at("pointermove", box.x + move * 4 - 2);
      at("pointermove", box.x + move * 4);
      await new Promise((done) => {
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel();
          // Answered once this frame is laid out and painted.
          port1.onmessage = done;
          port2.postMessage(0);
        });
      });
      const now = outline.getAttribute("d");
      drawn.push([performance.now() - before, now !== last]);
      last = now;
    }
    const took = performance.now() - began;
    at("pointerup", box.x);
    return {
      samples: drawn.slice(5).map(([ms]) => ms),
      fps: (drawn.filter(([, changed]) => changed).length * 1000) / took,
    };
  });
}

// The work of one redraw alone: a key's press, until all is written, laid out and painted in a frame.
function redraw(page) {
  return page.evaluate(async () => {
    const own = document.querySelector(".head-handle");
    const samples = [];
    for (let i = 0; i < 30; i += 1) {
      await new Promise((done) => {
        requestAnimationFrame(() => {
          const before = performance.now();
          own.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowRight", bubbles: true }));
          const { port1, port2 } = new MessageChannel();
          port1.onmessage = () => { samples.push(performance.now() - before); done(); };
          port2.postMessage(0);
        });
      });
    }
    return samples.slice(3);
  });
}

const app = await start();
const { page, context, seen } = await app.newPhone();
const cdp = await context.newCDPSession(page);
await newExample(app, page);
const id = page.url().split("/cut/")[1].split("/")[0];
for (const plan of PLANS.length > 0 ? PLANS : USUAL) {
  await page.evaluate((plan) => {
    for (const key of Object.keys(localStorage).filter((k) => k.startsWith("tautline.cut."))) {
      const { own, ...cut } = JSON.parse(localStorage[key]);
      localStorage[key] = JSON.stringify({ ...cut, plan, choices: {} });
    }
  }, plan);
  await page.goto(`${app.url}/cut/${id}/see/head?at=9`);
  await page.locator("#head-picture path.d-head[d^=M]").waitFor({ state: "attached" });
  for (const hair of ["Held", "Let down"]) {
    await page.getByText(hair, { exact: true }).click();
    await page.waitForTimeout(300);
    for (const rate of [1, 4]) {
      await cdp.send("Emulation.setCPUThrottlingRate", { rate });
      const { samples, fps } = await drag(page);
      const pressed = await redraw(page);
      const told = (all) => [0.5, 0.95].map((q) => quantile(all, q).toFixed(1)).join(" / ");
      console.log(`${plan}, ${hair}, slowed ${rate}x: ${fps.toFixed(0)} frames/s; frame ${told(samples)} ms; `
        + `one redraw ${told(pressed)} ms (median / 95 %)`);
    }
    await cdp.send("Emulation.setCPUThrottlingRate", { rate: 1 });
  }
}
if (seen.errors.length > 0) console.error(seen.errors);
await app.close();
