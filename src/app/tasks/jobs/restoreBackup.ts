/** Jobs out of a file, taken in beside what is there; how far it is, and a stop. */

import { fileOpen } from "browser-fs-access";
import { html, nothing, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import {
  type Backup,
  backupSteps,
  formatOf,
  type JobCount,
  type Parsed,
  parseBackup,
} from "../../../record/backup.ts";
import { decrypt, isEncrypted } from "../../../record/encrypt.ts";
import { type Choice, isDifferent } from "../../../record/merge.ts";
import { RecordError } from "../../../record/recordError.ts";
import { download } from "../../shell/download.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { panelStyles } from "../../shell/look/sheetStyles.ts";
import { unlessGivenUp } from "../../state/keeping/fileDialog.ts";
import { PageElement } from "../../state/page.ts";
import { inTurns } from "../../state/record/inTurns.ts";
import type { Comparison } from "../../state/record/takenIn.ts";
import { BACKUP_FILES } from "./backupFiles.ts";
import { backupStyles } from "./backupStyles.ts";
import "./passphrase.ts";
import "./restoreChoices.ts";
import type { Offered, RestoreChoices } from "./restoreChoices.ts";
import { brokenText, damageText, type Restored, restoredText } from "./restoreWords.ts";

/** A file that asks for its passphrase. */
interface Locked {
  readonly name: string;
  readonly json: unknown;
}

/** A file some of whose jobs are otherwise here, or that is damaged: what to take from it is asked. */
interface Offer extends Offered {
  readonly backup: Backup;
}

/** What is being done; without a count nobody knows how long it takes. */
interface Work {
  readonly text: string;
  readonly count?: JobCount;
}

@customElement("annulus-restore-backup")
export class RestoreBackup extends PageElement {
  @state() private passphrase = "";
  @state() private locked: Locked | null = null;
  @state() private problem = "";
  @state() private offer: Offer | null = null;
  @state() private work: Work | null = null;
  @state() private report: { readonly text: string; readonly restored?: Restored } | null = null;
  #stop = new AbortController();

  static override styles = [controls, panelStyles, backupStyles];

  override render() {
    const { work, locked, offer, report } = this;
    const { record } = this.page.job.parts;
    return html`
      <div class="actions controls">
        <button type="button" data-testid="restore" ?disabled=${!record || work !== null} @click=${this.#choose}>
          ${icon("open")}Restore from a file
        </button>
      </div>
      ${locked ? this.#ask(locked) : nothing}
      ${work ? this.#working(work) : nothing}
      ${offer ? this.#offered(offer) : nothing}
      <div role="status" data-testid="backup-report">
        ${work ? html`<p>${work.text}</p>` : report ? this.#reported(report) : nothing}
      </div>
    `;
  }

  #offered(offer: Offer): TemplateResult {
    const onChoose = ({ detail }: CustomEvent<readonly Choice[]>) => void this.#takeChosen(offer, detail);
    return html`
      <annulus-restore-choices
        data-testid="restore-choices"
        role="region"
        aria-label="What to take from ${offer.name}"
        .offered=${offer}
        @choose=${onChoose}
        @leave=${() => this.#leave(offer)}
      ></annulus-restore-choices>
    `;
  }

  #working({ text, count }: Work): TemplateResult | typeof nothing {
    if (!count) return nothing;
    return html`
      <div class="actions controls">
        <progress max=${count.of} .value=${count.done} aria-label=${text}></progress>
        <button type="button" data-testid="stop-restoring" @click=${() => this.#stop.abort()}>${icon("stop")}Stop</button>
      </div>
    `;
  }

  #ask({ name }: Locked): TemplateResult {
    return html`
      <div class="stack controls" role="group" aria-label="Passphrase" @keydown=${this.#onKey}>
        <annulus-passphrase data-testid="passphrase" label="Passphrase of ${name}" .text=${this.passphrase} .problem=${this.problem} @passphrase=${this.#onPassphrase}></annulus-passphrase>
        <div class="actions">
          <button type="button" data-testid="unlock" ?disabled=${this.passphrase === ""} @click=${this.#unlock}>Open the backup</button>
          <button type="button" @click=${this.#giveUp}>Leave it</button>
        </div>
      </div>
    `;
  }

  #reported({ text, restored }: NonNullable<RestoreBackup["report"]>): TemplateResult {
    const broken = restored?.broken ?? [];
    return html`
      ${text ? html`<p>${text}</p>` : nothing}
      ${
        broken.length > 0
          ? html`
              <p class="notice wrong">${icon("warning")}<span>${brokenText(broken)}</span></p>
              <div class="actions controls">
                <button type="button" @click=${() => download(`${JSON.stringify(broken, null, 1)}\n`, "unreadable-jobs.json")}>Save what cannot be read as a file</button>
              </div>
            `
          : nothing
      }
    `;
  }

  /** Takes in a file's text. The answer: whether it is one of jobs at all; what is not is left to who else may want it. */
  async take(name: string, text: string): Promise<boolean> {
    this.report = null;
    this.offer = null;
    try {
      const parsed = parseBackup(text);
      const { json } = parsed;
      if (formatOf(json) === "annulus-setup") return false;
      if (isEncrypted(json)) {
        this.#giveUp();
        this.locked = { name, json };
        await this.updateComplete;
        this.renderRoot.querySelector<HTMLElement>('[data-testid="passphrase"]')?.focus();
      } else await this.#restore(name, parsed);
    } catch (error) {
      if (!(error instanceof RecordError)) throw error;
      this.page.store.say("error", `${name}: ${error.message}`);
    }
    return true;
  }

  async #restore(name: string, { json, damage }: Parsed): Promise<void> {
    this.#stop = new AbortController();
    const { signal } = this.#stop;
    try {
      const steps = backupSteps(json, new Date().toISOString(), damage);
      const backup = await inTurns(steps, (count) => this.#tell("Reading", count), signal);
      if (backup) await this.#compare(name, backup, signal);
      else this.#sayStopped(name);
    } finally {
      this.work = null;
    }
  }

  /** What is new or the same needs no question; what differs, or comes from a damaged file, does. */
  async #compare(name: string, backup: Backup, signal: AbortSignal): Promise<void> {
    const { jobs, broken, damage } = backup;
    if (damage && jobs.length === 0) {
      this.report = { text: damageText(name, damage, 0), restored: { outcomes: [], broken } };
      return;
    }
    const { job } = this.page;
    await job.flush();
    let comparisons: readonly Comparison[] = [];
    const isCompared = await job.with(async (record) => {
      comparisons = await record.compare(jobs, (count) => this.#tell("Comparing", count));
    });
    if (!isCompared) return;
    if (!damage && !comparisons.some(({ standing }) => isDifferent(standing)))
      return this.#merge(name, backup, signal);
    this.offer = { name, comparisons, damage, backup };
    if (broken.length > 0) this.report = { text: "", restored: { outcomes: [], broken } };
    await this.updateComplete;
    this.renderRoot.querySelector<RestoreChoices>("annulus-restore-choices")?.focus();
  }

  async #merge(
    name: string,
    { jobs, broken }: Backup,
    signal: AbortSignal,
    choices?: readonly Choice[],
  ): Promise<void> {
    const { job } = this.page;
    await job.flush();
    await job.with(async (record) => {
      const tell = (count: JobCount) => this.#tell("Restoring", count);
      const outcomes = await record.restore(jobs, tell, signal, choices);
      if (!outcomes) return this.#sayStopped(name);
      const restored = { outcomes, broken };
      this.report = { text: restoredText(name, restored), restored };
    });
  }

  async #takeChosen({ name, backup }: Offer, choices: readonly Choice[]): Promise<void> {
    this.offer = null;
    this.#stop = new AbortController();
    try {
      await this.#merge(name, backup, this.#stop.signal, choices);
    } finally {
      this.work = null;
    }
    this.#return();
  }

  #leave({ name }: Offer): void {
    this.offer = null;
    this.#sayStopped(name);
    this.#return();
  }

  /** What was asked is gone, and a keyboard's place with it: that is now where a file is chosen. */
  #return(): void {
    void this.updateComplete.then(() =>
      this.renderRoot.querySelector<HTMLElement>('[data-testid="restore"]')?.focus(),
    );
  }

  #sayStopped(name: string): void {
    this.report = { text: `Stopped. Nothing of ${name} was taken in.` };
  }

  #tell(what: string, count: JobCount): void {
    this.work = { text: `${what} ${count.of === 1 ? "one job" : `${count.of} jobs`}…`, count };
  }

  readonly #choose = async (): Promise<void> => {
    const file = await unlessGivenUp(() => fileOpen(BACKUP_FILES), this.page.store);
    if (file) await this.#takeOrRefuse(file.name, await file.text());
  };

  async #takeOrRefuse(name: string, text: string): Promise<void> {
    if (await this.take(name, text)) return;
    this.page.store.say("error", `${name}: an instrument's file and no backup; begin a new job from it`);
  }

  readonly #onKey = ({ key, target }: KeyboardEvent): void => {
    if (key === "Enter" && (target as Element).matches("annulus-passphrase") && this.passphrase !== "")
      void this.#unlock();
  };

  readonly #unlock = async (): Promise<void> => {
    const { name, json } = this.locked!;
    this.work = { text: "Opening the backup…" };
    this.problem = "";
    let text: string;
    try {
      text = await decrypt(json, this.passphrase);
    } catch (error) {
      if (!(error instanceof RecordError)) throw error;
      this.problem = error.message;
      return;
    } finally {
      this.work = null;
    }
    this.#giveUp();
    await this.#takeOrRefuse(name, text);
  };

  readonly #giveUp = (): void => {
    this.locked = null;
    this.passphrase = "";
    this.problem = "";
  };

  readonly #onPassphrase = (event: CustomEvent<string>): void => {
    this.passphrase = event.detail;
  };
}
