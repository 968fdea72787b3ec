/** A recording of one turn, if the player wants one: record, listen, delete. It stays in this browser. */
import { css, html, LitElement, nothing, type PropertyValues } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { controls } from "../../../shell/look/controls.ts";
import { icon } from "../../../shell/look/icon.ts";
import { Recordings } from "../../../sound/recordings.ts";
import { canRecord, type Recording, RecordingError, startRecording } from "./recorder.ts";

const NOT_KEPT =
  "This browser keeps no recordings here (a private window, or its storage is full). The trial needs none.";

@customElement("annulus-recording")
export class RecordingPanel extends LitElement {
  @property() trial = "";
  @property() code = "";
  @state() private problem = "";
  @state() private recording: Recording | null = null;
  /** Address of what was recorded at this turn. */
  @state() private address: string | null = null;
  readonly #recordings = new Recordings();

  static override styles = [
    controls,
    css`
      :host {
        display: block;
        padding-top: 0.75rem;
        border-top: 1px solid var(--hairline);
        font-size: var(--type-14);
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.5rem 0.75rem;
      }
      audio {
        flex: 1 1 14rem;
        min-width: 0;
        height: 2.75rem;
      }
      .on {
        border: 2px solid var(--gap);
      }
      .problem {
        padding-top: 0.4rem;
        color: var(--gap);
      }
      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  override render() {
    if (!canRecord())
      return html`<p class="muted">This browser cannot record; the trial needs no recording.</p>`;
    return html`
      <div class="row">
        ${
          this.recording
            ? html`<button type="button" class="on" data-testid="stop-recording" @click=${() => void this.#stop()}>${icon("stop")}Stop recording</button>`
            : html`<button type="button" data-testid="record" @click=${() => void this.#start()}>${this.address ? "Record again" : "Record this turn"}</button>`
        }
        ${
          this.address
            ? html`
                <audio controls src=${this.address} aria-label="Recording of ${this.code}"></audio>
                <button type="button" data-testid="delete-recording" @click=${() => void this.#remove()}>Delete</button>
              `
            : html`<span class="muted">If you like. It stays in this browser, with no second copy, and goes into no file, no link and no backup.</span>`
        }
      </div>
      <p class="problem" role="alert">${this.problem || nothing}</p>
    `;
  }

  /** Another turn: what is under way belongs to the one before. */
  protected override willUpdate(changed: PropertyValues): void {
    if (!changed.has("trial") && !changed.has("code")) return;
    const before = { trial: changed.get("trial") ?? this.trial, code: changed.get("code") ?? this.code };
    if (this.recording) void this.#end(before);
    this.problem = "";
    void this.#load();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    if (this.recording) void this.#end(this);
    this.#show(null);
  }

  async #start(): Promise<void> {
    this.problem = "";
    try {
      this.recording = await startRecording();
    } catch (error) {
      if (!(error instanceof RecordingError)) throw error;
      this.problem = error.message;
    }
  }

  async #stop(): Promise<void> {
    await this.#end(this);
    await this.#load();
  }

  async #end({ trial, code }: { readonly trial: string; readonly code: string }): Promise<void> {
    const recording = this.recording!;
    this.recording = null;
    const sound = await recording.stop();
    await this.#kept(() => this.#recordings.keep(trial, code, sound));
  }

  async #remove(): Promise<void> {
    await this.#kept(() => this.#recordings.remove(this.trial, this.code));
    await this.#load();
  }

  async #load(): Promise<void> {
    const { code } = this;
    const sounds = await this.#kept(() => this.#recordings.of(this.trial));
    if (code === this.code) this.#show(sounds?.get(code) ?? null);
  }

  #show(sound: Blob | null): void {
    if (this.address) URL.revokeObjectURL(this.address);
    this.address = sound && URL.createObjectURL(sound);
  }

  /** A browser may refuse to keep anything. */
  async #kept<T>(work: () => Promise<T>): Promise<T | null> {
    try {
      return await work();
    } catch {
      this.problem = NOT_KEPT;
      return null;
    }
  }
}
