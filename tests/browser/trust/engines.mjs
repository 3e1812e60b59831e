// Engines: the main flow in Chromium, Firefox and WebKit, what is the same in all three, and what is said
// where a browser lacks something.
import { mkdir } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { DIST, start } from "../harness.mjs";
import { serve } from "../serve.mjs";
import { DRIVERS, missing } from "./engines/drivers.mjs";
import { run } from "./engines/flow.mjs";
import { LESS, lessOne } from "./engines/less.mjs";
import { STYLE, needed, oldest } from "./engines/needs.mjs";

export const title = "Engines";

const SHOTS = fileURLToPath(new URL("../shots/engines", import.meta.url));
const few = (found) => found.slice(0, 4).join("; ") + (found.length > 4 ? `; and ${found.length - 4} more` : "");

const flows = {};
function flow(name) {
  flows[name] ??= (async () => {
    const lacking = await missing(name);
    if (lacking) throw new Error(`There is no ${name} here: Debian's ${lacking} brings it.`);
    await mkdir(SHOTS, { recursive: true });
    const server = await serve(DIST);
    const driver = await DRIVERS[name]();
    try {
      const came = await run(driver, { url: server.url, stopServer: server.stop }, { shots: SHOTS });
      return { ...came, version: driver.version };
    } finally {
      await driver.close();
      await server.stop().catch(() => {});
    }
  })();
  return flows[name];
}

const inOne = (name) => ({
  name: `The main flow in ${name}: planned, cut, the visit, the book, everything out and in, with no network`,
  budget: "to its end, nothing wide, cut off or thrown", quick: false,
  run: async () => {
    const { version, count, seen, wide } = await flow(name);
    const figure = wide.length ? few(wide) : `${version}: ${count} sections, ${Object.keys(seen).length} screens and states read`;
    return { tries: 1, figure, well: wide.length === 0 };
  },
});

// Every ability is taken away in the long part; in the short one all at once, over a few screens.
async function lessAll(full) {
  const app = await start();
  const found = [];
  let tries = 0;
  try {
    for (const less of full ? LESS : LESS.slice(-1)) {
      const one = await lessOne(app, less, full ? {} : { screens: ["edit", "end"] });
      tries += one.tries;
      found.push(...one.found);
    }
  } finally {
    await app.close();
  }
  const figure = found.length ? few(found) : `${full ? LESS.length : 1} browsers with less, ${tries} screens and sentences`;
  return { tries, figure, well: found.length === 0 };
}

export const measures = [
  ...Object.keys(DRIVERS).map(inOne),
  {
    name: "Words and numbers on every screen of that flow, in the three engines",
    budget: "the same", quick: false,
    run: async () => {
      const all = await Promise.all(Object.keys(DRIVERS).map(async (name) => [name, (await flow(name)).seen]));
      const [[, first], ...others] = all;
      const names = Object.keys(first);
      const differ = others.flatMap(([name, seen]) => names.filter((what) => seen[what] !== first[what]).map((what) => `${what} in ${name}`));
      const targets = first.targets.split("\n").length;
      return {
        tries: names.length * others.length, well: differ.length === 0,
        figure: differ.length ? `different: ${few(differ)}` : `${names.length} screens and states alike, ${targets} targets at the chair among them`,
      };
    },
  },
  {
    name: "A browser without wake lock, vibration, speech, share, clipboard, storage, worker, IndexedDB, locks, …",
    budget: "every screen stands; words where something is missed", quick: true,
    run: lessAll,
  },
  {
    name: "Features of WebAssembly that the build needs",
    budget: "none newer than Chromium 96, Firefox 79, Safari 15", quick: true,
    run: async () => {
      const { files, features } = await needed();
      const [chromium, firefox, safari] = oldest(features);
      const styled = [0, 1, 2].map((i) => Math.max(...Object.values(STYLE).map((versions) => versions[i])));
      return {
        tries: features.length, well: files > 0 && features.length > 0 && chromium <= 96 && firefox <= 79 && safari <= 15,
        figure: `${features.join(", ")}: Chromium ${chromium}, Firefox ${firefox}, Safari ${safari}; as it is meant to look from ${styled.join(", ")}`,
      };
    },
  },
];
