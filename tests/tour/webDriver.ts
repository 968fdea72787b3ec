/** The few commands of W3C WebDriver (https://www.w3.org/TR/webdriver2/) a tour needs, asked of a driver over HTTP. */

/** How the protocol names an element in JSON. */
const ELEMENT = "element-6066-11e4-a52e-4f735466cecf";

export type Found = { readonly [ELEMENT]: string };

export class WebDriverSession {
  readonly #address: string;

  private constructor(address: string) {
    this.#address = address;
  }

  /** A new session of the driver at an address. */
  static async open(driver: string, capabilities: object): Promise<WebDriverSession> {
    const { sessionId } = await ask<{ sessionId: string }>("POST", `${driver}/session`, {
      capabilities: { alwaysMatch: capabilities },
    });
    return new WebDriverSession(`${driver}/session/${sessionId}`);
  }

  resize = (width: number, height: number) => this.#post("/window/rect", { x: 0, y: 0, width, height });
  go = (url: string) => this.#post("/url", { url });
  reload = () => this.#post("/refresh", {});
  click = (element: Found) => this.#post(`/element/${element[ELEMENT]}/click`, {});
  sendKeys = (element: Found, text: string) => this.#post(`/element/${element[ELEMENT]}/value`, { text });
  picture = async () => Buffer.from(await ask<string>("GET", `${this.#address}/screenshot`), "base64");
  end = () => ask("DELETE", this.#address);

  /** What a function gives in the page, sent there as text; elements go there and back as `Found`. */
  run<T>(inPage: (...given: never[]) => unknown, ...given: unknown[]): Promise<T> {
    return this.#post<T>("/execute/sync", {
      script: `return (${inPage}).apply(null, arguments)`,
      args: given,
    });
  }

  #post<T>(path: string, body: object): Promise<T> {
    return ask<T>("POST", this.#address + path, body);
  }
}

/** Whether a driver answers at an address. */
export const isReady = (driver: string): Promise<boolean> =>
  ask<{ ready: boolean }>("GET", `${driver}/status`).then(
    ({ ready }) => ready,
    () => false,
  );

async function ask<T = unknown>(method: string, url: string, body?: object): Promise<T> {
  const response = await fetch(url, { method, ...(body && { body: JSON.stringify(body) }) });
  const { value } = (await response.json()) as { value: T & { error?: string; message?: string } };
  if (!response.ok) throw new Error(`${value.error}: ${value.message} (${method} ${new URL(url).pathname})`);
  return value;
}
