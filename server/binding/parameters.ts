/** What a procedure is done with, before anybody does it. */
import type * as syntax from '../../grammar/syntax.ts';
import type { Item, Kind } from '../../shared/card.ts';
import { reportSecond } from './duplicates.ts';
import { type Callable, findKind, inWords, type Scope, type Thing } from './names.ts';
import type { Declared } from './references.ts';

/** An item of the asked kind that is on no machine, or a gauge of which nothing is known. */
export type Parameter = Thing;

export function bindParameters(scope: Scope, { node, declared: owner }: Callable): readonly Parameter[] {
  if (node.type === 'card') return [];
  const byName = new Map<string, Parameter>();
  for (const { name, kind } of node.parameters) {
    const first = byName.get(name.text)?.declared;
    if (first) reportSecond(scope, name, 'parameter', first);
    else
      byName.set(
        name.text,
        bindParameter(scope, scope.work.references.declare('parameter', name, scope.file, owner), kind),
      );
  }
  return [...byName.values()];
}

function bindParameter(scope: Scope, declared: Declared, kindName: syntax.Name | undefined): Parameter {
  if (kindName === undefined) return { sort: 'parameter', declared };
  if (kindName.text === 'gauge') return { sort: 'gauge', declared };
  const kind = findKind(scope, kindName)?.kind;
  return kind ? { sort: 'item', declared, item: someItem(declared, kind) } : { sort: 'parameter', declared };
}

/** Stands for any item of a kind. It must not come into the model of a card. */
export function someItem({ name, place }: Declared, kind: Kind): Item {
  return { id: -1, name, label: inWords(name), kind, verify: false, may: [], needs: [], duties: [], place };
}

/** The parameter where no fitting argument was given: what it stands for is not known. */
export function unsettled({ sort, declared }: Parameter): Thing {
  return { sort, declared };
}
