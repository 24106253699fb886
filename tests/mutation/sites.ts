/**
 * Where the text of a source file can be changed so that its meaning changes: small slips that a test should notice. They are
 * those customary in mutation testing (another operator, a condition turned round or left out, a statement left out, a bound
 * off by one, a list unsorted or unfiltered, the other end of a list).
 *
 * Three sorts of change are left out, since they change nothing by their nature: texts (tests name codes, never sentences); the
 * sizes of arrays that are filled at once; how much work is done at most before the engine blends, gives up or gives way
 * (65 places for 64). Of `a ?? b` one change is made, `a && b`: it is wrong where there is an `a` and where there is none, while
 * `a` alone is the same program wherever the `b` is there for the types only.
 */
import { parseSync } from '@swc/core';

/** One change of one file. */
export interface Mutation {
  readonly file: string;
  /** Offsets into the text. */
  readonly start: number;
  readonly end: number;
  readonly original: string;
  readonly replacement: string;
  /** From 1. */
  readonly line: number;
  /** The text of that line, without the blanks around it. */
  readonly source: string;
}

/** Of the syntax tree only what is looked at here. Every node has a type and a span, and most have more nodes in their properties. */
interface Node {
  readonly type: string;
  readonly span: { readonly start: number; readonly end: number };
  readonly [property: string]: unknown;
}

interface Change {
  readonly node: Node;
  readonly replacement: string;
}

type TextOf = (node: Node) => string;

const otherOperators: Readonly<Record<string, readonly string[]>> = {
  '===': ['!=='],
  '!==': ['==='],
  '<': ['<=', '>='],
  '<=': ['<', '>'],
  '>': ['>=', '<='],
  '>=': ['>', '<'],
  '&&': ['||'],
  '||': ['&&'],
  '??': ['&&'],
  '+': ['-'],
  '-': ['+'],
  '*': ['/'],
  '/': ['*'],
  '%': ['*'],
  '&': ['|'],
  '|': ['&'],
  '<<': ['>>'],
  '>>': ['<<'],
};

const otherAssignments: Readonly<Record<string, string>> = {
  '+=': '-=',
  '-=': '+=',
  '&=': '|=',
  '|=': '&=',
  '??=': '=',
  '||=': '&&=',
  '&&=': '||=',
};

const otherMethods: ReadonlyMap<string, string> = new Map([
  ['min', 'max'],
  ['max', 'min'],
  ['floor', 'ceil'],
  ['ceil', 'floor'],
  ['some', 'every'],
  ['every', 'some'],
  ['push', 'unshift'],
  ['find', 'findLast'],
  ['findIndex', 'findLastIndex'],
]);

/** Methods that give a list for a list: a call is dropped. */
const droppedMethods = new Set(['filter', 'sort', 'toSorted', 'reverse', 'toReversed', 'slice']);

/** Keep the expression inside a type's clothes; all other nodes of types mean nothing when the program runs. */
const expressionsWithTypes = new Set([
  'TsAsExpression',
  'TsNonNullExpression',
  'TsSatisfiesExpression',
  'TsConstAssertion',
  'TsParameterProperty',
]);

export function mutationsOf(file: string, text: string): Mutation[] {
  // Spans count UTF-8 bytes over all texts that were parsed so far: a first statement of our own shows where this one begins.
  const prefix = '0;';
  const module = parseSync(prefix + text, { syntax: 'typescript', target: 'es2022' });
  const [first] = module.body as unknown as readonly [Node];
  const base = first.span.start + prefix.length;
  const bytes = Buffer.from(text);
  const offset = (position: number) => bytes.subarray(0, position - base).toString().length;
  const textOf: TextOf = ({ span }) => bytes.subarray(span.start - base, span.end - base).toString();
  const lines = text.split('\n');
  const lineAt = (position: number) => text.slice(0, position).split('\n').length;
  return [...nodesIn(module.body)]
    .flatMap((node) => changesOf(node, textOf))
    .filter(({ node }) => node.span.start >= base)
    .map(({ node, replacement }) => {
      const [start, end] = [offset(node.span.start), offset(node.span.end)];
      const line = lineAt(start);
      const source = (lines[line - 1] ?? '').trim();
      return { file, start, end, original: text.slice(start, end), replacement, line, source };
    })
    .filter(({ source }) => !isAllocation(source) && !isBoundOnWork(source));
}

