import type * as syntax from '../../grammar/syntax.ts';
import type { KindState } from '../../shared/card.ts';
import type { Declarations, Found } from './declare.ts';
import { reportSecond } from './duplicates.ts';
import { type KindEntry, placeOf, type Work } from './names.ts';
import type { Declared } from './references.ts';

/** Kinds with their states; a state that is named twice is kept once. */
export function bindKinds(work: Work, { kinds }: Declarations): void {
  for (const found of kinds) {
    const entry = bindKind(work, found);
    work.names.kinds.set(entry.kind.name, entry);
    work.names.kindEntries.set(entry.kind, entry);
  }
}

function bindKind(work: Work, { scope, node, declared }: Found<syntax.Kind>): KindEntry {
  const states: KindState[] = [];
  const byName = new Map<string, { index: number; declared: Declared }>();
  for (const { name, printed, wording, others } of node.states) {
    const first = byName.get(name.text);
    if (first) {
      reportSecond(scope, name, 'state', first.declared);
      continue;
    }
    byName.set(name.text, {
      index: states.length,
      declared: work.references.declare('state', name, scope.file, declared),
    });
    states.push({
      name: name.text,
      ...(printed && { printed: printed.value }),
      wording: wording?.value,
      ...(others && { others: others.map(({ value }) => value) }),
      place: placeOf(scope, name),
    });
  }
  const kind = { name: declared.name, seen: node.seen, states, place: declared.place };
  return { declared, kind, states: byName };
}
