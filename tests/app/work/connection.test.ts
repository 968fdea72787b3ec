import { expect, it, vi } from "vitest";
import { connectionTo } from "../../../src/app/work/connection.ts";

it("is ended once, however many questions the worker died over", () => {
  const { port1, port2 } = new MessageChannel();
  const terminate = vi.fn();
  const connection = connectionTo(Object.assign(port1, { terminate }) as unknown as Worker);
  connection.terminate();
  expect(() => connection.terminate()).not.toThrow();
  expect(terminate).toHaveBeenCalledTimes(1);
  port1.close();
  port2.close();
});
