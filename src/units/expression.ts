/**
 * Arithmetic as people type it, into a tree: mathjs's grammar, parse only. Whoever asks walks the tree and lets through what
 * makes sense to him. The parser is put together here from its own factories instead of by mathjs's `create`: nothing is ever
 * evaluated, so that functions, documentation and dispatch by type stay away, which are half the weight.
 */
import {
  createAccessorNode,
  createArrayNode,
  createAssignmentNode,
  createBlockNode,
  createConditionalNode,
  createConstantNode,
  createFunctionAssignmentNode,
  createFunctionNode,
  createIndexNode,
  createNode,
  createObjectNode,
  createOperatorNode,
  createParenthesisNode,
  createParse,
  createRangeNode,
  createRelationalNode,
  createSymbolNode,
  type MathNode,
} from "mathjs/number";
import { readArithmeticWith } from "./arithmetic.ts";

/** What mathjs hands over and does not declare: each takes what it rests on by name. */
type Factory<Made> = (restsOn: object) => Made;
declare module "mathjs/number" {
  const createNode: Factory<unknown>;
  const createAccessorNode: Factory<unknown>;
  const createArrayNode: Factory<unknown>;
  const createAssignmentNode: Factory<unknown>;
  const createBlockNode: Factory<unknown>;
  const createConditionalNode: Factory<unknown>;
  const createConstantNode: Factory<unknown>;
  const createFunctionAssignmentNode: Factory<unknown>;
  const createFunctionNode: Factory<unknown>;
  const createIndexNode: Factory<unknown>;
  const createObjectNode: Factory<unknown>;
  const createOperatorNode: Factory<unknown>;
  const createParenthesisNode: Factory<unknown>;
  const createParse: Factory<(text: string) => MathNode>;
  const createRangeNode: Factory<unknown>;
  const createRelationalNode: Factory<unknown>;
  const createSymbolNode: Factory<unknown>;
}

const notEvaluated = () => {
  throw new Error("an expression is read here, never evaluated");
};
/** Text is all that is parsed: no choice between kinds of argument. */
const typed = Object.assign((_name: string, { string: ofText }: { string: unknown }) => ofText, {
  addConversion: () => {},
});
const math = {};
const Node = createNode({ mathWithTransform: math });
const base = {
  typed,
  numeric: Number,
  config: { number: "number" },
  isBounded: Number.isFinite,
  subset: notEvaluated,
  size: notEvaluated,
  ResultSet: notEvaluated,
  math,
  Node,
  SymbolNode: createSymbolNode({ math, Node }),
};

/**
 * The tree of an expression.
 *
 * @throws {SyntaxError} where it is none
 */
export const parseExpression: (text: string) => MathNode = createParse({
  ...base,
  AccessorNode: createAccessorNode(base),
  ArrayNode: createArrayNode(base),
  AssignmentNode: createAssignmentNode(base),
  BlockNode: createBlockNode(base),
  ConditionalNode: createConditionalNode(base),
  ConstantNode: createConstantNode(base),
  FunctionAssignmentNode: createFunctionAssignmentNode(base),
  FunctionNode: createFunctionNode(base),
  IndexNode: createIndexNode(base),
  ObjectNode: createObjectNode(base),
  OperatorNode: createOperatorNode(base),
  ParenthesisNode: createParenthesisNode(base),
  RangeNode: createRangeNode(base),
  RelationalNode: createRelationalNode(base),
});

readArithmeticWith(parseExpression);
