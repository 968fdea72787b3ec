/** The model's worker, and how long it may be silent: it answers a hand. */
import type { Model } from "../../../workers/instrument/model.ts";
import { connectionTo } from "./connection.ts";
import { takeWorker } from "./firstWorker.ts";

export const MODEL = { connect: () => connectionTo<Model>(takeWorker()), patienceS: 8 };
