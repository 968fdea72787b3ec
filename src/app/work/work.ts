/**
 * Work on the newest question, and what is known of it meanwhile: an old answer stays, marked stale, until the new one is
 * there; how far the work is; why it was refused; whether a person stopped it. All the page asks of a worker is an instance.
 */
import type { Refusal } from "../../../workers/service/served.ts";
import { Observable } from "../state/observable.ts";
import type { Inner } from "../state/parts.ts";

export interface Answer<Value, Question = unknown, Step = unknown> {
  /** The newest there is, also when it is stale; null before the first. */
  readonly value: Value | null;
  /** The question that `value` answers. */
  readonly of: Question | null;
  /** `value` answers an older question than the newest. */
  readonly stale: boolean;
  /** It has for so long that it is to look it. A hand that drags is never late: every step brings a value. */
  readonly late: boolean;
  /** The question asked last. */
  readonly asked: Question | null;
  /** Share done, 0 to 1, of long work; null when none is under way. */
  readonly progress: number | null;
  /** What the work asked for last told of its newest step. */
  readonly step: Step | null;
  /** Why there is no new value: what is wrong, where, what would be right. */
  readonly refused: string | null;
  /** The person stopped it before it was done. */
  readonly stopped: boolean;
}

/** Nothing asked, nothing known. */
export const NONE = {
  value: null,
  of: null,
  stale: false,
  late: false,
  asked: null,
  progress: null,
  step: null,
  refused: null,
  stopped: false,
} as const;

export interface WorkOptions<Question, Value, Step> {
  /** Puts the question to a worker; null comes back where the signal ended it. */
  readonly ask: (
    question: Question,
    tell: (progress: number | null, step?: Step) => void,
    signal: AbortSignal,
  ) => Promise<Value | Refusal | null>;
  /** Whether two questions have one answer; else only one and the same object has. */
  readonly isSame?: (a: Question, b: Question) => boolean;
  /** Before the work begins, ms: a hand that still moves would begin and end it at every step. */
  readonly restMs?: number;
  /**
   * It keeps up with a hand: a question under way is not ended by a newer one, of which only the newest waits. An answer to
   * an older question is still nearer to the newest than what is drawn.
   */
  readonly isQuick?: boolean;
  /**
   * Of what keeps up with a hand: an answer to the question under way is of no use to the newest, as one about another
   * instrument. Where it takes longer than OVERTAKEN_MS more, the work on it is ended.
   */
  readonly isOvertaken?: (underWay: Question, newest: Question) => boolean;
  /** The value is a first answer: the same is asked once more for the whole. */
  readonly isProvisional?: (value: Value) => boolean;
  /** An old answer does not stay when something is asked anew. */
  readonly forgets?: boolean;
  /** Ends the worker, when nobody is interested any more. */
  readonly release?: () => void;
}

/** Longest that an old value looks like a new one, ms. */
const PATIENCE_MS = 250;

/** Longest that the newest question waits for the end of one that nobody asks any more, ms. */
export const OVERTAKEN_MS = 700;

export class Work<Question, Value extends object, Step = never> extends Observable<
  Answer<Value, Question, Step>
