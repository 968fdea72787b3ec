/** All jobs in one file, and back; and whether the browser keeps them meanwhile. */
import { css, html } from "lit";
import { customElement, query } from "lit/decorators.js";
import { controls } from "../../shell/look/controls.ts";
import { panelStyles } from "../../shell/look/sheetStyles.ts";
import { PageElement } from "../../state/page.ts";
import "./backupFolder.ts";
import "./makeBackup.ts";
import "./restoreBackup.ts";
import type { RestoreBackup } from "./restoreBackup.ts";

/** Files of the page's own, where the second copy of jobs stands. */
const HAS_SECOND_COPY = "getDirectory" in (navigator.storage ?? {});
const NO_SECOND_COPY =
  " It has no place for a second copy of your jobs: what it loses, only a backup brings back.";

@customElement("annulus-job-backup")
export class BackupPanel extends PageElement {
  @query("annulus-restore-backup") private restore!: RestoreBackup;

  static override styles = [
    controls,
    panelStyles,
    css`
      :host {
        align-content: start;
      }
      p {
        font-size: var(--type-14);
        text-wrap: pretty;
      }
    `,
  ];

  override render() {
    return html`
      <h3>Backup</h3>
      <p>
        All jobs in one file, to keep elsewhere or to take to another machine. Recordings of blind trials are in no backup and
        have no second copy: they stay in this browser.${this.#promise()}${HAS_SECOND_COPY ? "" : NO_SECOND_COPY}
      </p>
      <annulus-make-backup></annulus-make-backup>
      <annulus-restore-backup></annulus-restore-backup>
      <annulus-backup-folder></annulus-backup-folder>
    `;
  }

  #promise(): string {
    const { isPersisted } = this.page.job.parts;
    if (isPersisted === null) return "";
    return isPersisted
      ? " This browser has promised not to clear what is kept by itself."
      : " This browser may clear them when the disk runs full, so make one now and then.";
  }

  /** Takes in a file's text. The answer: whether it is one of jobs at all; what is not is left to who else may want it. */
  take(name: string, text: string): Promise<boolean> {
    return this.restore.take(name, text);
  }
}
