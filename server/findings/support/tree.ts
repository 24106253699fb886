/** Walks the syntax tree in the order of the text. */
import type {
  Accept,
  Admonition,
  Block,
  Card,
  Check,
  Hazard,
  If,
  Name,
  Procedure,
  Repeat,
  Sign,
  Stage,
  Step,
  SyntaxNode,
  Together,
} from '../../../grammar/syntax.ts';

/** The node types that findings look for, by the name in their `type`. */
interface NodeTypes {
  readonly accept: Accept;
  readonly admonition: Admonition;
  readonly block: Block;
  readonly by: SyntaxNode & { readonly type: 'by'; readonly role?: Name };
  readonly card: Card;
  readonly check: Check;
  readonly hazard: Hazard;
  readonly if: If;
  readonly lane: Together['lanes'][number];
  readonly procedure: Procedure;
  readonly repeat: Repeat;
  readonly sign: Sign;
  readonly stage: Stage;
  readonly step: Step;
}

export function isOf<Type extends keyof NodeTypes>(node: SyntaxNode, type: Type): node is NodeTypes[Type] {
  return node.type === type;
}

export function* nodesIn(root: SyntaxNode): Generator<SyntaxNode> {
  yield root;
  for (const child of childrenOf(root)) yield* nodesIn(child);
}

function* childrenOf(node: object): Generator<SyntaxNode> {
  for (const value of Object.values(node)) {
    for (const part of Array.isArray(value) ? value : [value]) {
      if (typeof part !== 'object' || part === null) continue;
      if (typeof part.type === 'string') yield part as SyntaxNode;
      else yield* childrenOf(part);
    }
  }
}
