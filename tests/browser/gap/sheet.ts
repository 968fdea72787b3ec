/** The sheet as a person reads and uses it. */
import type { Page, Worker } from "playwright-core";

/** The model has answered: the headline says what the change of gap does, or that there is none. */
export const answered = (page: Page): Promise<void> =>
  page
    .getByTestId("headline")
    .getByText(/the gap by|gap compared with/)
    .first()
    .waitFor();

/** The worker that answers the sheet; another may have been started before it. */
export function modelWorkerOf(page: Page): Worker {
  const worker = page.workers().find((one) => one.url().includes("model.worker"));
  if (!worker) throw new Error(`no worker of the model among ${page.workers().map((one) => one.url())}`);
  return worker;
}

export const gapText = (page: Page): Promise<string> => page.getByTestId("gap-value").innerText();

/** The largest thing on the page comes to say this. */
export const showsGap = (page: Page, text: string): Promise<void> =>
  page.getByTestId("gap-value").filter({ hasText: text }).waitFor();

export async function typeGap(page: Page, text: string): Promise<void> {
  await page.getByTestId("gap-field").fill(text);
  await page.getByTestId("gap-field").press("Enter");
}

/** A file let go over the page. */
export async function drop(page: Page, name: string, text: string): Promise<void> {
  await page.evaluate(
    ([fileName, content]) => {
      const data = new DataTransfer();
      data.items.add(new File([content], fileName, { type: "application/json" }));
      const target = document.querySelector("annulus-app")!;
      for (const type of ["dragenter", "dragover", "drop"])
        target.dispatchEvent(
          new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true, composed: true }),
        );
    },
    [name, text] as const,
  );
}
