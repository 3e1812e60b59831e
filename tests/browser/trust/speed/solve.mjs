// Whole plans worked out in the browser, against the same code built for this machine: `src/bin/solve.rs`,
// built as the app is.
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { DIST, start } from "../../harness.mjs";

const ROOT = join(DIST, "..");
const TARGET = process.env.CARGO_TARGET_DIR ?? join(ROOT, "target");
const ROUNDS = 15;

const make = (...words) => execFileSync("make", ["--no-print-directory", ...words], { cwd: ROOT, encoding: "utf8" });

// → the shortest time of each plan, ms, in order; the large one first.
async function inBrowser(page, bytes) {
  return page.evaluate(async ({ code, rounds }) => {
    const bytes = Uint8Array.from(atob(code), (letter) => letter.charCodeAt(0));
    const module = await WebAssembly.compile(bytes);
    // The library names functions of the page, which this work never calls.
    const imports = {};
    for (const { module: from, name, kind } of WebAssembly.Module.imports(module)) {
      (imports[from] ??= {})[name] = kind === "function" ? () => { throw new Error(name); } : undefined;
    }
    const { exports } = await WebAssembly.instantiate(module, imports);
    const times = [];
    for (let plan = 0; plan < exports.plans(); plan += 1) {
      let shortest = Infinity;
      for (let round = 0; round < rounds; round += 1) {
        const from = performance.now();
        if (exports.solve(plan, 1) === 0) throw new Error(`plan ${plan} is not worked out`);
        shortest = Math.min(shortest, performance.now() - from);
      }
      times.push(shortest);
    }
    return times;
  }, { code: Buffer.from(bytes).toString("base64"), rounds: ROUNDS });
}

export async function solved(ratio, most) {
  make("solve");
  const native = JSON.parse(execFileSync(join(TARGET, "release/solve"), { encoding: "utf8" }));
  const bytes = readFileSync(join(ROOT, "target/phone/solve.wasm"));
  const app = await start();
  try {
    const { page } = await app.newPhone();
    await page.goto(app.url);
    const here = await inBrowser(page, bytes);
    const there = Object.values(native);
    const all = Object.keys(native).map((name, i) => ({ name, here: here[i], there: there[i], ratio: here[i] / there[i] }));
    const [large, ...built] = all;
    const worst = built.sort((a, b) => b.ratio - a.ratio)[0];
    const longest = [...built].sort((a, b) => b.here - a.here)[0];
    const middle = [...built].sort((a, b) => a.here - b.here)[Math.floor(built.length / 2)];
    return {
      tries: all.length * ROUNDS,
      figure: `${large.here.toFixed(1)} ms; ${large.there.toFixed(1)} ms (${large.ratio.toFixed(2)} ×); built-in plans: middle ${middle.here.toFixed(1)} ms, longest ${longest.name} ${longest.here.toFixed(1)} ms, worst ratio ${worst.ratio.toFixed(2)} ×`,
      well: large.ratio <= ratio && large.here <= most,
    };
  } finally {
    await app.close();
  }
}
