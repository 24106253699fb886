import { getOrInsert } from '../../../shared/maps.ts';
import { capital } from '../../../shared/text.ts';
import type { FindingSort, Found } from '../finding.ts';
import { declaredBounds, type Fault, type MeasuredBound, writtenBounds } from './limits.ts';
import { alikeIn } from './names.ts';

type Words = (measured: MeasuredBound) => Pick<Found, 'message'> & Partial<Found>;

/** The checks of a finding about bounds with one fault: those that a file declares, and those that its cards write out. */
export function faultsIn(fault: Fault, words: Words): Pick<FindingSort, 'inFile' | 'inCard'> {
  const said = new WeakMap<MeasuredBound, Found>();
  const saidOfOne = (one: MeasuredBound) =>
    one.fault === fault ? getOrInsert(said, one, () => saidOf(one, words)) : undefined;
  const found = (bounds: readonly MeasuredBound[]) => {
    if (!bounds.some((one) => one.fault === fault)) return [];
    const all = bounds.map((one) => ({ place: one.bound.place, found: saidOfOne(one) }));
    const fixes = alikeIn(all, (one) => one.found?.fixes ?? []);
    return all.flatMap((one) => (one.found ? { ...one.found, fixes: fixes(one) } : []));
  };
  return {
    inFile: ({ file, bound }) => found([...declaredBounds(bound.equipment, file)]),
    inCard: ({ card }) => found(writtenBounds(card)),
  };
}

function saidOf(measured: MeasuredBound, words: Words): Found {
  const { message, ...more } = words(measured);
  return { place: measured.bound.place, message: capital(message), ...more };
}
