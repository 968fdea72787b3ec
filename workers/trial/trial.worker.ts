import { serve } from "../service/serve.ts";
import { TrialStatistics } from "./trial.ts";

serve(new TrialStatistics());
