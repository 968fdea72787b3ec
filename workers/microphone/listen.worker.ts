/** Entry of the listening worker. */

import { serve } from "../service/serve.ts";
import { Listener } from "./listen.ts";

serve(new Listener());
