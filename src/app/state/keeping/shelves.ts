/** The browser's shelves, which can be read and written without waiting: what stands on them, as text. */
import { isRecord } from "../../../setup/file/jsonRecord.ts";
import type { View } from "../state.ts";
import { SHELF_KEY } from "./shelfKey.ts";
import { readView } from "./viewFile.ts";
import type { Working } from "./workingStore.ts";

/** Where a text can be kept under a name; the browser's own may refuse at any time. */
export type Shelf = Pick<Storage, "getItem" | "setItem" | "removeItem">;

export interface Shelves {
  readonly tab: Shelf | null;
  readonly browser: Shelf | null;
}

/** The browser's shelves; null for one that its settings forbid. */
export function browserShelves(page: Window = window): Shelves {
  const allowed = (shelf: () => Shelf): Shelf | null => {
    try {
      return shelf();
    } catch {
      return null;
    }
  };
  return { tab: allowed(() => page.sessionStorage), browser: allowed(() => page.localStorage) };
}

/** The shelves' texts as they are. */
export const shelved = ({ tab, browser }: Shelves): readonly string[] =>
  [kept(tab), kept(browser)].filter((text) => text !== null);

/** When the newest of all was kept; 0 where nothing says. */
export const lastStamp = ({ tab, browser }: Shelves, workings: readonly Working[]): number =>
  Math.max(0, stampOf(kept(tab)).stamp, stampOf(kept(browser)).stamp, ...workings.map(({ stamp }) => stamp));

/** The texts of the tab's own work, the newest first, and after them everybody's. */
export function newestFirst({ tab, browser }: Shelves, workings: readonly Working[]): string[] {
  const own = stampOf(kept(tab));
  const newest = (all: readonly Working[]) =>
    all.toSorted((a, b) => b.stamp - a.stamp).map(({ text }) => text);
  const owns = workings.filter(({ key }) => key === own.key);
  const others = workings.filter(({ key }) => key !== own.key);
  const texts = [
    ...(own.text === "" ? [] : newest([own, ...owns])),
    ...newest([stampOf(kept(browser)), ...others, ...owns]),
  ];
  return [...new Set(texts)].filter((text) => text !== "");
}

/** Of a shelf's text: whose it is and when it was kept, where it says. */
function stampOf(text: string | null): Working {
  try {
    const json: unknown = JSON.parse(text ?? "null");
    const { key, stamp } = isRecord(json) ? json : {};
    if (typeof key === "string" && Number.isFinite(stamp))
      return { key, stamp: stamp as number, text: text ?? "" };
  } catch {
    // it is for `restored` to say what is broken
  }
  return { key: "", stamp: 0, text: text ?? "" };
}

/** How the page was looked at last, by this tab or else by any. */
export function restoreView({ tab, browser }: Shelves): View | null {
  for (const shelf of [tab, browser])
    try {
      const text = kept(shelf);
      if (text !== null) return readView((JSON.parse(text) as Record<string, unknown>).view);
    } catch {
      // it is the page that says what is broken, where it can be saved
    }
  return null;
}

function kept(shelf: Shelf | null): string | null {
  try {
    return shelf?.getItem(SHELF_KEY) ?? null;
  } catch {
    return null;
  }
}

/** Whether it took it. */
export function keep(shelf: Shelf | null, text: string): boolean {
  try {
    shelf?.setItem(SHELF_KEY, text);
    return shelf !== null;
  } catch {
    return false;
  }
}
