/** What runs inside the toured page. Each function is sent there as text, so it uses nothing from around itself. */

/** Takes down errors on the console, uncaught ones, what could not be loaded, and violations of the page's policy. */
export function watch(): void {
  const complaints: string[] = [];
  const complain = (of: string) => complaints.push(`${location.hash || "at first"}: ${of}`);
  (window as any).complaints = complaints;
  const { error } = console;
  console.error = (...said: unknown[]) => {
    complain(said.map(String).join(" "));
    error.apply(console, said);
  };
  addEventListener(
    "error",
    (event) => {
      const failed = event.target as HTMLElement | Window;
      complain(failed === window ? event.message : `not loaded: ${(failed as HTMLElement).outerHTML}`);
    },
    // what cannot be loaded is told to its own element alone
    { capture: true },
  );
  addEventListener("unhandledrejection", ({ reason }) => complain(`unhandled: ${reason}`));
  addEventListener("securitypolicyviolation", ({ violatedDirective, blockedURI }) =>
    complain(`against the policy: ${violatedDirective} ${blockedURI}`),
  );
}

/** The first element in sight on a way of selectors, each sought within the one before, in whatever shadow. */
export function seek(way: readonly string[]): Element | null {
  const within = (root: ParentNode, selector: string): Element[] => [
    ...root.querySelectorAll(selector),
    ...[root, ...root.querySelectorAll("*")].flatMap((at) =>
      at instanceof Element && at.shadowRoot ? within(at.shadowRoot, selector) : [],
    ),
  ];
  let found: (Element | Document)[] = [document];
  for (const selector of way) found = found.flatMap((root) => within(root, selector));
  return (found as Element[]).find((element) => element.checkVisibility()) ?? null;
}

/** All that can be read in an element, its shadows included. */
export function textIn(element: Element): string {
  const read = (node: Node): string => {
    if (node instanceof Text) return node.data;
    if (node instanceof HTMLStyleElement) return "";
    const inside = node instanceof Element && node.shadowRoot ? node.shadowRoot.childNodes : node.childNodes;
    return [...inside].map(read).join(" ");
  };
  return read(element).replace(/\s+/g, " ").trim();
}
