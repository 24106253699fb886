/** Names that a card file declares and nothing uses. */
import type { Work } from './names.ts';
import type { Declared, Sort } from './references.ts';

/** States and nodes come with their kind and supply; cards, rules and hazards do their work without being named. */
const askedFor: ReadonlySet<Sort> = new Set([
  'kind',
  'item',
  'gauge',
  'limit',
  'supply',
  'variant',
  'procedure',
  'parameter',
  'role',
  'label',
]);

/** What others may use (the declarations of a file without a card) is never called unused. */
export function reportUnused(work: Work, file: string): void {
  const { declared } = work.references;
  if (!declared.some(({ sort, place }) => sort === 'card' && place.file === file)) return;
  const used = work.references.used();
  for (const each of declared) {
    if (each.place.file === file && !used.has(each) && isAskedFor(work, each, used)) {
      work.problems.add({ type: 'unused', place: each.place, name: each.name, sort: each.sort });
    }
  }
}

/** Of an unused thing its parts are not reported too; neither is what a slip of the pen may have meant. */
function isAskedFor(work: Work, { sort, name, owner }: Declared, used: ReadonlySet<Declared>): boolean {
  if (!askedFor.has(sort) || work.lost.has(name) || work.perhapsMeant.has(name)) return false;
  const thing = sort === 'item' || sort === 'supply' ? work.names.things.get(name) : undefined;
  const whole = thing?.item?.kind ?? thing?.supply;
  if (whole && work.takenWhole.has(whole)) return false;
  return owner === undefined || used.has(owner) || !askedFor.has(owner.sort);
}
