/**
 * Drawing over what was drawn before. Of a chart that follows a hand most marks stay as they are: what stays is neither made
 * nor laid out nor painted anew, and type is slow to lay out. Marks are put down in the order of the drawing; one of the
 * same name that stood in that place becomes the new one, and where something changed only that is touched.
 */

const namespace = "http://www.w3.org/2000/svg";

/** How a mark was put down. */
interface Mark {
  attributes: Readonly<Record<string, string>>;
  text: string | undefined;
  /** What all that is in it was drawn from, where that is known. */
  from: readonly unknown[] | null;
  /** The same of the drawing before. */
  before: readonly unknown[] | null;
}

const marks = new WeakMap<Element, Mark>();

/** Of every element that is being drawn over: the mark whose turn is next, null after the last. */
const turns = new WeakMap<Element, Element | null>();

/** A new sheet, or the one that is drawn over from now on, from its first mark until `endRedraw`. */
export function putSheet(owner: Document, over?: SVGSVGElement): SVGSVGElement {
  if (!over) return make(owner, "svg", {});
  turns.set(over, over.firstElementChild);
  return over;
}

/** Gives attributes to what has been put down. */
export function change(element: Element, attributes: Readonly<Record<string, string>>): void {
  const mark = marks.get(element)!;
  set(element, mark, attributes);
  mark.attributes = { ...mark.attributes, ...attributes };
}

function set(element: Element, mark: Mark, attributes: Readonly<Record<string, string>>): void {
  for (const key in attributes)
    if (mark.attributes[key] !== attributes[key]) element.setAttribute(key, attributes[key]);
}

/** Takes away what the drawing has no more; does nothing to a new one. */
export function endRedraw(drawn: Element): void {
  const left = turns.get(drawn);
  if (left === undefined) return;
  turns.delete(drawn);
  for (let one = left; one; ) {
    const next = one.nextElementSibling;
    one.remove();
    one = next;
  }
  for (const child of drawn.children) endRedraw(child);
}

/** The mark of this name whose turn it is in `parent`, made like this; or a new one. */
export function put<K extends keyof SVGElementTagNameMap>(
  parent: Element,
  name: K,
  attributes: Readonly<Record<string, string>>,
  text?: string,
): SVGElementTagNameMap[K] {
  const old = turns.get(parent);
  if (old) turns.set(parent, old.nextElementSibling);
  const mark = old?.localName === name ? marks.get(old) : undefined;
  if (old && mark) {
    remake(old, mark, attributes, text);
    turns.set(old, old.firstElementChild);
    return old as SVGElementTagNameMap[K];
  }
  const made = make(parent.ownerDocument, name, attributes, text);
  if (old) old.replaceWith(made);
  else parent.appendChild(made);
  return made;
}

function make<K extends keyof SVGElementTagNameMap>(
  owner: Document,
  name: K,
  attributes: Readonly<Record<string, string>>,
  text?: string,
): SVGElementTagNameMap[K] {
  const made = owner.createElementNS(namespace, name);
  for (const key in attributes) made.setAttribute(key, attributes[key]);
  if (text !== undefined) made.textContent = text;
  marks.set(made, { attributes, text, from: null, before: null });
  return made;
}

function remake(
  element: Element,
  mark: Mark,
  attributes: Readonly<Record<string, string>>,
  text: string | undefined,
): void {
  for (const key in mark.attributes) if (!(key in attributes)) element.removeAttribute(key);
  set(element, mark, attributes);
  if (mark.text !== text) rewrite(element, text ?? "");
  mark.attributes = attributes;
  mark.text = text;
  mark.before = mark.from;
  mark.from = null;
}

/** Other words in the same piece of text: a new piece costs the page more. */
function rewrite(element: Element, text: string): void {
  const piece = element.firstChild;
  if (piece && piece.nodeType === TEXT_NODE) piece.nodeValue = text;
  else element.textContent = text;
}

const TEXT_NODE = 3;

/**
 * Puts down a group of what is told in the description already, and draws what is in it, unless that stands there as it was
 * drawn from the same. The page keeps such a group's pixels too: what moves over it does not have it painted anew.
 * @param from all that it depends on, each compared by itself
 */
export function keep(parent: Element, from: readonly unknown[], draw: (group: SVGGElement) => void): void {
  const group = put(parent, "g", STILL);
  const mark = marks.get(group)!;
  const { before } = mark;
  const isSame = before?.length === from.length && before.every((one, i) => Object.is(one, from[i]));
  if (isSame) turns.delete(group);
  else draw(group);
  mark.from = from;
}

const STILL = { class: "still", "aria-hidden": "true" };
