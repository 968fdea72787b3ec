/**
 * A record whose parts are followed one by one: who reads `view.unit` while drawing is drawn anew when the unit changes, and
 * only then. `inner` names the parts that are records to be followed in the same way.
 */
import { computed, type ReadonlySignal } from "@preact/signals-core";

export type Inner<T> = { readonly [Key in keyof T]?: Inner<NonNullable<T[Key]>> };

export type Watch<T> = (key: keyof T) => () => void;

export function partsOf<T extends object>(
  whole: ReadonlySignal<T>,
  inner: Inner<T> = {},
  watch?: Watch<T>,
): Readonly<T> {
  const parts = new Map<PropertyKey, () => unknown>();
  const part = (key: keyof T): unknown => {
    let read = parts.get(key);
    if (!read) {
      let release = () => {};
      const followed = computed(() => whole.value[key], {
        watched: () => {
          release = watch?.(key) ?? release;
        },
        unwatched: () => release(),
      });
      const within = inner[key];
      const record =
        within &&
        partsOf(followed as ReadonlySignal<NonNullable<T[keyof T]> & object>, within as Inner<object>);
      read = record ? () => record : () => followed.value;
      parts.set(key, read);
    }
    return read();
  };
  return new Proxy({} as T, {
    get: (_, key) => part(key as keyof T),
    has: (_, key) => key in whole.value,
    ownKeys: () => Reflect.ownKeys(whole.value),
    getOwnPropertyDescriptor: (_, key) =>
      key in whole.value
        ? { value: part(key as keyof T), enumerable: true, configurable: true, writable: false }
        : undefined,
  });
}
