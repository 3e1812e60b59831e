// Which features of an engine the app needs, read out of what was built, against what is allowed: the
// oldest browsers are then known in figures.
import { readFile, readdir } from "node:fs/promises";
import { join } from "node:path";
import { DIST } from "../../harness.mjs";

// The first version of Chromium, Firefox and Safari with a feature: webassembly.org/features and MDN's
// tables of compatibility, read in November 2026.
export const WASM = {
  "mutable-globals": [74, 61, 13.1],
  "nontrapping-fptoint": [75, 64, 15],
  "bulk-memory": [75, 79, 15],
  "bulk-memory-opt": [75, 79, 15],
  "sign-ext": [74, 62, 14.1],
  "reference-types": [96, 79, 15],
  // Only a longer way to write a number.
  "call-indirect-overlong": [96, 79, 15],
  "multivalue": [85, 78, 13.1],
};

// Of style, what is worse to look at without, though every screen can still be used: the first version
// with each.
export const STYLE = {
  ":has()": [105, 121, 15.4],
  "container queries": [105, 110, 16],
  "dvh": [108, 101, 15.4],
  ":focus-visible": [86, 85, 15.4],
};

async function filesOf(folder) {
  const all = await readdir(folder, { recursive: true });
  return all.filter((name) => name.endsWith(".wasm")).map((name) => join(folder, name));
}

// The features that each wasm file of the build says it needs, all together.
export async function needed() {
  const found = new Set();
  const files = await filesOf(DIST);
  for (const file of files) {
    const module = new WebAssembly.Module(await readFile(file));
    for (const section of WebAssembly.Module.customSections(module, "target_features")) {
      const bytes = Buffer.from(section);
      // A count, then for each a sign and a name with its length before it.
      for (let at = 1; at < bytes.length;) {
        const length = bytes[at + 1];
        if (String.fromCharCode(bytes[at]) === "+") found.add(bytes.toString("latin1", at + 2, at + 2 + length));
        at += 2 + length;
      }
    }
  }
  return { files: files.length, features: [...found].sort() };
}

export const oldest = (features) => features.reduce(
  (least, name) => least.map((version, i) => Math.max(version, WASM[name]?.[i] ?? Infinity)), [0, 0, 0],
);
