import { serve } from "./serve.ts";
import { VoiceMaker } from "./voice.ts";

serve(new VoiceMaker());
