/**
 * How the two gaps compared feel, kept beside the model's results: asked for when someone shows it, after the hand has come
 * to rest and the model has drawn what it can at once. A hand that moves ends the work: it needs the machine.
 */
import type { Feel } from "../../../workers/instrument/feel.ts";
import type { StepProgress } from "../../../workers/service/served.ts";
import type { AnswerStore } from "../state/keeping/answerStore.ts";
import type { ComparedGaps } from "./comparedGaps.ts";
import { ASKS, type FeelKind, type FeelState, isSame, KINDS, keptName } from "./feelAsks.ts";
import { type FeelQuestion, feelQuestion } from "./feelQuestion.ts";
import type { ModelResults } from "./modelResults.ts";
import { Work, Works } from "./work.ts";
import type { WorkerClient } from "./workerClient.ts";

const REST_MS = 250;

type FeelWorks = Readonly<Record<FeelKind, Work<FeelQuestion, object>>>;

export class FeelResults extends Works<FeelState> {
  readonly #compared: ComparedGaps;
  readonly #model: ModelResults;
  readonly #client: WorkerClient<Feel>;
  readonly #kept: Pick<AnswerStore, "find"> | null;
  readonly #works: FeelWorks;
  readonly #users = new Map<FeelKind, number>();
  #question: FeelQuestion | null = null;
  /** The question that was looked for among the answers kept. */
  #looked: FeelQuestion | null = null;
  #round: AbortController | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #isStopped = false;

  /** @param kept where answers of earlier visits are; null: nowhere */
  constructor(
    compared: ComparedGaps,
    model: ModelResults,
    client: WorkerClient<Feel>,
    kept: Pick<AnswerStore, "find" | "keep"> | null = null,
  ) {
    const ask = async (
      kind: FeelKind,
      question: FeelQuestion,
      progress: StepProgress,
      signal: AbortSignal,
    ): Promise<object | null> => {
      const name = kept && keptName(kind, question);
      const found = name ? await kept.find(name) : null;
      if (found || signal.aborted) return found;
      const answer = await ASKS[kind].ask(client, question, progress, signal);
      if (name && answer && !("refused" in answer)) void kept.keep(name, answer);
      return answer;
    };
    const works = Object.fromEntries(
      KINDS.map((kind) => [
        kind,
        new Work<FeelQuestion, object>({
          ask: (question, tell, signal) => ask(kind, question, (done, of) => tell(done / of), signal),
          isSame: (a, b) => isSame(kind, a, b),
        }),
      ]),
    ) as unknown as FeelWorks;
    // what an element draws is asked for as long as it is drawn
    super(works as never, (kind) => this.use([kind]));
    this.#compared = compared;
    this.#model = model;
    this.#client = client;
    this.#kept = kept;
    this.#works = works;
  }

  /** Follows what is compared, and the model, from now on. */
  start(): void {
    this.#compared.subscribe(() => this.#follow());
    this.#model.subscribe(() => this.#wake());
    this.#follow();
  }

  /** Someone shows these from now on, until the answer is called. */
  use(kinds: readonly FeelKind[]): () => void {
    const count = (by: number) => {
      for (const kind of kinds) this.#users.set(kind, (this.#users.get(kind) ?? 0) + by);
    };
    count(1);
    this.#wake();
    return () => count(-1);
  }

  /** What is drawn stays; nothing more is asked until `again` or the next change. */
  stop(): void {
    this.#isStopped = true;
    this.#end((work) => work.stop());
  }

  again(): void {
    this.#isStopped = false;
    this.#wake();
  }

  #follow(): void {
    const question = feelQuestion(this.#compared.value.document);
    const before = this.#question;
    this.#question = question;
    if (before && KINDS.every((kind) => isSame(kind, before, question))) return;
    this.#isStopped = false;
    // a hand that drags makes all of it stale once
    this.#end((work) => work.follow(question));
    clearTimeout(this.#timer);
    this.#timer = undefined;
    this.#wake();
  }

  /** The worker ends with its work. */
  #end(end: (work: Work<FeelQuestion, object>) => void): void {
    const round = this.#round;
    this.#round = null;
    round?.abort("given up");
    for (const kind of KINDS) end(this.#works[kind]);
    if (round) this.#client.close();
  }

  /** Once the hand rests: what was kept is taken without waiting for the model, which the worker's own work does. */
  #wake(): void {
    if (this.#round || this.#timer !== undefined || this.#isStopped || this.#due().length === 0) return;
    if (!isCalm(this.#model) && !this.#mayLook()) return;
    this.#timer = setTimeout(() => {
      this.#timer = undefined;
      if (isCalm(this.#model)) void this.#run();
      else if (this.#mayLook()) void this.#look();
    }, REST_MS);
  }

  #mayLook(): boolean {
    return this.#kept !== null && this.#looked !== this.#question;
  }

  async #look(): Promise<void> {
    const question = this.#question!;
    this.#looked = question;
    for (const kind of this.#due()) {
      const name = keptName(kind, question);
      const found = name && (await this.#kept!.find(name));
      if (this.#question !== question || this.#round) return;
      if (found) await this.#works[kind].start(question);
    }
    this.#wake();
  }

  #due(): FeelKind[] {
    const question = this.#question;
    return KINDS.filter(
      (kind) => (this.#users.get(kind) ?? 0) > 0 && question && !this.#works[kind].isAnswered(question),
    );
  }

  async #run(): Promise<void> {
    const round = new AbortController();
    this.#round = round;
    const question = this.#question!;
    for (let [kind] = this.#due(); kind; [kind] = this.#due()) {
      await this.#works[kind].start(question);
      if (round.signal.aborted) return;
    }
    this.#round = null;
  }
}

/** The hand rests, and what the model can draw at once is drawn. */
const isCalm = ({ value: { explored, sweep, retuned } }: ModelResults): boolean =>
  explored.value !== null && !explored.stale && sweep.progress === null && retuned.progress === null;
