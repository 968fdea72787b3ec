/** Debian's WebKitGTK: its small browser, by the driver that comes with it, on a display that nobody sees. */
import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { createServer } from "node:net";
import { vi } from "vitest";
import type { TouredBrowser, Way } from "./touredBrowser.ts";
import { type Found, isReady, WebDriverSession } from "./webDriver.ts";
import { seek, textIn } from "./witness.ts";

/** Keys as WebDriver writes them: Control held, which is let go at the end of what is sent at once; Enter. */
const SELECT_ALL = "\uE009a";
const ENTER = "\uE007";

export async function openWebKitGtk(): Promise<TouredBrowser> {
  const started: ChildProcess[] = [];
  const stop = () => {
    for (const process of started.reverse()) process.kill();
  };
  process.once("exit", stop);
  const session = await startSession(started).catch((error) => {
    stop();
    throw error;
  });
  await session.resize(1280, 900);
  const before: string[] = [];

  const found = (way: Way) => session.run<Found | null>(seek, way);
  const there = async (way: Way): Promise<Found> => {
    const element = await found(way);
    if (!element) throw new Error(`nothing in sight at ${way.join(" ")}`);
    return element;
  };
  const ofThisLoad = () => session.run<string[]>(() => (window as any).complaints);

  return {
    open: async (address) => void (await session.go(address)),
    async reload() {
      before.push(...(await ofThisLoad()));
      await session.reload();
    },
    async text(way) {
      const element = await found(way);
      return element && session.run<string>(textIn, element);
    },
    click: async (way) => void (await session.click(await there(way))),
    // the driver gives a field the focus before it types
    async type(way, text) {
      const field = await there(way);
      await session.sendKeys(field, SELECT_ALL);
      await session.sendKeys(field, text + ENTER);
    },
    run: (inPage) => session.run(inPage),
    picture: session.picture,
    complaints: async () => [...before, ...(await ofThisLoad())],
    async close() {
      await session.end();
      stop();
    },
  };
}

async function startSession(started: ChildProcess[]): Promise<WebDriverSession> {
  // it chooses a display that is free and writes its number to the fourth stream
  const display = spawn("Xvfb", ["-displayfd", "3", "-screen", "0", "1400x1000x24", "-nolisten", "tcp"], {
    stdio: ["ignore", "ignore", "ignore", "pipe"],
  });
  started.push(display);
  const [number] = await once(display.stdio[3]!, "data");
  const port = await freePort();
  started.push(
    spawn("WebKitWebDriver", [`--port=${port}`], {
      stdio: "ignore",
      env: { ...process.env, DISPLAY: `:${String(number).trim()}` },
    }),
  );
  const driver = `http://127.0.0.1:${port}`;
  // a busy machine starts slowly, which is no fault
  await vi.waitUntil(() => isReady(driver), { timeout: 60_000 });
  return WebDriverSession.open(driver, { browserName: "MiniBrowser" });
}

async function freePort(): Promise<number> {
  const server = createServer().listen(0, "127.0.0.1");
  await once(server, "listening");
  const { port } = server.address() as { port: number };
  server.close();
  return port;
}
