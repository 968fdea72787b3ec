import { describe, expect, it } from "vitest";
import { ofCode } from "../../scripts/strings.mjs";

const texts = (code: string): string[] => ofCode("a.ts", code).map(({ text }: { text: string }) => text);

describe("the list of what a person reads", () => {
  it("has sentences, labels and what html shows, with their holes; no styles, keys or addresses", () => {
    const code = `import { css } from "lit";
      const said = \`Opening the gap by \${mm} lowers pitch\`;
      const styles = css\`.gap { color: red; }\`;
      const field = { "not this": words("Cup depth", { hint: "From the rim." }) };
      root.querySelector("annulus-gap .slider");
      if (kind === "some thing") go("#measure");
      html\`<p class="lead big">The gap is <b>\${gap}</b> wide.</p><button aria-label="Close it">x</button>\`;`;
    expect(texts(code)).toEqual([
      "Opening the gap by {…} lowers pitch",
      "Cup depth",
      "From the rim.",
      "The gap is {…} wide.",
      "Close it",
    ]);
  });
});
