/** All jobs in one file, and back. */
import { css, html } from "lit";
import { customElement, query, state } from "lit/decorators.js";
import { controls } from "../../shell/look/controls.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { FrameElement } from "../../state/frameElement.ts";
import "./makeBackup.ts";
import "./restoreBackup.ts";
import type { RestoreBackup } from "./restoreBackup.ts";

@customElement("annulus-job-backup")
export class BackupPanel extends FrameElement {
  @state() private isPersisted: boolean | null = null;
  @query("annulus-restore-backup") private restore!: RestoreBackup;

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
      p {
        font-size: var(--type-14);
        text-wrap: pretty;
      }
    `,
  ];

  override connectedCallback(): void {
    super.connectedCallback();
    void this.#askPersisted();
  }

  override render() {
    return html`
      <h3>Backup</h3>
      <p>
        All jobs in one file, to keep elsewhere or to take to another machine. Recordings of blind trials are not in it: they
        stay in this browser.${this.#promise()}
      </p>
      <annulus-make-backup></annulus-make-backup>
      <annulus-restore-backup></annulus-restore-backup>
    `;
  }

  #promise(): string {
    if (this.isPersisted === null) return "";
    return this.isPersisted
      ? " This browser has promised not to clear them by itself."
      : " This browser may clear them when the disk runs full, so make one now and then.";
  }

  /** Takes in a file's text. The answer: whether it is one of jobs at all; what is not is left to who else may want it. */
  take(name: string, text: string): Promise<boolean> {
    return this.restore.take(name, text);
  }

  async #askPersisted(): Promise<void> {
    this.isPersisted = (await navigator.storage?.persisted?.()) ?? null;
  }
}
