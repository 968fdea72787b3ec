import { serve } from "../service/serve.ts";
import { Model } from "./model.ts";

serve(new Model());
