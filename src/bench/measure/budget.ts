/** What an uncertainty is made of: one row a component, each with its share of the variance (JCGM 100:2008, 5.1 and H.1.6). */
import {
  combinedUncertainty,
  effectiveDegreesOfFreedom,
  type UncertaintyComponent,
} from "./combinedUncertainty.ts";

export interface NamedComponent {
  /** Its code, such as "depth-repeats". */
  readonly component: string;
  /** In the unit of the result; undefined when the readings cannot tell. */
  readonly standardUncertainty: number | undefined;
  /** Infinity for what is known exactly; undefined as the uncertainty. */
  readonly degreesOfFreedom: number | undefined;
}

export interface BudgetRow extends NamedComponent {
  /** u² of this component over u² of the whole, 0 to 1; the rows' shares sum to 1. Undefined when the whole is unknown. */
  readonly varianceShare: number | undefined;
}

export interface Budget {
  readonly rows: readonly BudgetRow[];
  /** Undefined as soon as one component is unknown, or when all are 0, which no measurement can claim. */
  readonly standardUncertainty: number | undefined;
  /** Welch–Satterthwaite, not rounded. */
  readonly degreesOfFreedom: number | undefined;
}

/** Independent components, each already times its sensitivity coefficient, put together. */
export function uncertaintyBudget(components: readonly NamedComponent[]): Budget {
  const known = components.filter(isKnown);
  const combined = combinedUncertainty(known);
  const isWhole = known.length === components.length && combined > 0;
  return {
    rows: components.map((component) => ({
      ...component,
      varianceShare: isWhole ? (component.standardUncertainty! / combined) ** 2 : undefined,
    })),
    standardUncertainty: isWhole ? combined : undefined,
    degreesOfFreedom: isWhole ? effectiveDegreesOfFreedom(known) : undefined,
  };
}

const isKnown = (component: NamedComponent): component is NamedComponent & UncertaintyComponent =>
  component.standardUncertainty !== undefined && component.degreesOfFreedom !== undefined;
