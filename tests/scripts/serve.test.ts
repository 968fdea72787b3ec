/** `npm start` serves the built page as a host that reads its `_headers` would. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { listen, pageServer } from "../../scripts/serve.mjs";

const root = mkdtempSync(join(tmpdir(), "annulus-serve-"));
const server = pageServer.bind(null, join(root, "page"));
let running: ReturnType<typeof server>;
let address = "";

beforeAll(async () => {
  mkdirSync(join(root, "page/notebooks/assets"), { recursive: true });
  writeFileSync(join(root, "secret.txt"), "not the page's");
  writeFileSync(
    join(root, "page/_headers"),
    "/*\n  Content-Security-Policy: default-src 'none'; frame-ancestors 'none'\n  X-Content-Type-Options: nosniff\n  Referrer-Policy: no-referrer\n",
  );
  writeFileSync(join(root, "page/index.html"), "<p>page</p>");
  writeFileSync(join(root, "page/notebooks/index.html"), "<p>notebooks</p>");
  writeFileSync(join(root, "page/notebooks/assets/a.js"), "export {}");
  running = server();
  address = await listen(running, { port: 0, host: "127.0.0.1" });
});
afterAll(() => {
  running.close();
  rmSync(root, { recursive: true });
});

test("everything comes with what _headers promises, also notebooks and what is not there", async () => {
  const paths = ["", "index.html", "notebooks/", "notebooks/assets/a.js", "nothing"];
  for (const path of paths) {
    const { headers } = await fetch(address + path);
    expect(headers.get("content-security-policy"), path).toContain("frame-ancestors 'none'");
    expect(headers.get("x-content-type-options"), path).toBe("nosniff");
    expect(headers.get("referrer-policy"), path).toBe("no-referrer");
  }
});

test("unknown paths are not found, and not the page", async () => {
  for (const path of ["nothing", "explore/none.js", "notebooks/none.html", "_headers", "notebooks/assets/"]) {
    const answer = await fetch(address + path);
    expect(answer.status, path).toBe(404);
    expect(await answer.text()).not.toContain("page</p>");
  }
});

test("nothing outside the page's folder is read", async () => {
  for (const path of [
    "/../secret.txt",
    "/%2e%2e/secret.txt",
    "/notebooks/..%2f..%2fsecret.txt",
    "/%00",
    "/%zz",
  ])
    expect(await statusOf(path), path).toBe(404);
});

test("files have their types, a folder its page, and what the browser has is not sent again", async () => {
  const script = await fetch(`${address}notebooks/assets/a.js`);
  expect(script.headers.get("content-type")).toMatch(/^text\/javascript/);
  expect(await (await fetch(`${address}notebooks`)).text()).toBe("<p>notebooks</p>");
  const first = await fetch(address);
  expect(first.headers.get("content-type")).toMatch(/^text\/html/);
  const again = await fetch(address, { headers: { "If-None-Match": first.headers.get("etag")! } });
  expect(again.status).toBe(304);
  expect((await fetch(address, { method: "POST" })).status).toBe(405);
});

/** By a client that sends a path as it is. */
const statusOf = (path: string): Promise<number | undefined> =>
  new Promise((done, fail) => {
    const { hostname, port } = new URL(address);
    request({ hostname, port, path }, (answer) => {
      answer.resume();
      done(answer.statusCode);
    })
      .on("error", fail)
      .end();
  });
