// Prints what each file of dist/ weighs, plain and as a host would send it: `make size`.
import { readdir, readFile } from "node:fs/promises";
import { join, relative } from "node:path";
import { DIST } from "./harness.mjs";
import { brotli as squeeze } from "./serve.mjs";

const line = (raw, brotli, name) =>
  console.log(`${String(raw).padStart(10)} ${String(brotli).padStart(10)}  ${name}`);

line("raw", "brotli", "file");
let [rawSum, brotliSum] = [0, 0];
const entries = await readdir(DIST, { recursive: true, withFileTypes: true });
const files = entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
for (const file of files.sort()) {
  const bytes = await readFile(file);
  const brotli = (await squeeze(file)).length;
  line(bytes.length, brotli, relative(DIST, file));
  rawSum += bytes.length;
  brotliSum += brotli;
}
line(rawSum, brotliSum, "in all");
