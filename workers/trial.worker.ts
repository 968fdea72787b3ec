import { serve } from "./serve.ts";
import { TrialStatistics } from "./trial.ts";

serve(new TrialStatistics());
