/** Tests read typed arithmetic from the start, as the terminal does. */
import "../src/units/expression.ts";
