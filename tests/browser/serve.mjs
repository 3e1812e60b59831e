// Serves a finished build on this machine: `node serve.mjs FOLDER PORT`, or serve() from a test.
import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, resolve, sep } from "node:path";
import { pathToFileURL } from "node:url";

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

// Every path of the app is the one page: what has no extension and names no file gets it.
async function resolvePath(folder, url) {
  const path = decodeURIComponent(new URL(url, "http://localhost").pathname);
  const found = await find(folder, path);
  return found ?? (extname(path) === "" ? find(folder, "/index.html") : undefined);
}

async function respond(folder, request, response) {
  const found = await resolvePath(folder, request.url).catch(() => undefined);
  if (!found) {
    response.writeHead(404, { "content-type": "text/plain; charset=utf-8" }).end("Not found.\n");
    return;
  }
  response.writeHead(200, {
    "content-type": TYPES[extname(found.file)] ?? "application/octet-stream",
    "content-length": found.size,
    "cache-control": "no-store",
  });
  if (request.method === "HEAD") response.end();
  else createReadStream(found.file).on("error", () => response.destroy()).pipe(response);
}

// Starts serving; port 0 takes any free one. Gives { url, stop } — stop() also cuts open connections.
export async function serve(folder, port = 0) {
  const root = resolve(folder);
  const server = createServer((request, response) => respond(root, request, response));
  await new Promise((done, failed) => {
    server.once("error", failed);
    server.listen(port, "127.0.0.1", done);
  });
  const stop = () => new Promise((done) => {
    server.close(done);
    server.closeAllConnections();
  });
  return { url: `http://127.0.0.1:${server.address().port}`, stop };
}

async function main([folder, port]) {
  try {
    const { url } = await serve(folder, Number(port));
    console.log(`Tautline is ready: open ${url} in a browser (Ctrl-C here stops it).`);
  } catch (error) {
    const taken = error.code === "EADDRINUSE";
    console.error(taken ? `Port ${port} is in use. Try: make run PORT=8081` : error.message);
    process.exitCode = 1;
  }
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) await main(process.argv.slice(2));
