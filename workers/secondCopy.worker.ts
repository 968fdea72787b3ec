import { SecondCopy } from "./secondCopy.ts";
import { serve } from "./serve.ts";

serve(new SecondCopy());
