/** Entry of the worker that hears sweeps. */
import { serve } from "./serve.ts";
import { Sweeper } from "./sweep.ts";

serve(new Sweeper());
