// The first visit: the first screen first, then the worker's files, each once, all or none.
import { start, workerReady } from "../../harness.mjs";
import { hosted } from "../../hosted.mjs";

const FINGERPRINT = /-[0-9a-f]{12,}[./_]/;
const wait = (ms) => new Promise((done) => { setTimeout(done, ms); });

// One browser, and a host whose faults are set as it goes.
async function visiting(run) {
  const host = await hosted();
  const app = await start();
  try {
    return await run(host, app, () => app.newPhone({ baseURL: host.url }));
  } finally {
    await app.close();
    await host.close();
  }
}

const caches = (page) => page.evaluate(() => globalThis.caches.keys());

// The app's code comes late, as over a slow network: nothing of the worker may be asked for before the
// first screen, however idle the line looks.
async function firstScreenFirst(slow) {
  return visiting(async (host, _, newPhone) => {
    let asked;
    host.fault = (request, _response, go) => {
      if (request.url.endsWith("/sw.js")) asked ??= Date.now();
      if (request.url.includes(".wasm")) setTimeout(go, slow);
      else go();
    };
    const { page } = await newPhone();
    await page.addInitScript(() => {
      const watched = new MutationObserver(() => {
        if (document.querySelector("#app h1")) globalThis.stoodAt ??= Date.now();
      });
      watched.observe(document, { childList: true, subtree: true });
    });
    await page.goto(host.url);
    await workerReady(page);
    const stood = await page.evaluate(() => globalThis.stoodAt);
    return { tries: 1, figure: `asked for ${asked - stood} ms after the first screen stood`, well: asked >= stood };
  });
}

async function eachOnce() {
  return visiting(async (host, _, newPhone) => {
    const { page } = await newPhone();
    await page.goto(host.url);
    await workerReady(page);
    const named = [...host.asked].filter(([path]) => FINGERPRINT.test(path));
    const twice = named.filter(([, times]) => times > 1).map(([path]) => path);
    return { tries: named.length, figure: twice.length ? `twice: ${twice}` : "each once", well: named.length > 10 && !twice.length };
  });
}

// The network dies at some file of the install: nothing is kept of it, the app goes on, and the next visit
// installs it whole.
async function diesHalfWay(full) {
  return visiting(async (host, _, newPhone) => {
    const all = ["icons/icon-512.png", "manifest.webmanifest", "climb.js", "icons/maskable.svg"];
    const tried = full ? all : all.slice(0, 1);
    for (const lost of tried) {
      host.fault = (request, response, go) => {
        if (!request.url.endsWith(lost)) return go();
        response.writeHead(200, { "content-length": 5000 });
        response.write("half");
        setTimeout(() => response.destroy(), 50);
      };
      const { context, page } = await newPhone();
      await page.goto(host.url);
      await page.getByRole("heading", { level: 1 }).first().waitFor();
      const until = Date.now() + 8_000;
      while (!host.asked.has(`/${lost}`) && Date.now() < until) await wait(50);
      await wait(300);
      const left = (await caches(page)).filter((name) => !name.startsWith("tautline-state"));
      if (left.length) throw new Error(`${lost}: ${left} is left`);
      host.fault = undefined;
      await page.reload();
      await workerReady(page);
      host.asked.clear();
      await context.close();
    }
    return { tries: tried.length, figure: `${tried.length} of ${tried.length}`, well: true };
  });
}

export const install = [
  {
    name: "first visit: the worker's files wait for the first screen",
    budget: "not before it",
    quick: true,
    run: () => firstScreenFirst(1_500),
  },
  { name: "first visit: files with a fingerprint are fetched once", budget: "once each", quick: true, run: eachOnce },
  {
    name: "first visit: the network dies half-way through the install",
    budget: "nothing half kept, the app goes on, whole at the next visit",
    run: diesHalfWay,
  },
];
