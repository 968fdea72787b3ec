import { Compare } from "./compare.ts";
import { serve } from "./serve.ts";

serve(new Compare());
