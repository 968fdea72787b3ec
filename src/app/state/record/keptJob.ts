/** One job as the record has it, read before the first drawing: without the database's library, which comes later. */

import type { Revision } from "../../../record/revision.ts";
import { isRecord } from "../../../setup/file/jsonRecord.ts";
import { readJobMark } from "./jobMark.ts";

/** As in `database.ts`, which brings the library. */
const DATABASE = "annulus";

export async function keptJob(
  id: string,
  factory: IDBFactory = indexedDB,
): Promise<{ readonly revision: Revision; readonly document: unknown } | null> {
  const database = await opened(factory);
  try {
    const stores = database.transaction(["jobs", "documents"]);
    const [row, kept] = await Promise.all(
      ["jobs", "documents"].map((name) => answer<unknown>(stores.objectStore(name).get(id))),
    );
    if (!isRecord(row) || !isRecord(kept) || row.deleted !== null) return null;
    const mark = readJobMark({ id, revision: row.revision });
    return mark && { revision: mark.revision, document: kept.document };
  } finally {
    database.close();
  }
}

function opened(factory: IDBFactory): Promise<IDBDatabase> {
  // of whatever version it is
  const request = factory.open(DATABASE);
  // there is none: it is not for this one to make it
  request.onupgradeneeded = () => request.transaction?.abort();
  return answer(request);
}

const answer = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