> {
  readonly #options: WorkOptions<Question, Value, Step>;
  #underWay: AbortController | null = null;
  /** What a worker was asked last and has not answered. */
  #asking: { readonly question: Question } | null = null;
  #overtaking: ReturnType<typeof setTimeout> | undefined;
  #ageing: ReturnType<typeof setTimeout> | undefined;

  constructor(options: WorkOptions<Question, Value, Step>) {
    super(NONE);
    this.#options = options;
  }

  /** Asks, unless this is what was asked last. */
  ask(question: Question): void {
    if (!this.#isSame(this.value.asked, question)) void this.start(question);
  }

  /** Asks; whatever was asked before is given up. Null where this is given up in its turn, or refused. */
  async start(question: Question): Promise<Value | null> {
    const { isQuick, forgets } = this.#options;
    const waits = isQuick && this.#underWay !== null;
    if (!waits) this.#end();
    const value = forgets ? null : this.value.value;
    const begun = isQuick ? {} : { progress: 0, step: null, refused: null };
    this.#set({ asked: question, value, stale: value !== null, stopped: false, ...begun });
    if (waits) {
      this.#overtake(question);
      return null;
    }
    return this.#begin();
  }

  async #begin(): Promise<Value | null> {
    const { restMs } = this.#options;
    const work = new AbortController();
    this.#underWay = work;
    if (restMs) await new Promise((rested) => setTimeout(rested, restMs));
    return this.#run(work.signal);
  }

  /** Once more what was asked last. */
  again(): void {
    if (this.value.asked !== null) void this.start(this.value.asked);
  }

  /** The newest question is this, but the work on it is to begin later. */
  follow(question: Question): void {
    this.#end();
    const { value, of } = this.value;
    this.#set({ stale: value !== null && !this.#isSame(of, question), progress: null, stopped: false });
  }

  /** Whether the newest answer or refusal is to this question. */
  isAnswered(question: Question): boolean {
    const { refused, asked, of } = this.value;
    return this.#isSame(refused === null ? of : asked, question);
  }

  /** What is drawn stays. */
  stop(): void {
    this.#end();
    if (this.value.progress !== null) this.#set({ progress: null, stopped: true });
  }

  /** Nothing is asked and nothing known any more. */
  clear(): void {
    this.#end();
    this.#set(NONE);
  }

  /** What is known stays to be seen; the same will be asked anew. */
  close(): void {
    this.#end();
    this.#set({ asked: null, progress: null });
    this.#options.release?.();
  }

  #isSame(a: Question | null, b: Question): boolean {
    return a !== null && (this.#options.isSame ?? Object.is)(a, b);
  }

  #end(): void {
    clearTimeout(this.#overtaking);
    this.#asking = null;
    // a reason of its own would remember who gave it up, and keep that alive
    this.#underWay?.abort("given up");
    this.#underWay = null;
  }

  /** The newest question has its turn soon, whatever is under way. */
  #overtake(newest: Question): void {
    clearTimeout(this.#overtaking);
    const asking = this.#asking;
    if (!asking || !this.#options.isOvertaken?.(asking.question, newest)) return;
    this.#overtaking = setTimeout(() => {
      if (this.#asking !== asking) return;
      this.#end();
      void this.#begin();
    }, OVERTAKEN_MS);
  }

  async #run(signal: AbortSignal): Promise<Value | null> {
    const tell = (progress: number | null, step: Step | null = null) => {
      if (!signal.aborted) this.#set({ progress, step });
    };
    for (;;) {
      const question = this.value.asked;
      if (signal.aborted || question === null) return null;
      const asking = { question };
      this.#asking = asking;
      const answer = await this.#options.ask(question, tell, signal);
      if (this.#asking === asking) this.#asking = null;
      if (signal.aborted || answer === null) return null;
      const isRefused = "refused" in answer;
      if (isRefused) this.#set({ refused: answer.refused, stale: this.value.value !== null, progress: null });
      else {
        const stale = question !== this.value.asked;
        this.#set({ value: answer, of: question, stale, refused: null, progress: null });
      }
      // whoever heard of the answer may have asked, or ended, more
      if (signal.aborted) return null;
      if (question === this.value.asked) {
        if (isRefused || !this.#options.isProvisional?.(answer)) {
          this.#underWay = null;
          return isRefused ? null : answer;
        }
        this.#set({ stale: true });
      }
    }
  }

  #set(part: Partial<Answer<Value, Question, Step>>): void {
    const { value } = this;
    const keys = Object.keys(part) as (keyof typeof part)[];
    if (keys.every((key) => Object.is(part[key], value[key]))) return;
    const next = { ...value, ...part };
    const isRenewed = !next.stale || next.value !== value.value;
    if (isRenewed) this.#stopAgeing();
    const late = next.late && !isRenewed;
    if (next.stale && !late)
      this.#ageing ??= setTimeout(() => {
        this.#stopAgeing();
        this.#set({ late: true });
      }, PATIENCE_MS);
    this.change({ ...next, late });
  }

  #stopAgeing(): void {
    clearTimeout(this.#ageing);
    this.#ageing = undefined;
  }
}

/** Several works as one record, each part of each followed by itself: who draws a value is not drawn anew at a question. */
export class Works<T extends object> extends Observable<T> {
  /** @param watch told of a part that begins to be followed; its answer is called when nobody follows it any more */
  constructor(
    works: { readonly [Key in keyof T]: Observable<T[Key] & object> },
    watch?: (key: keyof T) => () => void,
  ) {
    const keys = Object.keys(works) as (keyof T)[];
    const each = <Part>(part: (key: keyof T) => Part) =>
      Object.fromEntries(keys.map((key) => [key, part(key)]));
    super(each((key) => works[key].value) as T, each(() => ({})) as Inner<T>, watch);
    for (const key of keys) works[key].subscribe((value) => this.change({ ...this.value, [key]: value }));
  }
}
