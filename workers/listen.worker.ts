/** Entry of the listening worker. */
import { Listener } from "./listen.ts";
import { serve } from "./serve.ts";

serve(new Listener());
