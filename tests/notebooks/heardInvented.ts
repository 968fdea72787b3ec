/** The invented take as the notebook has it once it is listened to. */
import { inventedFile } from "../../notebooks/your-own-slot/invented.ts";
import { askedOf } from "../../notebooks/your-own-slot/takeInput.ts";
import type { Found } from "../../src/app/tasks/listen/session.ts";
import { listenTo } from "../../src/listen/take.ts";
import { wavBlocks } from "../../src/listen/wav.ts";
import type { InstrumentKind } from "../../src/setup/instrumentKind.ts";

export async function heardInvented(partial: number, kind: InstrumentKind): Promise<Found> {
  const asked = askedOf(partial, kind);
  const sound = inventedFile(asked.hz, partial);
  const bytes = new Uint8Array(await sound.arrayBuffer());
  const take = listenTo(() => wavBlocks([bytes]), asked.question);
  return { asked, take, points: [], sound, address: "", file: sound.name };
}
