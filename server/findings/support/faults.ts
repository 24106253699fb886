import { capital } from '../../../shared/text.ts';
import type { FindingSort, Found } from '../finding.ts';
import { declaredBounds, type Fault, type MeasuredBound, writtenBounds } from './limits.ts';

type Words = (measured: MeasuredBound) => Pick<Found, 'message'> & Partial<Found>;

/** The checks of a finding about bounds with one fault: those that a file declares, and those that its cards write out. */
export function faultsIn(fault: Fault, words: Words): Pick<FindingSort, 'inFile' | 'inCard'> {
  return {
    inFile: ({ file, bound }) => found(declaredBounds(bound.equipment, file), fault, words),
    inCard: ({ card }) => found(writtenBounds(card), fault, words),
  };
}

function* found(bounds: Iterable<MeasuredBound>, fault: Fault, words: Words): Iterable<Found> {
  for (const measured of bounds) {
    if (measured.fault !== fault) continue;
    const { message, ...more } = words(measured);
    yield { place: measured.bound.place, message: capital(message), ...more };
  }
}
