/** What a reader moves: native controls with their value in words, made to be handed to a cell's `view`. */
import { html, render } from "lit";

/** An element with a value; it sends `input` when the reader changes it. */
export type Input<Value> = HTMLElement & { value: Value };

const input = <Value>(element: HTMLElement, value: Value): Input<Value> => Object.assign(element, { value });

export interface SliderOptions {
  readonly label: string;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  readonly value: number;
  /** The value as it is written beside the slider, with its unit. */
  readonly text: (value: number) => string;
  /** A name for tests and links; the label where it is left out. */
  readonly name?: string;
}

/** A slider; arrow keys move it by its step. */
export function slider({ label, min, max, step, value, text, name = label }: SliderOptions): Input<number> {
  const row = input(document.createElement("label"), value);
  row.className = "slider";
  const show = () =>
    render(
      html`
        <span class="label">${label}</span>
        <span class="value">${text(row.value)}</span>
        <input
          type="range"
          name=${name}
          min=${min}
          max=${max}
          step=${step}
          .value=${`${row.value}`}
          aria-label=${label}
          aria-valuetext=${text(row.value)}
          @input=${(event: Event) => {
            row.value = (event.target as HTMLInputElement).valueAsNumber;
            show();
          }}
        />
      `,
      row,
    );
  show();
  return row;
}

export interface ChoiceOptions<Value extends string> {
  readonly label: string;
  /** Values and how each is written, the first chosen. */
  readonly options: readonly (readonly [value: Value, text: string])[];
  readonly value?: Value;
}

/** One of a few. */
export function choice<Value extends string>({
  label,
  options,
  value = options[0][0],
}: ChoiceOptions<Value>): Input<Value> {
  const group = input(document.createElement("fieldset"), value);
  group.className = "choice";
  render(
    html`
      <legend>${label}</legend>
      ${options.map(
        ([one, text]) => html`
          <label>
            <input
              type="radio"
              name=${label}
              .value=${one}
              .checked=${one === value}
              @input=${() => {
                group.value = one;
              }}
            />
            ${text}
          </label>
        `,
      )}
    `,
    group,
  );
  return group;
}
