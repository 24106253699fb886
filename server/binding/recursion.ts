/** What does itself, directly or by way of others. */
import type * as syntax from '../../grammar/syntax.ts';
import { deepestDo } from './body.ts';
import { bodyOf, type Callable, placeOf, type Work } from './names.ts';

/** The `do`s that close a circle, each reported once; written out they would never end. */
export function refuseRecursion(work: Work): ReadonlySet<syntax.Do> {
  const refused = new Set<syntax.Do>();
  const finished = new Set<Callable>();
  const visit = (callable: Callable, way: readonly Callable[]): void => {
    if (finished.has(callable) || way.length > deepestDo) return;
    const onward = [...way, callable];
    for (const node of dosIn(bodyOf(callable.node))) {
      const called = node.name && work.names.callables.get(node.name.text);
      if (called === undefined || node.name === undefined) continue;
      const first = onward.indexOf(called);
      if (first < 0) visit(called, onward);
      else {
        refused.add(node);
        const through = [...onward.slice(first), called].map(({ declared }) => declared.name);
        const { sort, name } = called.declared;
        work.problems.add({ type: 'recursion', place: placeOf(callable, node.name), name, sort, through });
      }
    }
    finished.add(callable);
  };
  for (const callable of work.names.callables.values()) visit(callable, []);
  return refused;
}

function* dosIn(statements: readonly (syntax.Stage | syntax.Statement)[]): Iterable<syntax.Do> {
  for (const statement of statements) {
    if (statement.type === 'do') yield statement;
    else for (const block of blocksOf(statement)) yield* dosIn(block);
  }
}

/** The statements directly inside a stage or statement, block by block. */
function blocksOf(node: syntax.Stage | syntax.Statement): readonly (readonly syntax.Statement[])[] {
  switch (node.type) {
    case 'stage':
    case 'repeat':
    case 'for-each':
      return [node.body?.statements ?? []];
    case 'if':
      return [
        node.body?.statements ?? [],
        node.otherwise?.type === 'if' ? [node.otherwise] : (node.otherwise?.statements ?? []),
      ];
    case 'together':
      return node.lanes.map((lane) => lane.body?.statements ?? []);
    case 'choose':
      return node.ways.map((way) => way.body?.statements ?? []);
    case 'step':
      return node.actions.flatMap((action) => ('mend' in action && action.mend ? [action.mend.statements] : []));
    default:
      return [];
  }
}
