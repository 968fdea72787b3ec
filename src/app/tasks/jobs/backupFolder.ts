/** The folder of the person's own in which a backup is kept up to date. */
import { css, html, nothing, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { panelStyles } from "../../shell/look/sheetStyles.ts";
import { folderTroubleText } from "../../state/backups/folderTrouble.ts";
import { PageElement } from "../../state/page.ts";
import { backupStyles } from "./backupStyles.ts";
import { whenText } from "./jobRow.ts";

@customElement("annulus-backup-folder")
export class BackupFolder extends PageElement {
  static override styles = [
    controls,
    panelStyles,
    backupStyles,
    css`
      summary {
        font-size: var(--type-14);
      }
      details p {
        margin: 0.25rem 0 0.5rem;
      }
    `,
  ];

  override connectedCallback(): void {
    super.connectedCallback();
    // another tab may have named one, or stopped it
    void this.page.backups.look();
  }

  override render() {
    const { canNameFolder, folder } = this.page.backups.parts;
    if (folder !== null) return this.#named(folder);
    return html`
      <details>
        <summary>Kept up to date in a folder of your own</summary>
        ${
          canNameFolder
            ? html`
                <p>
                  Name a folder, and a backup of all jobs is kept up to date there by itself, seconds after every change. It is
                  plain, not under a passphrase: take a folder that only you can open.
                </p>
                <div class="actions controls">
                  <button type="button" data-testid="name-folder" @click=${this.#name}>${icon("plus")}Choose a folder</button>
                </div>
              `
            : html`
                <p data-testid="no-folders">
                  This browser lets no page do that. You are reminded when your last backup is a week old and jobs have changed
                  since.
                </p>
              `
        }
      </details>
    `;
  }

  #named(folder: string): TemplateResult {
    const { files, written } = this.page.backups.parts;
    return html`
      ${this.#stand(folder, written)}
      <details>
        <summary>About this folder</summary>
        <p>
          Two files there take turns${files.length > 0 ? `, ${files.join(" and ")}` : nothing}: to restore, take the newer one.
          They are plain, not under a passphrase: whoever can open the folder can read them.
        </p>
        <div class="actions controls">
          <button type="button" @click=${this.#name}>Choose another folder</button>
          <button type="button" data-testid="stop-folder" @click=${() => void this.page.backups.stop()}>Stop</button>
        </div>
      </details>
    `;
  }

  #stand(folder: string, written: string | null): TemplateResult {
    const { trouble, isBehind } = this.page.backups.parts;
    const last = written === null ? "" : ` Last written: ${whenText(written)}.`;
    if (trouble !== null)
      return html`
        <div class="notice wrong" role="status" data-testid="folder-trouble">
          ${icon("warning")}
          <span>${folderTroubleText(trouble, folder)}${last}</span>
          ${
            trouble === "asks"
              ? html`<button type="button" data-testid="allow-folder" @click=${() => void this.page.backups.allow()}>Allow</button>`
              : html`<button type="button" data-testid="try-folder" @click=${() => void this.page.backups.look()}>Try again</button>`
          }
        </div>
      `;
    const how = isBehind
      ? "a change is about to be written there."
      : written === null
        ? "it begins with your first job."
        : "up to date.";
    return html`<p data-testid="folder-stand">A backup is kept in the folder “${folder}”: ${how}${last}</p>`;
  }

  readonly #name = (): void => {
    void this.page.backups.nameFolder();
  };
}
