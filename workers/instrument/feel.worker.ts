import { serve } from "../service/serve.ts";
import { Feel } from "./feel.ts";

serve(new Feel());
