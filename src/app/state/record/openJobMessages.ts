/** What a person is told of the job that is open, and what can be done about it. */
import type { JobHead } from "../../../record/job.ts";
import { flawsOf } from "../../../setup/dimension/plausible.ts";
import { SetupError } from "../../../setup/problem.ts";
import type { Setup } from "../../../setup/setup.ts";
import { writeDocument } from "../keeping/documentFile.ts";
import type { Store } from "../store.ts";
import { textsOf } from "./jobTexts.ts";
import { saveAsFile } from "./saveAsFile.ts";

const SAVE = "Save it as a file";

export function sayTrouble(store: Store, trouble: string, head: JobHead | null): void {
  const text = `${trouble}. The newest of what is open is kept in this tab only: save it as a file before you close it.`;
  const accept = () => {
    const { document } = store.state;
    void saveAsFile(writeDocument(document), head ?? textsOf(document));
  };
  store.say("error", text, { label: SAVE, accept });
}

export const sayUnopenable = (store: Store, reason: string, head: JobHead, document: unknown): void =>
  store.say("error", `“${head.title}” cannot be opened: ${reason}. It stays in the record.`, {
    label: SAVE,
    accept: () => void saveAsFile(document, head),
  });

/** What was opened was kept, or sent, when the limits were wider. The answer: whether there was anything to say. */
export function sayFlaws(store: Store, what: string, setup: Setup): boolean {
  const flaws = flawsOf(setup);
  if (flaws.length === 0) return false;
  const { message } = new SetupError(flaws);
  store.say(
    "error",
    `${what} is open, but it can be no instrument: ${message}. Nothing is computed until that is corrected under Edit.`,
  );
  return true;
}

export const sayGone = (store: Store, keep: () => void): void =>
  store.say(
    "error",
    "The job that was open here is not in the record any more; what you see is still here.",
    {
      label: "Keep it as a job",
      accept: keep,
    },
  );

/** @param back what came back from the second copy; `hasOwn`: the job that is open here was put back by this tab */
export function sayRecovered(store: Store, back: readonly JobHead[], hasOwn: boolean): void {
  const heads = back.map(({ title }) => `“${title}”`).sort();
  if (hasOwn) heads.push("the job that is open");
  if (heads.length === 0) return;
  const shown = heads.slice(0, MOST_NAMED).join(", ");
  const rest = heads.length > MOST_NAMED ? ` and ${heads.length - MOST_NAMED} more` : "";
  const verb = heads.length === 1 ? "is" : "are";
  store.say(
    "error",
    `The browser had lost its database of jobs. ${shown}${rest} ${verb} back, from the second copy.`,
  );
}
const MOST_NAMED = 4;

export const sayLater = (store: Store, reload: () => void): void =>
  store.say("error", `${LATER_HERE}. What you typed is kept.`, { label: "Load it again", accept: reload });
export const LATER_HERE = "A later version of this page is open in another tab; load this one again to go on";

export const sayBothKept = (store: Store, title: string, own: string, openOther: () => void): void =>
  store.say(
    "error",
    `“${title}” was changed in another tab at the same time. Both are kept: what you see here is now the job “${own}”.`,
    { label: "Open the other", accept: openOther },
  );
