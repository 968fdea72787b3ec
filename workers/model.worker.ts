import { Model } from "./model.ts";
import { serve } from "./serve.ts";

serve(new Model());
