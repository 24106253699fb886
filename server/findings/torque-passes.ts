import type { Card, Stage, Statement, Tighten } from '../../shared/card.ts';
import { decimal } from '../../shared/exact.ts';
import type { Fix } from '../../shared/finding.ts';
import { quantityWords, toBase } from '../../shared/quantity.ts';
import type { Place } from '../../shared/text.ts';
import type { Quantity } from '../../shared/units.ts';
import type { FindingSort, Found } from './finding.ts';
import { actionsIn, type Has, rowsIn, statementsIn } from './support/card.ts';
import { replace, type TextOf } from './support/edits.ts';
import { foundOnMachines } from './support/machines.ts';

export const torquePasses: FindingSort = {
  code: 'torque.passes',
  level: 'warning',
  reads: [],
  title: 'A torque is given in passes that do not rise',
  help: {
    what: 'Of several passes of tightening, in a “for each” or one right after the other, one is not above the one before it. The last pass may be made twice.',
    why: 'A pass at a lower torque moves no bolt: the wrench clicks at once, and the last pass is not at the value.',
    whatToDo: 'Write the values in rising order, the last one being the torque that is wanted.',
  },
  sources: [],
  examples: [
    {
      bad: `card lid "Lid" {
  number "1" revision "A" crew fitter "Fitter"
  for each pass in 10, 25, 18 N.m {
  //^ torque.passes
    step tighten "the lid bolts" to pass in "a star pattern"
  }
}`,
      good: `card lid "Lid" {
  number "1" revision "A" crew fitter "Fitter"
  for each pass in 10, 18, 25 N.m {
    step tighten "the lid bolts" to pass in "a star pattern"
  }
}`,
    },
  ],
  inCard: ({ card, textOf }) => foundOnMachines(card, (has) => passesOf(card, has, textOf)),
};

function* passesOf(card: Card, has: Has, textOf: TextOf): Generator<Found> {
  for (const statement of statementsIn(card.body, has)) {
    if (statement.type !== 'for-each' || !statement.values) continue;
    const { values, rounds, place } = statement;
    if (![...actionsIn(rounds.flat(), has)].some(({ type }) => type === 'tighten')) continue;
    const last = values.length - 1;
    const at = values.findIndex((value, index) => index > 0 && falls(values[index - 1], value, index === last));
    if (at > 0)
      yield { place, message: fallen(values[at - 1], values[at]), fixes: [inRisingOrder(place, values, textOf)] };
  }
  for (const [before, after] of [...rowsIn(card.body, has)].flatMap((row) => [...neighbours(row, has)])) {
    const [lower, higher] = [torqueOf(after), torqueOf(before)];
    if (lower && higher && falls(higher, lower, true)) yield { place: after.place, message: fallen(higher, lower) };
  }
}

/** Each tightening with the one right before it, where both are of the same thing: whatever stands between may loosen it. */
function* neighbours(
  row: readonly (Stage | Statement)[],
  has: Has,
): Generator<readonly [before: Tighten, after: Tighten]> {
  let before: Tighten | undefined;
  for (const action of tightened(row, has)) {
    if (before && action && nameOf(before) === nameOf(action)) yield [before, action];
    before = action;
  }
}

/** Of passes the last one counts for what follows. */
function tightened(row: readonly (Stage | Statement)[], has: Has): readonly (Tighten | undefined)[] {
  return row.filter(has).flatMap((statement) => {
    if (statement.type === 'for-each' && statement.values) return tightened(statement.rounds.at(-1) ?? [], has);
    if (statement.type !== 'step' || statement.texts.length > 0) return [undefined];
    return statement.actions.map((action) => (action.type === 'tighten' ? action : undefined));
  });
}

function inRisingOrder(place: Place, values: readonly Quantity[], textOf: TextOf): Fix {
  const written = textOf(place.file).slice(place.start);
  const before = /^for\s+each\s+\S+\s+in\s+/u.exec(written)?.[0].length ?? 0;
  const list = { ...place, start: place.start + before, end: place.start + written.indexOf('{') };
  const rising = [...values]
    .sort((a, b) => toBase(a).compare(toBase(b)))
    .map((value) => quantityWords(value, 'symbol'));
  return { title: `Write them in rising order: ${rising.join(', ')}`, edits: [replace(list, `${rising.join(', ')} `)] };
}

const nameOf = ({ what }: Tighten) => ('text' in what ? what.text : what.name);

function torqueOf({ torque }: Tighten): Quantity | undefined {
  return torque?.exactly ?? torque?.low ?? torque?.high;
}

/** The last pass may be made once more at the value: bolts that share a seal loosen each other. */
function falls(before: Quantity | undefined, after: Quantity, mayStay: boolean): boolean {
  const order = before === undefined ? 1 : toBase(after).compare(toBase(before));
  return mayStay ? order < 0 : order <= 0;
}

function fallen(before: Quantity | undefined, after: Quantity | undefined): string {
  return `The pass at ${inWords(after)} comes after one at ${inWords(before)}. Let the passes rise, the last one being the torque that is wanted.`;
}

function inWords(quantity: Quantity | undefined): string {
  return quantity ? `${decimal(quantity.value)} ${quantity.unit.symbol}` : '';
}
