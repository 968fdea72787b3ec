/** All jobs into one file, under a passphrase where one is wanted. */

import { fileSave } from "browser-fs-access";
import { html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { backupFileName, writeBackup } from "../../../record/backup.ts";
import { encrypt, passphraseFlaw } from "../../../record/encrypt.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { panelStyles } from "../../shell/look/sheetStyles.ts";
import { unlessGivenUp } from "../../state/keeping/fileDialog.ts";
import { PageElement } from "../../state/page.ts";
import type { JobRecord } from "../../state/record/jobRecord.ts";
import { BACKUP_FILES } from "./backupFiles.ts";
import { backupStyles } from "./backupStyles.ts";
import { whenText } from "./jobRow.ts";
import "./passphrase.ts";

@customElement("annulus-make-backup")
export class MakeBackup extends PageElement {
  @state() private isLocking = false;
  @state() private passphrase = "";
  @state() private isBusy = false;
  @state() private problem = "";

  static override styles = [controls, panelStyles, backupStyles];

  override render() {
    const { isBusy, isLocking, passphrase } = this;
    const { record } = this.page.job.parts;
    return html`
      <label class="tick controls">
        <input type="checkbox" data-testid="lock" .checked=${isLocking} @change=${this.#onLocking} />
        under a passphrase
      </label>
      ${
        isLocking
          ? html`
              <annulus-passphrase data-testid="new-passphrase" isNew label="Passphrase for the backup" .text=${passphrase} .problem=${this.problem} @passphrase=${this.#onPassphrase}></annulus-passphrase>
              <p class="muted">At least 8 characters; several words are easy to keep. Without it nobody can open the file, you neither: write it down.</p>
            `
          : nothing
      }
      <div class="actions controls">
        <button type="button" data-testid="make-backup" ?disabled=${!record || isBusy || (isLocking && passphrase === "")} @click=${this.#make}>
          ${icon("save")}Make a backup
        </button>
        <span role="status">${isBusy ? "Making the backup…" : nothing}</span>
        <span class="muted" data-testid="last-backup">${this.#last()}</span>
      </div>
    `;
  }

  #last(): string {
    const { made, written } = this.page.backups.parts;
    const last = [made, written]
      .filter((at) => at !== null)
      .sort()
      .at(-1);
    return last ? `Last made here: ${whenText(last)}` : "None has been made here yet";
  }

  readonly #make = async (): Promise<void> => {
    const made = new Date().toISOString();
    const { passphrase, isLocking } = this;
    const { record } = this.page.job.parts;
    const flaw = isLocking ? passphraseFlaw(passphrase) : "";
    this.problem = flaw && `Not made: ${flaw}.`;
    if (flaw) return;
    this.isBusy = true;
    await this.page.job.flush();
    // a promise, so that the dialog comes with the click and not after the encryption
    const blob = textOf(record!, made, isLocking ? passphrase : null).then(
      (text) => new Blob([text], { type: "application/json" }),
    );
    const isSaved = await unlessGivenUp(async () => {
      await fileSave(blob, { ...BACKUP_FILES, fileName: backupFileName(made) });
      return true;
    }, this.page.store);
    this.isBusy = false;
    if (!isSaved) return;
    this.passphrase = "";
    this.isLocking = false;
    await this.page.backups.noteMade(made);
    this.page.store.say("note", `Saved ${backupFileName(made)}.`);
  };

  readonly #onLocking = (event: Event): void => {
    this.isLocking = (event.target as HTMLInputElement).checked;
  };

  readonly #onPassphrase = (event: CustomEvent<string>): void => {
    this.passphrase = event.detail;
    this.problem = "";
  };
}

async function textOf(record: JobRecord, made: string, passphrase: string | null): Promise<string> {
  const text = writeBackup(await record.all(), made);
  return passphrase === null ? text : encrypt(text, passphrase);
}
