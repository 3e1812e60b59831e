// What the app is built of: licences, sources, known faults. What can't be asked here is said, never left out
// silently.
import { execFile } from "node:child_process";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";

const ROOT = join(fileURLToPath(new URL(".", import.meta.url)), "../../../..");

// → { code, out }, whatever becomes of it; code "ENOENT" where there is no such command.
async function run(command, words, options = {}) {
  try {
    const { stdout, stderr } = await promisify(execFile)(command, words, { cwd: ROOT, maxBuffer: 1e8, ...options });
    return { code: 0, out: stdout + stderr };
  } catch (error) {
    return { code: error.code, out: `${error.stdout ?? ""}${error.stderr ?? ""}` || String(error.message) };
  }
}

const deny = (what) => run("cargo-deny", ["--offline", "--config", ".ci/deny.toml", "check", "--hide-inclusion-graph", ...what]);

async function crates() {
  const { code, out } = await deny(["licenses", "bans", "sources"]);
  if (code === "ENOENT") return { tries: 0, figure: "cargo-deny is not installed: make trust installs it", well: false };
  const twice = new Set([...out.matchAll(/found \d+ duplicate entries for crate '([^']+)'/g)].map(([, name]) => name));
  const lock = await readFile(join(ROOT, "Cargo.lock"), "utf8");
  const count = lock.match(/^\[\[package\]\]$/gm).length;
  const errors = out.match(/^error.*$/gm) ?? [];
  return {
    tries: count,
    figure: errors.length ? [...new Set(errors)].join("; ") : `${count} crates (tests and tools too), ${twice.size} in two versions`,
    well: code === 0,
  };
}

// The database of advisories is a git repository, npm's an address of the registry: either may be out of reach.
async function advisories() {
  const said = [];
  let found = false;
  // Asks for the database; --offline would only do where it was fetched before.
  const rust = await run("cargo-deny", ["--config", ".ci/deny.toml", "check", "advisories"], { timeout: 120_000 });
  if (rust.code === 0) said.push("crates: none known");
  else if (/^error\[(?:vulnerability|unsound|yanked|unmaintained)/m.test(rust.out)) { found = true; said.push(`crates: ${rust.out.match(/^error.*$/gm).join("; ")}`); }
  else said.push(rust.code === "ENOENT" ? "crates: NOT ASKED, cargo-deny is not installed" : "crates: NOT ASKED, RustSec's database is out of reach here");
  const npm = await run("npm", ["audit", "--json"], { cwd: join(ROOT, "tests/browser"), timeout: 60_000 });
  const answer = JSON.parse(/^\{[\s\S]*\}/m.exec(npm.out)?.[0] ?? "{}");
  const total = answer.metadata?.vulnerabilities?.total;
  if (total === undefined) said.push("npm: NOT ASKED, the registry does not answer that here");
  else { found ||= total > 0; said.push(`npm: ${total} known`); }
  return { tries: said.filter((text) => !text.includes("NOT ASKED")).length, figure: said.join("; "), well: !found };
}

// Every package is pinned with the digest of its content, from no address of its own.
async function pinned() {
  const cargo = await readFile(join(ROOT, "Cargo.lock"), "utf8");
  const blocks = cargo.split("[[package]]").slice(1).filter((block) => !/name = "tautline"/.test(block));
  const loose = blocks.filter((block) => !/\nchecksum = "[0-9a-f]{64}"/.test(block) || !/source = "registry\+/.test(block));
  const lock = JSON.parse(await readFile(join(ROOT, "tests/browser/package-lock.json"), "utf8"));
  const packages = Object.entries(lock.packages).filter(([name]) => name !== "");
  const bare = packages.filter(([, { integrity, resolved }]) => !integrity || resolved);
  const { devDependencies } = JSON.parse(await readFile(join(ROOT, "tests/browser/package.json"), "utf8"));
  const ranges = Object.values(devDependencies).filter((version) => !/^\d+\.\d+\.\d+$/.test(version));
  const faults = [...loose.map((block) => block.split("\n")[1]), ...bare.map(([name]) => name), ...ranges];
  const tries = blocks.length + packages.length;
  return { tries, figure: faults.length ? faults.join("; ") : `${blocks.length} crates and ${packages.length} npm packages, each by its digest; nothing of npm is shipped`, well: !faults.length };
}

export const dependencies = [
  { name: "licences, sources, double versions of all crates (cargo deny)", budget: "as .ci/deny.toml has it", run: crates },
  { name: "known faults of crates and npm packages, as far as the registries reach", budget: "none known; what was not asked is said", run: advisories },
  { name: "every dependency pinned by its digest", budget: "all", quick: true, run: pinned },
];
