/** Entry of the worker that hears sweeps. */
import { serve } from "../service/serve.ts";
import { Sweeper } from "./sweep.ts";

serve(new Sweeper());
