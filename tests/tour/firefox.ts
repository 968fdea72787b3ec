/** Debian's Firefox by WebDriver BiDi, which Firefox speaks by itself. */
import puppeteer, { type ElementHandle } from "puppeteer-core";
import type { TouredBrowser, Way } from "./touredBrowser.ts";
import { seek, textIn } from "./witness.ts";

export async function openFirefox(): Promise<TouredBrowser> {
  const browser = await puppeteer.launch({
    browser: "firefox",
    executablePath: "/usr/bin/firefox-esr",
    headless: true,
    // a busy machine starts slowly, which is no fault
    timeout: 120_000,
    defaultViewport: { width: 1280, height: 900 },
  });
  const page = await browser.newPage();
  page.setDefaultTimeout(120_000);
  const complaints: string[] = [];
  page.on("console", (message) => message.type() === "error" && complaints.push(message.text()));
  page.on("pageerror", (error) => complaints.push(String(error)));

  const found = async (way: Way): Promise<ElementHandle<Element> | null> =>
    (await page.evaluateHandle(seek, way)).asElement() as ElementHandle<Element> | null;
  const there = async (way: Way): Promise<ElementHandle<Element>> => {
    const element = await found(way);
    if (!element) throw new Error(`nothing in sight at ${way.join(" ")}`);
    return element;
  };

  return {
    open: async (address) => void (await page.goto(address)),
    reload: async () => void (await page.reload()),
    text: async (way) => (await found(way))?.evaluate(textIn) ?? null,
    click: async (way) => (await there(way)).click(),
    async type(way, text) {
      const field = await there(way);
      await field.click({ count: 3 });
      await field.type(text);
      await field.press("Enter");
    },
    run: (inPage) => page.evaluate(inPage),
    picture: () => page.screenshot(),
    complaints: async () => complaints,
    close: () => browser.close(),
  };
}
