/** Entry of the worker that makes voices. */
import { expose } from "comlink";
import { VoiceMaker } from "./voice.ts";

expose(new VoiceMaker());