/** Sizes of arrays that are filled at once: no path hangs on them. */
function isAllocation(line: string): boolean {
  return /new (Array|Int32Array|Uint8Array)\(/.test(line);
}

/** `const mostStarts = 64;`. Where it is compared is not left out. */
function isBoundOnWork(line: string): boolean {
  return /^(export )?const (most[A-Z]\w*|placesInPart) = [\d_]+;$/.test(line);
}

/** Every node that means something when the program runs. Some hide in objects that are no nodes: the function of a method, an argument of a call. */
function* nodesIn(value: unknown): Generator<Node> {
  if (typeof value !== 'object' || value === null) return;
  if (isNode(value)) {
    if (value.type.startsWith('Ts') && !expressionsWithTypes.has(value.type)) return;
    if (value.type === 'ImportDeclaration') return;
    yield value;
  }
  for (const child of Object.values(value)) yield* nodesIn(child);
}

function isNode(value: object): value is Node {
  return 'type' in value && 'span' in value;
}

function changesOf(node: Node, textOf: TextOf): Change[] {
  const changes = (changers[node.type]?.(node, textOf) ?? []).map((replacement) => ({ node, replacement }));
  return [...changes, ...droppedStatements(node)];
}

const changers: Readonly<Record<string, (node: Node, textOf: TextOf) => string[]>> = {
  BinaryExpression: changedOperator,
  AssignmentExpression: (node, textOf) => {
    const other = otherAssignments[node.operator as string];
    return other ? [`${textOf(node.left as Node)} ${other} ${textOf(node.right as Node)}`] : [];
  },
  UpdateExpression: (node, textOf) => [
    textOf(node).replace(/\+\+|--/, (operator) => (operator === '++' ? '--' : '++')),
  ],
  UnaryExpression: (node, textOf) => (node.operator === '!' ? [`(${textOf(node.argument as Node)})`] : []),
  BooleanLiteral: (node) => [String(!node.value)],
  NumericLiteral: ({ value }) => [String(value === 1 ? 0 : (value as number) + 1)],
  ConditionalExpression: (node, textOf) =>
    isNegatedItself(node.test as Node)
      ? []
      : [`(${textOf(node.test as Node)}) ? (${textOf(node.alternate as Node)}) : (${textOf(node.consequent as Node)})`],
  IfStatement: changedIf,
  CallExpression: changedCall,
};

function changedOperator(node: Node, textOf: TextOf): string[] {
  const [left, right] = [node.left as Node, node.right as Node];
  const [leftText, rightText] = [textOf(left), textOf(right)];
  const isText = [left, right].some(({ type }) => type === 'StringLiteral' || type === 'TemplateLiteral');
  if (node.operator === '+' && isText) return [];
  return (otherOperators[node.operator as string] ?? []).map((other) => `((${leftText}) ${other} (${rightText}))`);
}

/** The condition the other way round; without an `else`, also the whole statement left out. */
function changedIf(node: Node, textOf: TextOf): string[] {
  const [test, consequent, alternate] = [
    node.test as Node,
    node.consequent as Node,
    node.alternate as Node | undefined,
  ];
  const rest = alternate ? ` else ${textOf(alternate)}` : '';
  const negated = isNegatedItself(test) ? [] : [`if (!(${textOf(test)})) ${textOf(consequent)}${rest}`];
  return alternate ? negated : [...negated, ';'];
}

/** Its own changes turn it round already. */
function isNegatedItself({ type, operator }: Node): boolean {
  return operator === '!' || (type === 'BinaryExpression' && (operator === '===' || operator === '!=='));
}

function changedCall(node: Node, textOf: TextOf): string[] {
  const callee = node.callee as Node;
  if (callee.type !== 'MemberExpression') return [];
  const object = callee.object as Node;
  const method = (callee.property as Node).value as string;
  const dropped = droppedMethods.has(method) ? [`(${textOf(object)})`] : [];
  const other = otherMethods.get(method);
  if (!other) return dropped;
  const called = textOf(callee);
  const rest = textOf(node).slice(called.length);
  return [...dropped, `${called.slice(0, called.length - method.length)}${other}${rest}`];
}

/** Calls and assignments in a block, each left out by itself. */
function droppedStatements(node: Node): Change[] {
  const statements = (node.type === 'BlockStatement' ? node.stmts : []) as readonly Node[];
  return statements
    .filter((statement) => statement.type === 'ExpressionStatement')
    .filter((statement) => !isSuperCall(statement.expression as Node))
    .map((statement) => ({ node: statement, replacement: ';' }));
}

function isSuperCall(expression: Node): boolean {
  return expression.type === 'CallExpression' && (expression.callee as Node).type === 'Super';
}

export function mutated(text: string, { start, end, replacement }: Mutation): string {
  return text.slice(0, start) + replacement + text.slice(end);
}
