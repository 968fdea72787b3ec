/** What the statistics of a trial say of the newest question. */
import type { AnalysisRequest, PowerRequest, TrialStatistics } from "../../../../workers/trial/trial.ts";
import type { TrialAnalysis } from "../../../trial/analysis.ts";
import type { Power } from "../../../trial/power.ts";
import type { Connection } from "../../work/connection.ts";
import { openTrialWorker } from "../../work/openWorkers.ts";
import { Work, type WorkOptions } from "../../work/work.ts";
import { WorkerClient } from "../../work/workerClient.ts";

type Connect = () => Connection<TrialStatistics>;
type Asked<Request> = Omit<Request, "ticket">;

/** The chance to find a difference, for each number of repeats. */
export const powerWork = (connect?: Connect) =>
  statistics<Asked<PowerRequest>, readonly Power[]>(
    (client) => (question, tell, signal) =>
      client.run("power", null, question, (done, of) => tell(done / of), signal),
    connect,
  );

export const analysisWork = (connect?: Connect) =>
  statistics<Asked<AnalysisRequest>, TrialAnalysis>(
    (client) => (question, tell, signal) =>
      client.run("analyse", null, question, (done, of) => tell(done / of), signal),
    connect,
  );

function statistics<Question, Value extends object>(
  ask: (client: WorkerClient<TrialStatistics>) => WorkOptions<Question, Value, never>["ask"],
  connect: Connect = openTrialWorker,
) {
  const client = new WorkerClient({ connect });
  return new Work<Question, Value>({
    ask: ask(client),
    isSame: (a, b) => JSON.stringify(a) === JSON.stringify(b),
    restMs: 200,
    release: () => client.close(),
  });
}
