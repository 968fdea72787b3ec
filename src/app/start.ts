/** Puts the page together: what was kept, the store, the model, the address; then shows it. */
import { ContextProvider } from "@lit/context";
import type { Model } from "../../workers/instrument/model.ts";
import { fetchArithmetic, isJsonReadable } from "./form/arithmetic.ts";
import { download } from "./shell/download.ts";
import { acceptDrops } from "./shell/dropped.ts";
import { fetchTypeface } from "./shell/look/typeface.ts";
import { shareLinks, whenThere } from "./shell/onDemand.ts";
import { Router } from "./shell/route.ts";
import { Backups } from "./state/backups/backups.ts";
import { browserBackups } from "./state/backups/browserBackups.ts";
import { whenIdle } from "./state/frames.ts";
import { AnswerStore } from "./state/keeping/answerStore.ts";
import { Autosave } from "./state/keeping/autosave.ts";
import { readCopied } from "./state/keeping/copyFiles.ts";
import { demoDocument, isDemo } from "./state/keeping/demo.ts";
import { fetchReader, newestKept } from "./state/keeping/newestKept.ts";
import type { Restored } from "./state/keeping/restored.ts";
import { SecondCopyKeeper } from "./state/keeping/secondCopy.ts";
import { browserShelves, type Shelves, shelved } from "./state/keeping/shelves.ts";
import { WorkingStore } from "./state/keeping/workingStore.ts";
import { pageContext } from "./state/page.ts";
import type { JobRecord } from "./state/record/jobRecord.ts";
import { OpenJob } from "./state/record/openJob.ts";
import { FIRST_VIEW } from "./state/state.ts";
import { Store } from "./state/store.ts";
import { ComparedGaps } from "./work/comparedGaps.ts";
import { FeelResults } from "./work/feelResults.ts";
import { ModelResults, type Results } from "./work/modelResults.ts";
import { MODEL } from "./work/modelWorker.ts";
import { openFeelWorker, openSecondCopyWorker } from "./work/openWorkers.ts";
import { WorkerClient } from "./work/workerClient.ts";
import "./shell/shell.ts";

/** From the first drawing of everything to what can wait. */
const CALM_MS = 1000;
/** For the first curve to reach the screen. */
const SHOWN_MS = 100;

void begin();

/** A function, and not the file itself: what is fetched here imports this file's neighbours, and would wait for its end. */
async function begin(): Promise<void> {
  const shelves = browserShelves();
  const workingStore = new WorkingStore();
  const client = new WorkerClient({
    ...MODEL,
    onRestart: () => store.say("note", "The model stopped and was started again; nothing you typed is lost."),
  });
  expectOnShelves(shelves, client).catch(() => {});
  const restored = await newestKept(shelves, workingStore);
  const store = firstStore(restored);
  const compared = new ComparedGaps(store);
  const results = new ModelResults(compared, client);
  // the name of this file is another wherever a worker's code is
  const feel = new FeelResults(
    compared,
    results,
    new WorkerClient({ connect: openFeelWorker }),
    new AnswerStore(import.meta.url),
  );
  const openJob = new OpenJob(store, openRecord, restored.mark, isDemo);
  const secondCopy = new SecondCopyKeeper(store, openSecondCopyWorker);
  const autosave = new Autosave(store, shelves, openJob, {
    database: workingStore,
    copy: secondCopy,
    since: restored.since,
  });
  workingStore.onLost = () => autosave.again();
  openJob.announce = () => autosave.saved();
  const router = new Router((text) =>
    whenThere(shareLinks(), store, ({ openShared }) => void openShared(text, store)),
  );
  const backups = new Backups(store, { ...browserBackups(), showJobs: () => router.go("jobs") });

  // Lit's provider answers every element below the one it stands on; it wants no Lit element to stand on.
  new ContextProvider(document.documentElement, {
    context: pageContext,
    initialValue: { store, compared, model: results, feel, job: openJob, backups, router },
  });

  results.start();
  feel.start();
  autosave.start();
  router.start();
  acceptDrops(window, store);
  offerBroken(restored, store);
  document.body.append(document.createElement("annulus-app"));
  whenIn(results, isExplored, SHOWN_MS, async () => {
    // a slow machine draws the curve some frames after its numbers are there
    await new Promise<void>((done) => whenIdle(done, CALM_MS));
    // what is asked for before it could be fetched is fetched again, and says so where it cannot be
    import("./later.ts").catch(() => {});
    fetchTypeface().catch(() => {});
  });
  whenIn(results, isAllDrawn, CALM_MS, async () => {
    // what other tabs have written since is read from here on
    await fetchArithmetic().catch(() => {});
    void openJob.start();
    secondCopy.start(openJob);
    backups.start(openJob);
    void workingStore.prune().catch(() => {});
    const { keepForOffline } = await import("./shell/offline.ts");
    void keepForOffline(store);
  });
}

/** The database's code is for after the first curve; the shelves keep what is done until then. */
async function openRecord(): Promise<JobRecord> {
  const [{ RecordDatabase }, record] = await Promise.all([
    import("./state/record/database.ts"),
    import("./state/record/jobRecord.ts"),
  ]);
  return record.JobRecord.open(new RecordDatabase(), async () => {
    const { jobsCopied } = await import("../record/copied.ts");
    return jobsCopied((await readCopied("jobs")).held.values(), new Date().toISOString());
  });
}

/** The first curve is about to be drawn, or will not come. */
const isExplored = ({ explored }: Results): boolean => explored.value !== null || explored.refused !== null;

/** Fetching the whole page for later must not delay the first curve and sweep. */
const isAllDrawn = ({ explored, sweep, retuned }: Results): boolean =>
  explored.refused !== null ||
  (explored.value !== null && sweep.progress === null && retuned.progress === null);

/** Once, so long after the model's results have come so far. */
function whenIn(results: ModelResults, isFar: (now: Results) => boolean, ms: number, act: () => void): void {
  const leave = results.subscribe((now) => {
    if (!isFar(now)) return;
    leave();
    setTimeout(act, ms);
  });
}

/** The databases hardly ever hold another instrument than the shelves: the model begins with that one before they answer. */
async function expectOnShelves(shelves: Shelves, client: WorkerClient<Model>): Promise<void> {
  const texts = shelved(shelves);
  if (!texts.every(isJsonReadable)) return;
  const { document } = texts.length > 0 ? (await fetchReader()).restore(shelves) : { document: null };
  client.expect((document ?? demoDocument()).setup);
}

/** What was kept, or on a first visit the demo. */
function firstStore({ document: kept, view }: Restored): Store {
  const opened = kept ?? demoDocument();
  return new Store(opened, view ?? { ...FIRST_VIEW, unit: opened.setup.units });
}

function offerBroken({ broken }: Restored, store: Store): void {
  if (!broken) return;
  store.say("error", `What this browser kept of your last visit cannot be read (${broken.reason}).`, {
    label: "Save it as a file",
    accept: () => download(broken.text, "kept-by-the-browser.json"),
  });
}
