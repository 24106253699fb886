/** Who does whom: procedures and cards, and the `do` lines between them. */
import { all, type NodeOf } from '../../grammar/navigate.ts';
import type { Place, Span } from '../../shared/text.ts';
import type { Declared } from '../binding/bind.ts';
import type { Snapshot } from '../snapshot.ts';
import { isSame, nameAt } from './names.ts';

/** A procedure or card. */
export interface Callable {
  readonly declared: Declared;
  readonly title: string;
  /** All of it, in the file of `declared`. */
  readonly span: Span;
}

export interface Call {
  readonly callable: Callable;
  /** The places of the names after `do`, all in one file. */
  readonly places: readonly Place[];
}

/** The procedure or card that is named at an offset. */
export function callableAt(snapshot: Snapshot, offset: number, others: readonly Snapshot[]): Callable | undefined {
  const named = nameAt(snapshot.bound.references, snapshot.file, offset);
  if (!named || (named.declared.sort !== 'procedure' && named.declared.sort !== 'card')) return undefined;
  const home = [snapshot, ...others].find(({ file }) => file === named.declared.place.file);
  return home && callables(home).find(({ declared }) => isSame(declared, named.declared));
}

/** What a procedure or card does. */
export function outgoing(from: Callable, home: Snapshot, others: readonly Snapshot[]): Call[] {
  return grouped(
    dosIn(home).filter(({ place }) => inside(place, from)),
    ({ target }) => findCallable(target, [home, ...others]),
  );
}

/** Who does a procedure or card. */
export function incoming(to: Callable, everywhere: readonly Snapshot[]): Call[] {
  return everywhere.flatMap((home) => {
    const callers = callables(home);
    const dos = dosIn(home).filter(({ target }) => isSame(target, to.declared));
    return grouped(dos, ({ place }) => callers.find((caller) => inside(place, caller)));
  });
}

interface DoLine {
  readonly place: Place;
  readonly target: Declared;
}

function dosIn({ file, parsed, bound }: Snapshot): DoLine[] {
  const names = all(parsed.file, 'do').flatMap(({ name }) => name ?? []);
  return bound.references.uses
    .filter(({ place }) => place.file === file && names.some((name) => name.start === place.start))
    .map(({ place, declared }) => ({ place, target: declared }));
}

function callables({ file, parsed, bound }: Snapshot): Callable[] {
  const nodes: (NodeOf<'procedure'> | NodeOf<'card'>)[] = [
    ...all(parsed.file, 'procedure'),
    ...all(parsed.file, 'card'),
  ];
  return nodes.flatMap((node) => {
    const declared = bound.references.declared.find(
      ({ place }) => place.file === file && place.start === node.name?.start,
    );
    return declared
      ? [{ declared, title: node.title?.value ?? declared.name, span: { start: node.start, end: node.end } }]
      : [];
  });
}

function findCallable(target: Declared, snapshots: readonly Snapshot[]): Callable | undefined {
  const home = snapshots.find(({ file }) => file === target.place.file);
  return home && callables(home).find(({ declared }) => isSame(declared, target));
}

function grouped(dos: readonly DoLine[], callableOf: (line: DoLine) => Callable | undefined): Call[] {
  const calls: { callable: Callable; places: Place[] }[] = [];
  for (const line of dos) {
    const callable = callableOf(line);
    const known = calls.find((call) => callable && isSame(call.callable.declared, callable.declared));
    if (known) known.places.push(line.place);
    else if (callable) calls.push({ callable, places: [line.place] });
  }
  return calls;
}

function inside(place: Place, { declared, span }: Callable): boolean {
  return place.file === declared.place.file && span.start <= place.start && place.end <= span.end;
}
