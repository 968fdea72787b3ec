import { serve } from "../service/serve.ts";
import { Compare } from "./compare.ts";

serve(new Compare());
