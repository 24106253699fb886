/** What the card does several times, for fixes that change it. */
import { blocksOf } from '../../../shared/blocks.ts';
import type { Card, Do, Stage, Statement } from '../../../shared/card.ts';
import type { Fix } from '../../../shared/finding.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import { oncePerStructure } from '../../../shared/structure.ts';
import { holds, type Place } from '../../../shared/text.ts';
import { placeKey } from '../../proof/break.ts';

/** A fix in what is done at several places says that it is for each of them. */
export function saidForEveryCall(fix: Fix, card: Card): Fix {
  const [name] = fix.edits.flatMap(({ place }) => doneAtSeveral(place, card) ?? []);
  return name === undefined ? fix : { ...fix, title: `${fix.title} (in every “do ${name}”)` };
}

/** The name of what is done at several places, the innermost round a place in its text. */
function doneAtSeveral({ file, start }: Place, card: Card): string | undefined {
  const { calls, places } = callsIn(card);
  const around = calls.find(({ call }) => isInText(call, { file, start, end: start }));
  for (let one = around; one; one = one.outer) if ((places.get(one.call.name)?.size ?? 0) > 1) return one.call.name;
  return undefined;
}

function isInText({ body }: Do, place: Place): boolean {
  const [first, last] = [body[0], body.at(-1)];
  return first !== undefined && last !== undefined && holds({ ...first.place, end: last.place.end }, place);
}

interface Called {
  readonly call: Do;
  /** In the text of which it stands. */
  readonly outer: Called | undefined;
}

/** All that the card does, also in what it does, and how many places there are for each name. */
const callsIn = oncePerStructure((card) => {
  const calls = [...callsBelow(card.body, undefined)];
  const places = new Map<string, Set<string>>();
  for (const { call } of calls) getOrInsert(places, call.name, () => new Set()).add(placeKey(call.place));
  return { calls, places };
});

function* callsBelow(body: readonly (Stage | Statement)[], outer: Called | undefined): Generator<Called> {
  for (const part of body) {
    const within = part.type === 'do' ? { call: part, outer } : outer;
    if (within && within !== outer) yield within;
    for (const block of blocksOf(part)) yield* callsBelow(block, within);
  }
}
