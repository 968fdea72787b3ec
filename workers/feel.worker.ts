import { Feel } from "./feel.ts";
import { serve } from "./serve.ts";

serve(new Feel());
