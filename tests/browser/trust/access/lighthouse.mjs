// Lighthouse's marks for the main screens, as a phone on slow 4G has them. Not in `make test`: it is heavy,
// and comes from heavy/package.json. Nothing is reported to anybody: that is a flag of its command, which is
// not used here.
import { createServer } from "node:http";
import { brotliCompressSync, constants } from "node:zlib";
import { DIST, FLAGS, findChromium } from "../../harness.mjs";
import { serve } from "../../serve.mjs";
import { heavy } from "../engines/drivers.mjs";

const LEAST = 95;
// How long a screen is left alone until the browser has put its compiled code by.
const WARM = 3_000;
// How often each screen is marked: the middle one counts, for each run has its own noise.
const RUNS = 3;
const MARKS = { performance: "performance", accessibility: "access", "best-practices": "best practices" };

// Hosts compress and let browsers keep what never changes; the little server of the tests does neither.
async function hosted() {
  const behind = await serve(DIST);
  const kept = new Map();
  const server = createServer(async (request, response) => {
    try {
      const answer = await fetch(behind.url + request.url);
      const type = answer.headers.get("content-type");
      const key = request.url;
      if (!kept.has(key)) {
        const body = Buffer.from(await answer.arrayBuffer());
        const small = /png/.test(type) ? body : brotliCompressSync(body, { params: { [constants.BROTLI_PARAM_QUALITY]: 9 } });
        kept.set(key, { small, encoded: small !== body });
      }
      const { small, encoded } = kept.get(key);
      response.writeHead(answer.status, {
        "content-type": type, "content-length": small.length, "cache-control": "max-age=600",
        ...(encoded ? { "content-encoding": "br" } : {}),
      }).end(small);
    } catch {
      response.destroy();
    }
  });
  await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
  return {
    url: `http://127.0.0.1:${server.address().port}`,
    stop: async () => {
      server.closeAllConnections();
      server.close();
      await behind.stop();
    },
  };
}

let marking;
function marked() {
  marking ??= (async () => {
    const { default: puppeteer } = await heavy("puppeteer-core");
    const { default: run } = await heavy("lighthouse");
    const app = await hosted();
    const browser = await puppeteer.launch({ executablePath: findChromium(), args: FLAGS, headless: true });
    const all = {};
    try {
      const page = await browser.newPage();
      const once = async (path, first) => {
        const { lhr } = await run(app.url + path, {
          logLevel: "silent", output: "json", onlyCategories: Object.keys(MARKS), disableStorageReset: !first,
        }, undefined, page);
        return {
          marks: Object.fromEntries(Object.entries(lhr.categories).map(([key, { score }]) => [key, Math.round(score * 100)])),
          paint: lhr.audits["first-contentful-paint"].numericValue,
          largest: lhr.audits["largest-contentful-paint"].numericValue,
          blocked: lhr.audits["total-blocking-time"].numericValue,
          shift: lhr.audits["cumulative-layout-shift"].numericValue,
          bytes: lhr.audits["total-byte-weight"].numericValue,
          lost: Object.values(lhr.audits).filter(({ score, scoreDisplayMode }) => score !== null && score < 0.9 && /numeric|binary/.test(scoreDisplayMode))
            .map(({ id, displayValue }) => `${id} ${displayValue ?? ""}`.trim()),
        };
      };
      const mark = async (name, path, { first = false } = {}) => {
        if (!first) {
          // As at every start but the first one: the browser keeps the code that it has compiled.
          for (let i = 0; i < 2; i += 1) {
            await page.goto(app.url + path);
            await new Promise((later) => { setTimeout(later, WARM); });
          }
        }
        const runs = [];
        for (let i = 0; i < (first ? 1 : RUNS); i += 1) runs.push(await once(path, first));
        all[name] = runs.sort((a, b) => a.marks.performance - b.marks.performance)[Math.floor(runs.length / 2)];
      };
      await mark("the list, first visit", "/", { first: true });
      // A cut of one's own; from here on the worker answers.
      await page.goto(`${app.url}/`);
      await page.waitForFunction(() => [...document.querySelectorAll("button")].some((b) => /invented example/.test(b.textContent)));
      await page.evaluate(() => [...document.querySelectorAll("button")].find((b) => /invented example/.test(b.textContent)).click());
      await page.waitForFunction(() => /\/cut\/.*\/head/.test(location.pathname));
      const id = new URL(page.url()).pathname.split("/")[2];
      await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
      for (const [name, path] of [["the list", "/"], ["the head", `/cut/${id}/head`], ["the plan", `/cut/${id}/plan`]]) await mark(name, path);
      await page.goto(`${app.url}/cut/${id}/walk`);
      await page.waitForFunction(() => [...document.querySelectorAll("button")].some((b) => b.textContent === "Start"));
      await page.evaluate(() => [...document.querySelectorAll("button")].find((b) => b.textContent === "Start").click());
      await page.waitForFunction(() => document.querySelector(".progress") !== null);
      for (const [name, path] of [["the chair", `/cut/${id}/walk`], ["the end", `/cut/${id}/end`], ["the book", "/book"]]) await mark(name, path);
    } finally {
      await browser.close();
      await app.stop();
    }
    return all;
  })();
  return marking;
}

export { marked };

export const lighthouse = Object.entries(MARKS).map(([key, name]) => ({
  name: `Lighthouse, ${name}: the list, head, plan, chair, end, book`,
  budget: `≥ ${LEAST} each`, quick: false,
  run: async () => {
    const all = Object.entries(await marked());
    return {
      tries: all.length,
      figure: all.map(([screen, { marks }]) => `${screen} ${marks[key]}`).join(", "),
      well: all.every(([, { marks }]) => marks[key] >= LEAST),
    };
  },
}));
