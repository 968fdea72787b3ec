// The built page from this machine to this machine, as a host that reads the page's _headers would serve it: those headers
// with everything, 304 where the browser has it, and 404 where there is nothing. By node alone: a second start waits for no bundler.
import { createReadStream, existsSync, readFileSync, statSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join, normalize, resolve, sep } from "node:path";

const TYPES = {
  ".css": "text/css; charset=utf-8",
  ".csv": "text/csv; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".mjs": "text/javascript; charset=utf-8",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".txt": "text/plain; charset=utf-8",
  ".wasm": "application/wasm",
  ".wav": "audio/wav",
  ".webmanifest": "application/manifest+json; charset=utf-8",
  ".woff": "font/woff",
  ".woff2": "font/woff2",
};

/** Name and value of every header that `_headers` has for all paths. */
export function promisedHeaders(folder) {
  const file = join(folder, "_headers");
  if (!existsSync(file)) return [];
  const [path, ...lines] = readFileSync(file, "utf8").split("\n");
  if (path.trim() !== "/*") throw new Error(`${file} begins with ${path}; its headers are to be for /*`);
  return lines
    .filter((line) => line.includes(":"))
    .map((line) => [line.slice(0, line.indexOf(":")).trim(), line.slice(line.indexOf(":") + 1).trim()]);
}

/** The file of a path; null where there is none, or none to be seen. */
function fileOf(folder, url) {
  let path;
  try {
    path = normalize(decodeURIComponent(new URL(url, "http://localhost").pathname));
  } catch {
    return null;
  }
  const file = resolve(folder, `.${path}`);
  if (file !== folder && !file.startsWith(folder + sep)) return null;
  if (path.includes("\0") || file === join(folder, "_headers") || !existsSync(file)) return null;
  if (!statSync(file).isDirectory()) return file;
  const index = join(file, "index.html");
  // relative addresses of a folder's page need the stroke at the end
  return path.endsWith("/") && existsSync(index) ? index : null;
}

const isFolder = (folder, url) => {
  const { pathname, search } = new URL(url, "http://localhost");
  return !pathname.endsWith("/") && fileOf(folder, `${pathname}/`) ? `${pathname}/${search}` : null;
};

/** A server of a folder; not listening yet. */
export function pageServer(folder) {
  const root = resolve(folder);
  const headers = promisedHeaders(root);
  return createServer((request, response) => {
    for (const [name, value] of headers) response.setHeader(name, value);
    const end = (status, text) => {
      response.writeHead(status, { "Content-Type": TYPES[".txt"] });
      response.end(request.method === "HEAD" ? undefined : text);
    };
    if (request.method !== "GET" && request.method !== "HEAD") return end(405, "Only to be read.\n");
    const file = fileOf(root, request.url);
    if (!file) {
      const folderUrl = isFolder(root, request.url);
      if (!folderUrl || folderUrl.startsWith("//")) return end(404, "There is nothing here.\n");
      response.setHeader("Location", folderUrl);
      return end(301, "");
    }
    const { size, mtimeMs } = statSync(file);
    const tag = `"${size.toString(36)}-${Math.round(mtimeMs).toString(36)}"`;
    response.setHeader("ETag", tag);
    response.setHeader("Cache-Control", "no-cache");
    if (request.headers["if-none-match"] === tag) return response.writeHead(304).end();
    response.writeHead(200, {
      "Content-Type": TYPES[extname(file)] ?? "application/octet-stream",
      "Content-Length": size,
    });
    if (request.method === "HEAD") return response.end();
    createReadStream(file).pipe(response);
  });
}

/** Listens on the port asked for, or the first free one from 4173 on; gives the address. */
export async function listen(server, { port, host = "localhost" }) {
  for (let at = port ?? 4173; ; at++) {
    try {
      await new Promise((done, fail) => {
        server.once("error", fail);
        server.listen(at, host, () => {
          server.off("error", fail);
          done();
        });
      });
      const { port: got } = server.address();
      return `http://${host.includes(":") ? `[${host}]` : host}:${got}/`;
    } catch (error) {
      const isTaken = error.code === "EADDRINUSE" && port === undefined && at < 4273;
      if (!isTaken) throw error;
    }
  }
}
