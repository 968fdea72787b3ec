/**
 * Makes a drawing on the page like a new one by changing only what differs: what stays need not be laid out and painted
 * anew at every step of a hand, and type is slow to lay out.
 */
export function patch(shown: Element, made: Element): void {
  const names = made.getAttributeNames();
  for (const name of names) {
    const value = made.getAttribute(name)!;
    if (shown.getAttribute(name) !== value) shown.setAttribute(name, value);
  }
  if (shown.attributes.length > names.length)
    for (const name of shown.getAttributeNames()) if (!made.hasAttribute(name)) shown.removeAttribute(name);
  if (made.childElementCount === 0) {
    if (shown.textContent !== made.textContent) shown.textContent = made.textContent;
    return;
  }
  let old = shown.firstElementChild;
  let next = made.firstElementChild;
  while (next) {
    const [oldAfter, nextAfter] = [old?.nextElementSibling ?? null, next.nextElementSibling];
    if (!old) shown.append(next);
    else if (old.localName !== next.localName) old.replaceWith(next);
    else if (!old.isEqualNode(next)) patch(old, next);
    [old, next] = [oldAfter, nextAfter];
  }
  while (old) {
    const after = old.nextElementSibling;
    old.remove();
    old = after;
  }
}
