/** A property that fails says so at once: making its case smaller can take hours where each try is a whole instrument. */
import fc from "fast-check";

fc.configureGlobal({ endOnFailure: true });
