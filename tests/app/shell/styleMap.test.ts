// @vitest-environment jsdom
import { html, render } from "lit";
import { expect, test, vi } from "vitest";
import { type StyleInfo, styleMap } from "../../../src/app/shell/look/styleMap.ts";

test("styles are set, changed and taken away without ever writing a style attribute", () => {
  const write = vi.spyOn(Element.prototype, "setAttribute");
  const root = document.createElement("div");
  const show = (info: StyleInfo) => {
    render(html`<p style=${styleMap(info)}></p>`, root);
    return root.querySelector("p")!.style;
  };
  expect(show({ backgroundColor: "red", "--position": "3%", width: null }).cssText).toBe(
    "background-color: red; --position: 3%;",
  );
  expect(show({ "--position": 4, color: "blue !important" }).cssText).toBe(
    "--position: 4; color: blue !important;",
  );
  expect(show({}).cssText).toBe("");
  expect(write.mock.calls.filter(([name]) => name === "style")).toEqual([]);
});

test("a place that is not a whole style attribute is refused", () => {
  const root = document.createElement("div");
  expect(() => render(html`<p title=${styleMap({})}></p>`, root)).toThrow("style attribute");
  expect(() => render(html`<p style="color: red; ${styleMap({})} ${""}"></p>`, root)).toThrow("all of it");
});
