import { serve } from "../service/serve.ts";
import { SecondCopy } from "./secondCopy.ts";

serve(new SecondCopy());
