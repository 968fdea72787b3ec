import { expect, test } from "vitest";
import demoFile from "../../../shared/demo.setup.json" with { type: "json" };
import { demoDocument } from "../../../src/app/state/keeping/demo.ts";
import { readSetup } from "../../../src/setup/file/readSetup.ts";

test("the demo, which no page holds against the schema, passes it and reads the same", () => {
  expect(demoDocument().setup).toEqual(readSetup(demoFile));
});
