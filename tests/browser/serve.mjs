// Serves a finished build on this machine: `node serve.mjs FOLDER PORT`, or serve() from a test.
// `node serve.mjs FOLDER PORT a/b` serves it below /a/b/, and `… a/b plain` as the simplest host would.
import { createReadStream } from "node:fs";
import { readFile, stat } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, resolve, sep } from "node:path";
import { pathToFileURL } from "node:url";
import { brotliCompressSync, constants } from "node:zlib";

const TYPES = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json; charset=utf-8",
};

// The file that a request path names, or undefined. Never one outside the folder.
async function find(folder, path) {
  const file = resolve(join(folder, path));
  if (!file.startsWith(folder + sep)) return undefined;
  const found = await stat(file).catch(() => undefined);
  return found?.isFile() ? { file, size: found.size } : undefined;
}

// Where the app lies on this host, with a slash at both ends.
const inside = (under) => `/${under}/`.replaceAll(/\/+/g, "/");

// What answers an address: { found, status }. `under` is the folder of the host that the app lies in.
// Not plain: what has no extension and names no file gets the one page, for every path of the app is that.
// Plain: a host that can be told nothing; it has a page for what is not there, 404.html, as most do.
async function resolvePath(folder, url, { under, plain }) {
  const path = decodeURIComponent(new URL(url, "http://localhost").pathname);
  if (!path.startsWith(under)) return {};
  const within = path.slice(under.length - 1);
  const found = await find(folder, within.endsWith("/") ? `${within}index.html` : within);
  if (found) return { found, status: 200 };
  if (plain) return { found: await find(folder, "/404.html"), status: 404 };
  return { found: extname(within) === "" ? await find(folder, "/index.html") : undefined, status: 200 };
}

// What a good host says of every file: see "Host it" in the README.
function headers({ file, size }) {
  const named = /-[0-9a-f]{12,}[./_]/.test(file);
  return {
    "content-type": TYPES[extname(file)] ?? "application/octet-stream",
    "content-length": size,
    "cache-control": named ? "public, max-age=31536000, immutable" : "no-cache",
    "content-security-policy": "frame-ancestors 'none'",
    "referrer-policy": "no-referrer",
    "x-content-type-options": "nosniff",
  };
}

const squeezed = new Map();

// A file as most hosts send it: the same as `brotli -q 11`, made once.
export async function brotli(file) {
  if (!squeezed.has(file)) {
    const params = { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_LGWIN]: 24 };
    squeezed.set(file, brotliCompressSync(await readFile(file), { params }));
  }
  return squeezed.get(file);
}

async function respond(folder, how, request, response) {
  const { pathname } = new URL(request.url, "http://localhost");
  if (`${pathname}/` === how.under) {
    response.writeHead(301, { location: how.under }).end();
    return;
  }
  const { found, status } = await resolvePath(folder, request.url, how).catch(() => ({}));
  if (!found) {
    response.writeHead(404, { "content-type": "text/plain; charset=utf-8" }).end("Not found.\n");
    return;
  }
  if (how.brotli && /\bbr\b/.test(request.headers["accept-encoding"])) {
    const bytes = await brotli(found.file);
    response.writeHead(status, { ...headers({ ...found, size: bytes.length }), "content-encoding": "br" }).end(bytes);
    return;
  }
  response.writeHead(status, headers(found));
  if (request.method === "HEAD") response.end();
  else createReadStream(found.file).on("error", () => response.destroy()).pipe(response);
}

// Starts serving; port 0 takes any free one. Gives { url, stop } — stop() also cuts open connections.
//   under    the folder of the host that the app lies in, "" for its top; url has no slash at its end
//   plain    answers an address with no file by 404.html, not by the page
//   brotli   compresses for browsers that take it
//   fault    (request, response, go) for tests: answers as it likes; go() answers as usual
export async function serve(folder, port = 0, { under = "", plain = false, brotli = false, fault = (_, __, go) => go() } = {}) {
  const root = resolve(folder);
  const how = { under: inside(under), plain, brotli };
  const server = createServer((request, response) =>
    fault(request, response, () => respond(root, how, request, response)));
  await new Promise((done, failed) => {
    server.once("error", failed);
    server.listen(port, "127.0.0.1", done);
  });
  const stop = () => new Promise((done) => {
    server.close(done);
    server.closeAllConnections();
  });
  return { url: `http://127.0.0.1:${server.address().port}${how.under.slice(0, -1)}`, stop };
}

async function main([folder, port, under = "", how = ""]) {
  try {
    const { url } = await serve(folder, Number(port), { under, plain: how === "plain" });
    console.log(`Tautline is ready: open ${url} in a browser (Ctrl-C here stops it).`);
  } catch (error) {
    const taken = error.code === "EADDRINUSE";
    console.error(taken ? `Port ${port} is in use. Try: make run PORT=8081` : error.message);
    process.exitCode = 1;
  }
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) await main(process.argv.slice(2));
