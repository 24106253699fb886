/**
 * z3 as a second oracle: linear arithmetic and choices, solved by somebody else's code.
 * Questions are texts in SMT-LIB (smt-lib.org, version 2.6). The library's own objects are freed when memory is collected,
 * and where that falls into a thread that is solving, it stands still or asks for memory without end; these are freed here.
 */
import { init, Z3_lbool } from 'z3-solver';

const started = init();

interface Solution {
  readonly isMet: boolean;
  /** The best value of what was to be made greatest or least. */
  readonly best: () => number;
}

async function solve<Answer>(script: readonly string[], answer: (solution: Solution) => Answer): Promise<Answer> {
  const { Z3 } = await started;
  const context = Z3.mk_context(Z3.mk_config());
  const question = Z3.mk_optimize(context);
  Z3.optimize_inc_ref(context, question);
  try {
    Z3.optimize_from_string(context, question, script.join('\n'));
    if (Z3.get_error_code(context) !== 0) throw new Error(`The solver cannot read:\n${script.join('\n')}`);
    const verdict = await Z3.optimize_check(context, question, []);
    if (verdict === Z3_lbool.Z3_L_UNDEF) throw new Error(`The solver gives up:\n${script.join('\n')}`);
    return answer({
      isMet: verdict === Z3_lbool.Z3_L_TRUE,
      best: () => Number(Z3.get_numeral_string(context, Z3.optimize_get_lower(context, question, 0))),
    });
  } finally {
    Z3.optimize_dec_ref(context, question);
    Z3.del_context(context);
  }
}

/** Can this claim about what is declared be met? */
export function isSatisfiable(declared: readonly string[], claim: string): Promise<boolean> {
  return solve([...declared, `(assert ${claim})`], ({ isMet }) => isMet);
}

export const all = (claims: readonly string[]) => `(and true ${claims.join(' ')})`;
export const any = (claims: readonly string[]) => `(or false ${claims.join(' ')})`;
const sum = (terms: readonly string[]) => `(+ 0 0 ${terms.join(' ')})`;

/** One way on through a timed graph: it takes from `low` to `high` seconds, without end where `high` is absent. */
export interface Edge {
  readonly from: number;
  readonly to: number;
  readonly low: number;
  readonly high?: number;
}

/** The greatest and least time from node 0 to `end` over all ways and all times; `most` undefined where nothing bounds it. */
export async function timeThrough(
  edges: readonly Edge[],
  end: number,
): Promise<{ readonly least: number; readonly most?: number }> {
  const endless = edges.flatMap(({ high }, index) => (high === undefined ? [`taken-${index}`] : []));
  const unbounded = await isSatisfiable(ways(edges, end), any(endless));
  const least = await best(edges, end, 'minimize');
  return unbounded ? { least } : { least, most: await best(edges, end, 'maximize') };
}

/** Which edges are taken: one way out of each node that is entered, and one into it. */
function ways(edges: readonly Edge[], end: number): readonly string[] {
  const taken = (side: 'from' | 'to', node: number) =>
    sum(edges.flatMap((edge, index) => (edge[side] === node ? [`(ite taken-${index} 1 0)`] : [])));
  const rule = (node: number) => {
    if (node === 0) return `(= ${taken('from', node)} 1)`;
    if (node === end) return `(= ${taken('to', node)} 1)`;
    return `(and (= ${taken('from', node)} ${taken('to', node)}) (<= ${taken('from', node)} 1))`;
  };
  const nodes = [...new Set(edges.flatMap((edge) => [edge.from, edge.to]))];
  return [
    ...edges.map((_, index) => `(declare-const taken-${index} Bool)`),
    ...nodes.map((node) => `(assert ${rule(node)})`),
  ];
}

async function best(edges: readonly Edge[], end: number, direction: 'maximize' | 'minimize'): Promise<number> {
  const times = edges.flatMap(({ low, high }, index) => [
    `(declare-const time-${index} Real)`,
    `(assert (>= time-${index} ${low}))`,
    ...(high === undefined ? [] : [`(assert (<= time-${index} ${high}))`]),
  ]);
  const total = sum(edges.map((_, index) => `(ite taken-${index} time-${index} 0.0)`));
  const script = [...ways(edges, end), ...times, `(${direction} ${total})`];
  const seconds = await solve(script, ({ isMet, best }) => (isMet ? best() : Number.NaN));
  if (Number.isNaN(seconds)) throw new Error('The timed graph has no way through.');
  return seconds;
}
