/** All jobs in one file, and back: made, put under a passphrase, taken in beside what is there. */
import { fileOpen, fileSave } from "browser-fs-access";
import { css, html, nothing, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import { backupFileName, formatOf, parseText, readBackup, writeBackup } from "../../record/backup.ts";
import { decrypt, encrypt, isEncrypted } from "../../record/encrypt.ts";
import { RecordError } from "../../record/recordError.ts";
import { icon } from "../chrome/icon.ts";
import { controls } from "../controls.ts";
import { download } from "../files/download.ts";
import { unlessGivenUp } from "../files/setupFile.ts";
import { FrameElement } from "../frameElement.ts";
import { sheetStyles } from "../sheetStyles.ts";
import { OpenJobController, StoreController } from "../store/storeController.ts";
import "./passphrase.ts";
import { brokenText, type Restored, restoredText } from "./restoreWords.ts";

const FILES = {
  description: "Backup of jobs",
  mimeTypes: ["application/json"],
  extensions: [".json"],
  id: "backups",
};

/** A file that asks for its passphrase. */
interface Locked {
  readonly name: string;
  readonly json: unknown;
}

@customElement("annulus-job-backup")
export class BackupPanel extends FrameElement {
  readonly #page = new StoreController(this);
  readonly #open = new OpenJobController(this);
  @state() private isLocking = false;
  @state() private passphrase = "";
  @state() private locked: Locked | null = null;
  @state() private problem = "";
  /** What is being done. */
  @state() private work = "";
  @state() private report: { readonly text: string; readonly restored: Restored } | null = null;
  @state() private isPersisted: boolean | null = null;

  static override styles = [
    controls,
    sheetStyles,
    css`
      :host {
        display: grid;
        gap: 0.75rem;
        align-content: start;
        container: none;
      }
      p,
      .tick {
        font-size: var(--type-14);
        text-wrap: pretty;
      }
    `,
  ];

  override connectedCallback(): void {
    super.connectedCallback();
    void this.#askPersisted();
  }

  protected override news(): readonly unknown[] {
    return [this.#open.state];
  }

  override render() {
    const { record } = this.#open.state;
    const isBusy = this.work !== "";
    return html`
      <h3>Backup</h3>
      <p>
        All jobs in one file, to keep elsewhere or to take to another machine. Recordings of blind trials are not in it: they
        stay in this browser.${this.#promise()}
      </p>
      <label class="tick controls">
        <input type="checkbox" data-testid="lock" .checked=${this.isLocking} @change=${this.#onLocking} />
        under a passphrase
      </label>
      ${
        this.isLocking
          ? html`
              <annulus-passphrase data-testid="new-passphrase" isNew label="Passphrase for the backup" .text=${this.passphrase} @passphrase=${this.#onPassphrase}></annulus-passphrase>
              <p class="muted">Without it nobody can open the file, you neither: write it down.</p>
            `
          : nothing
      }
      <div class="actions controls">
        <button type="button" data-testid="make-backup" ?disabled=${!record || isBusy || (this.isLocking && this.passphrase === "")} @click=${this.#make}>
          ${icon("save")}Make a backup
        </button>
        <button type="button" data-testid="restore" ?disabled=${!record || isBusy} @click=${this.#choose}>
          ${icon("open")}Restore from a file
        </button>
      </div>
      ${this.locked ? this.#ask(this.locked) : nothing}
      <div role="status" data-testid="backup-report">
        ${isBusy ? html`<p>${this.work}</p>` : this.report ? this.#reported(this.report) : nothing}
      </div>
    `;
  }

  #promise(): string {
    if (this.isPersisted === null) return "";
    return this.isPersisted
      ? " This browser has promised not to clear them by itself."
      : " This browser may clear them when the disk runs full, so make one now and then.";
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

  #reported({ text, restored: { broken } }: NonNullable<BackupPanel["report"]>): TemplateResult {
    return html`
      <p>${text}</p>
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
    try {
      const json = parseText(text);
      if (formatOf(json) === "annulus-setup") return false;
      if (isEncrypted(json)) {
        this.#giveUp();
        this.locked = { name, json };
        await this.updateComplete;
        this.renderRoot.querySelector<HTMLElement>('[data-testid="passphrase"]')?.focus();
      } else await this.#restore(name, json);
    } catch (error) {
      if (!(error instanceof RecordError)) throw error;
      this.#page.store.say("error", `${name}: ${error.message}`);
    }
    return true;
  }

  async #restore(name: string, json: unknown): Promise<void> {
    try {
      await this.#merge(name, json);
    } finally {
      this.work = "";
    }
  }

  async #merge(name: string, json: unknown): Promise<void> {
    this.work = "Reading the backup…";
    await drawn();
    const { jobs, broken } = readBackup(json, new Date().toISOString());
    this.work = `Restoring ${jobs.length === 1 ? "one job" : `${jobs.length} jobs`}…`;
    await drawn();
    await this.#open.job.flush();
    await this.#open.job.with(async (record) => {
      const restored = { outcomes: await record.restore(jobs), broken };
      this.report = { text: restoredText(name, restored), restored };
    });
  }

  readonly #make = async (): Promise<void> => {
    const made = new Date().toISOString();
    const { passphrase, isLocking } = this;
    this.report = null;
    this.work = "Making the backup…";
    await this.#open.job.flush();
    // a promise, so that the dialog comes with the click and not after the encryption
    const blob = this.#text(made, isLocking ? passphrase : null).then(
      (text) => new Blob([text], { type: "application/json" }),
    );
    const isSaved = await unlessGivenUp(async () => {
      await fileSave(blob, { ...FILES, fileName: backupFileName(made) });
      return true;
    }, this.#page.store);
    this.work = "";
    if (!isSaved) return;
    this.passphrase = "";
    this.isLocking = false;
    this.#page.store.say("note", `Saved ${backupFileName(made)}.`);
  };

  async #text(made: string, passphrase: string | null): Promise<string> {
    const text = writeBackup(await this.#open.state.record!.all(), made);
    return passphrase === null ? text : encrypt(text, passphrase);
  }

  readonly #choose = async (): Promise<void> => {
    const { store } = this.#page;
    const file = await unlessGivenUp(() => fileOpen(FILES), store);
    if (file && !(await this.take(file.name, await file.text())))
      store.say("error", `${file.name}: an instrument's file and no backup; begin a new job from it`);
  };

  readonly #onKey = ({ key, target }: KeyboardEvent): void => {
    if (key === "Enter" && (target as Element).matches("annulus-passphrase") && this.passphrase !== "")
      void this.#unlock();
  };

  readonly #unlock = async (): Promise<void> => {
    const { name, json } = this.locked!;
    this.work = "Opening the backup…";
    this.problem = "";
    try {
      const text = await decrypt(json, this.passphrase);
      this.#giveUp();
      await this.#restore(name, parseText(text));
    } catch (error) {
      if (!(error instanceof RecordError)) throw error;
      this.problem = error.message;
    }
    this.work = "";
  };

  readonly #giveUp = (): void => {
    this.locked = null;
    this.passphrase = "";
    this.problem = "";
    this.isLocking = false;
  };

  readonly #onLocking = (event: Event): void => {
    this.isLocking = (event.target as HTMLInputElement).checked;
  };

  readonly #onPassphrase = (event: CustomEvent<string>): void => {
    this.passphrase = event.detail;
  };

  async #askPersisted(): Promise<void> {
    this.isPersisted = (await navigator.storage?.persisted?.()) ?? null;
  }
}

/** What is being done is on the screen before it is begun. */
const drawn = (): Promise<void> => new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
