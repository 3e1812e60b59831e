// A long day over the whole app, offline, and what memory came to.
import { spawn } from "node:child_process";
import { readdir, rm } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { start } from "../harness.mjs";
import { leaks } from "../leak.mjs";
import { soak } from "../soak.mjs";

const ROOT = fileURLToPath(new URL("../../..", import.meta.url));
const SEED = 8;
// How much more the end may take than the first quarter. Judgement: what is kept grows a little too.
const HEAP = { share: 1.25, more: 3 };
const WASM = { share: 1.25, more: 8 };
const NODES = { share: 1.25, more: 1500 };

// One soak for all three rows, the deep look over what it kept included.
let ran;
function once(full) {
  ran ??= run(full);
  return ran;
}

async function run(full) {
  const app = await start();
  try {
    return await soak(app, { actions: full ? 2000 : 100, seed: SEED });
  } finally {
    await app.close();
  }
}

async function acted(full) {
  const { done, failures } = await once(full);
  const first = failures.slice(0, 3).map(({ step, what, last }) => `${step}: ${what} (${last.at(-1)})`).join("; ");
  return { tries: done, figure: failures.length === 0 ? `${done} of ${done} (seed ${SEED})` : `${failures.length} failures: ${first}`, well: failures.length === 0 };
}

const within = (from, to, { share, more }) => to <= Math.max(from * share, from + more);

async function memory(full) {
  const { figures } = await once(full);
  const [from, to] = [figures[0], figures.at(-1)];
  const told = (name, digits = 0) => `${from[name].toFixed(digits)} → ${to[name].toFixed(digits)}`;
  return {
    tries: figures.length,
    figure: `JS heap ${told("heap", 1)} MB, wasm ${told("wasm", 1)} MB, nodes ${told("nodes")}, listeners ${told("listeners")}`,
    well: within(from.heap, to.heap, HEAP) && within(from.wasm, to.wasm, WASM) && within(from.nodes, to.nodes, NODES) && within(from.listeners, to.listeners, NODES),
  };
}

// Each screen opened and left again and again.
async function screens() {
  const times = 25;
  const app = await start();
  try {
    const found = await leaks(app, times);
    const left = found.filter(({ nodes, listeners, kilobytes }) => nodes > times || listeners > times || kilobytes > 500);
    const most = (what) => Math.max(...found.map((screen) => screen[what]));
    return {
      tries: found.length * times,
      figure: `at most ${most("nodes")} nodes, ${most("listeners")} listeners, ${most("kilobytes")} kB more${left.length > 0 ? `: ${left.map(({ path }) => path).join(", ")}` : ""}`,
      well: left.length === 0,
    };
  } finally {
    await app.close();
  }
}

// Natively: every document reads and unpacks, walks are followed again, indexes and lines say what is there.
async function held(full) {
  const { folder } = await once(full);
  const count = (await readdir(folder)).length;
  const child = spawn("cargo", ["test", "--locked", "--test", "kept", "--", "--nocapture"], { cwd: ROOT, env: { ...process.env, KEPT: folder } });
  let said = "";
  for (const stream of [child.stdout, child.stderr]) stream.on("data", (data) => { said += data; });
  const code = await new Promise((ended) => child.once("exit", ended));
  const well = code === 0 && said.includes(`${count} stores looked over`);
  if (well) await rm(folder, { recursive: true, force: true });
  return { tries: count, figure: well ? `${count} of ${count} stores sound` : said.slice(-400), well };
}

export const title = "Soak";
export const measures = [
  { name: "random actions over the whole app, offline: no error, no blank screen, nothing stopped", budget: "2,000", quick: true, run: acted },
  { name: "memory after the first quarter → at the end", budget: "flat: at most a quarter more", quick: true, run: memory },
  { name: "each of 25 screens opened and left 25 times", budget: "less than a node, a listener and 20 kB a time stay", quick: false, run: screens },
  { name: "every hundred actions every document looked over natively", budget: "every invariant holds", quick: true, run: held },
];
