// How long a start takes, from the navigation to the frame in which the first screen can be used.
import { newExample, toChair, toPlan } from "../../flow.mjs";
import { open, quantile, start, workerReady } from "../../harness.mjs";

// Slow 4G as the developer tools of browsers apply it to each request: 1.6 Mbit/s and a turn of 150 ms,
// of which a tenth and 3.75 times are taken for what lies below the requests.
const SLOW_4G = { offline: false, latency: 150 * 3.75, downloadThroughput: 1.6e6 / 8 * 0.9, uploadThroughput: 750e3 / 8 * 0.9 };

// Has the page write down when an element of this kind is painted, ms since the navigation began.
const watch = (page, selector) => page.addInitScript((selector) => {
  const look = () => {
    if (!document.querySelector(selector)) return requestAnimationFrame(look);
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => { globalThis.usable = performance.now(); };
    requestAnimationFrame(() => port2.postMessage(0));
    return undefined;
  };
  look();
}, selector);

const usable = (page) => page.waitForFunction(() => globalThis.usable).then((found) => found.jsonValue());

const told = (times, most) => {
  const median = quantile(times, 0.5);
  return {
    tries: times.length,
    figure: `median ${(median / 1000).toFixed(2)} s, ${(Math.min(...times) / 1000).toFixed(2)} to ${(Math.max(...times) / 1000).toFixed(2)}`,
    well: median <= most,
  };
};

export async function firstVisit(tries, most) {
  const app = await start(undefined, { brotli: true });
  try {
    const times = [];
    for (let i = 0; i < tries; i += 1) {
      const { context, page } = await app.newPhone();
      const cdp = await context.newCDPSession(page);
      await cdp.send("Network.enable");
      await cdp.send("Network.emulateNetworkConditions", SLOW_4G);
      await cdp.send("Emulation.setCPUThrottlingRate", { rate: 4 });
      await watch(page, "main .actions button.main");
      await page.goto(app.url);
      times.push(await usable(page));
      await context.close();
    }
    return told(times, most);
  } finally {
    await app.close();
  }
}

export async function offlineStart(where, tries, most) {
  const app = await start();
  try {
    const { context, page } = await app.newPhone();
    await newExample(app, page);
    await toPlan(page);
    await toChair(page);
    const chair = page.url();
    await open(app, page);
    await workerReady(page);
    await app.stopServer();
    const times = [];
    for (let i = 0; i < tries; i += 1) {
      // A window of its own each time, with nothing in its memory.
      const fresh = await context.newPage();
      const cdp = await context.newCDPSession(fresh);
      await cdp.send("Emulation.setCPUThrottlingRate", { rate: 4 });
      await watch(fresh, where === "walk" ? "button.done" : "main .actions button.main");
      await fresh.goto(where === "walk" ? chair : `${app.url}/`);
      times.push(await usable(fresh));
      await fresh.close();
    }
    return told(times, most);
  } finally {
    await app.close();
  }
}
