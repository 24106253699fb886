import type { Bound, Gauge, Limit } from '../../shared/card.ts';
import type { Fix, PathPlace } from '../../shared/finding.ts';
import { boundWords, quantityWords, roundedInward, senseOf, toBase } from '../../shared/quantity.ts';
import type { Quantity } from '../../shared/units.ts';
import type { FindingSort } from './finding.ts';
import { replace } from './support/edits.ts';
import { faultsIn } from './support/faults.ts';
import { type LooserEnd, looserEnds, type MeasuredBound } from './support/limits.ts';
import { pathPlace } from './support/words.ts';

export const limitLooser: FindingSort = {
  code: 'limit.looser',
  level: 'error',
  reads: ['bounds'],
  title: 'A bound in a card allows more than the limits of the gauge',
  help: {
    what: 'A bound that is written out in a card has its lower end below the lowest of the limits that the gauge has, or its upper end above the highest. Each side is compared by itself, exactly, across units.',
    why: 'The card lets pass what the equipment does not allow.',
    whatToDo:
      'Write “in” and the name of the limit, so that the figure stands in one place only; or tighten the bound.',
  },
  sources: [],
  examples: [
    {
      given: `gauge pressure "wash pressure" in psi { reads 0 to 100 by 2   limit spray 40 psi to 60 psi }`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read pressure 30 to 60 psi
  //                 ^^^^^^^^^^^^ limit.looser
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read pressure in spray
}`,
    },
    {
      given: `gauge bottle "starting air" in bar { reads 0 to 40 by 0.5   limit start at least 22 bar   limit bled at most 0.5 bar }`,
      bad: `card crank "Crank" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read bottle at most 22 bar
  //               ^^^^^^^^^^^^^^ limit.looser
}`,
      good: `card crank "Crank" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read bottle in start
}`,
    },
  ],
  ...faultsIn('looser', (measured) => {
    const turned = turnedRound(measured);
    if (turned?.bound) {
      return {
        message: `${measured.gauge.label} may be ${boundWords(measured.bound)} here, and the limit ${turned.name} is ${boundWords(turned.bound)}. If that is what you mean, write “in ${turned.name}”.`,
        path: [limitHere(turned)],
        fixes: [{ title: `Change to: in ${turned.name}`, edits: [replace(measured.bound.place, `in ${turned.name}`)] }],
      };
    }
    const ends = looserEnds(measured);
    return {
      message: `${measured.gauge.label} may be ${boundWords(measured.bound)} here; ${ends.map(limitWords).join(', and ')}. Tighten it, or write “in” and the limit.`,
      path: [...new Set(ends.map(({ widest }) => widest))].map(limitHere),
      fixes: tighten(measured, ends),
    };
  }),
};

function limitHere({ place, name }: Limit): PathPlace {
  return pathPlace(place, `the limit ${name} stands here`);
}

/** The limit of which the one figure is written, as a bound to the other side. */
function turnedRound({ gauge, bound: { low, high } }: MeasuredBound): Limit | undefined {
  const written = low ?? high;
  if (!written || (low && high)) return undefined;
  return gauge.limits.find(({ bound }) => {
    const [end, otherEnd] = low ? [bound?.high, bound?.low] : [bound?.low, bound?.high];
    return end && !otherEnd && toBase(end).equals(toBase(written));
  });
}

function limitWords({ side, widest, end }: LooserEnd): string {
  return `the ${side === 'low' ? 'lowest' : 'highest'} limit, ${widest.name}, is ${quantityWords(end)}`;
}

/** The same bound with its looser ends drawn in to the limits. */
function tighten({ gauge, bound }: MeasuredBound, ends: readonly LooserEnd[]): Fix[] {
  if (bound.form === 'exactly' && !bound.tolerance) return [];
  const drawnIn: Pick<Bound, 'low' | 'high'> = {
    ...bound,
    ...Object.fromEntries(
      ends.map(({ side, end }) => [side, besides(bound[side === 'low' ? 'high' : 'low'], side, end, gauge)]),
    ),
  };
  if (drawnIn.low && drawnIn.high && toBase(drawnIn.low).compare(toBase(drawnIn.high)) > 0) return [];
  const tightened = boundWords(
    { ...bound, ...drawnIn, form: bound.form === 'exactly' ? 'range' : bound.form },
    'symbol',
  );
  return [{ title: `Tighten to ${tightened}`, edits: [replace(bound.place, tightened)] }];
}

/** A limit in the unit of the end that it will stand beside, never the looser for it. */
function besides(other: Quantity | undefined, side: 'low' | 'high', end: Quantity, gauge: Gauge): Quantity {
  if (!other || other.unit === end.unit) return end;
  return roundedInward({ [side]: end }, other.unit, senseOf(gauge))?.[side] ?? end;
}
