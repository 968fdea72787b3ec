import { serve } from "../service/serve.ts";
import { VoiceMaker } from "./voice.ts";

serve(new VoiceMaker());
