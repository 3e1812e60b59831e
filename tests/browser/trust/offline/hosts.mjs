// Every address, cold: from hosts of every kind, and with no network at all.
import { start, workerReady } from "../../harness.mjs";
import { addresses, filled, hosted, profile, screenAt } from "../../hosted.mjs";

const KINDS = [
  ["top", {}],
  ["/a/b/", { under: "a/b" }],
  ["/a/b/, plain", { under: "a/b", plain: true }],
  ["top, plain", { plain: true }],
];

// With no worker, as a first visit has none: every address is asked of the host.
async function coldLinks(kind, full) {
  const app = await start(undefined, kind);
  try {
    const { page } = await app.newPhone({ serviceWorkers: "block" });
    await filled(app, page);
    // Where fewer must do: one of each depth.
    const all = (await addresses(page)).filter((_, i) => full || i % 6 === 3);
    for (const path of all) await screenAt(page, `${app.url}/${path}`);
    return all.length;
  } finally {
    await app.close();
  }
}

// A browser that is closed and opened again, with the server gone meanwhile.
async function coldOffline(kind, full) {
  const host = await hosted(kind);
  const phone = await profile();
  try {
    const first = await phone.open(host.url);
    await filled(host, first.page);
    await workerReady(first.page);
    const all = (await addresses(first.page)).filter((_, i) => full || i % 12 === 6);
    await first.close();
    await host.stop();
    for (const path of all) {
      const cold = await phone.open(host.url);
      await screenAt(cold.page, `${host.url}/${path}`);
      if (cold.seen.errors.length || cold.seen.failed.length) throw new Error(`${path}: ${[...cold.seen.errors, ...cold.seen.failed]}`);
      await cold.close();
    }
    return all.length;
  } finally {
    await host.close();
    await phone.remove();
  }
}

async function over(kinds, once, full) {
  let tries = 0;
  for (const [, kind] of kinds) tries += await once(kind, full);
  return { tries, figure: `${tries} of ${tries}: ${kinds.map(([name]) => name).join("; ")}`, well: true };
}

export const anyHost = [
  {
    name: "every address opened cold, without a worker, on any host and folder",
    budget: "its own screen at its own address",
    quick: true,
    run: (full) => over(full ? KINDS : [KINDS[2]], coldLinks, full),
  },
  {
    name: "every address in a browser started anew with no network",
    budget: "its own screen, no error in the console",
    quick: true,
    run: (full) => over(full ? KINDS.slice(0, 2) : [KINDS[1]], coldOffline, full),
  },
];
