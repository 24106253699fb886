/** How findings speak of things: by the writer's labels, with states and times in words. */

import type { Gauge, Hazard, Item, Rule, Supply } from '../../../shared/card.ts';
import type { PathPlace } from '../../../shared/finding.ts';
import { lazily } from '../../../shared/lazily.ts';
import { durationWords } from '../../../shared/quantity.ts';
import { capital, type Place } from '../../../shared/text.ts';
import type { Break, Call, Ending, ItemState, Unmet } from '../../proof/break.ts';
import type { Found } from '../finding.ts';
import { stateName } from './card.ts';
import { callInWords, pathInWords } from './paths.ts';

/** `closed`, `closed or open`, `a, b or c`. */
export function stateNames(item: Item, states: readonly number[]): string {
  return alternatives(states.map((state) => stateName(item, state)));
}

const list = lazily(() => new Intl.ListFormat('en-GB'));
const mostTitles = 3;

/** `Looked at: “Wash” and “Dry”.`, with the first few by their titles. */
export function lookedAt(cards: readonly { readonly title: string }[]): string {
  const rest = cards.length > mostTitles + 1 ? cards.length - mostTitles : 0;
  const named = cards.slice(0, cards.length - rest).map(({ title }) => `“${title}”`);
  return `Looked at: ${list().format(rest > 0 ? [...named, `${rest} more cards`] : named)}.`;
}

export function alternatives(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}

/** What of a requirement does not hold, one sentence part each: `the bus tie contactor may be open`. */
export function unmetInWords(unmet: Unmet): string {
  switch (unmet.type) {
    case 'item': {
      const wrong = unmet.possible.filter((state) => !unmet.wanted.includes(state));
      const verb = wrong.length === unmet.possible.length ? 'will be' : 'may be';
      return `${unmet.item.label} ${verb} ${stateNames(unmet.item, wrong)}`;
    }
    case 'reading':
      if (unmet.known) return `${unmet.gauge.label} is known not to be as it must`;
      if (unmet.inPart)
        return `what is known of ${unmet.gauge.label} here is not enough: it may still not be as it must`;
      return unmet.lostBy === undefined
        ? `what ${unmet.gauge.label} shows is not known here`
        : `what ${unmet.gauge.label} shows is no longer known here: what was read of it ended when ${endingInWords(unmet.lostBy)}`;
    case 'supply': {
      const node = nodeLabel(unmet);
      return unmet.wanted
        ? `${unmet.supply.label} does not reach ${node}`
        : `${unmet.supply.label} still reaches ${node}`;
    }
    case 'time': {
      const state = stateName(unmet.item, unmet.state);
      if (unmet.form === 'at most')
        return `${unmet.item.label} may have been ${state} for longer than ${durationWords(unmet.wanted)}`;
      const wanted = `${state} for at least ${durationWords(unmet.wanted)}`;
      if (!unmet.sure?.compare(0)) return `${unmet.item.label} may not have been ${wanted}`;
      const missing = durationWords(unmet.wanted.sub(unmet.sure));
      return `${unmet.item.label} must have been ${wanted}; ${durationWords(unmet.sure)} of it are sure, ${missing} are missing`;
    }
  }
}

function endingInWords({ happening, followed }: Ending): string {
  switch (happening.type) {
    case 'set':
    case 'begin':
      return `${happening.item.label} went to ${stateName(happening.item, happening.state)}`;
    case 'end':
      return `${happening.item.label} went back`;
    case 'meanwhile':
      return `${happening.movedBy.label} ran`;
    case 'again':
      return 'the next round began';
    case 'forget':
      return 'the card jumped back';
    case 'moment':
      if (happening.cause === 'bring') return `${happening.gauge?.label ?? 'a gauge'} was brought elsewhere`;
      return followed ? `the words “${followed.text}” were followed` : 'time passed';
    default:
      return 'time passed';
  }
}

/** What would put it right: `Nearest mend: bring the feed to closed and check the lamp to be lit before this.` */
export function mendInWords(mend: readonly ItemState[]): string {
  const each = mend.map(({ item, state }) => ({ item, to: stateName(item, state) }));
  const set = each.filter(({ item }) => !item.kind.seen).map(({ item, to }) => `${item.label} to ${to}`);
  const seen = each.filter(({ item }) => item.kind.seen).map(({ item, to }) => `${item.label} to be ${to}`);
  const parts = [
    ...(set.length > 0 ? [`bring ${set.join(' and ')}`] : []),
    ...(seen.length > 0 ? [`check ${seen.join(' and ')}`] : []),
  ];
  return `Nearest mend: ${parts.join(', and ')} before this.`;
}

/** Why what would put it right is no mend: nobody has it in hand. */
export function hangsOnInWords(hanging: readonly ItemState[]): string {
  const set = hanging.filter(({ item }) => !item.kind.seen && item.may.length === 0);
  const others = hanging.filter((one) => !set.includes(one));
  const each = others.map(({ item, state }) => `${item.label} to be ${stateName(item, state)}`).join(' and ');
  const why = others.every(({ item }) => item.kind.seen)
    ? 'is only seen and may change with this very action, so no check before it is enough.'
    : 'may change by itself at any time, so nothing done before it is enough.';
  return set.length === 0
    ? `What it takes, ${each}, ${why}`
    : `${mendInWords(set)} What it takes besides, ${each}, ${why}`;
}

function nodeLabel({
  supply,
  node,
}: {
  readonly supply: { readonly nodes: readonly { readonly name: string; readonly item?: Item }[] };
  readonly node: number;
}): string {
  const found = supply.nodes[node];
  return found?.item?.label ?? found?.name ?? '';
}

/** What a fact of the proof may be about. */
interface Subjects {
  readonly item?: Item;
  readonly hazard?: Hazard;
  readonly rule?: Rule;
  readonly supply?: Supply;
  readonly unmet?: readonly Unmet[];
}

/** A finding for something that goes wrong on a path: with the path, what more is told behind it, the machines that it is about, and how sure it is. */
export function foundOn(fact: Break & Subjects, message: string, more: Partial<Found> = {}): Found {
  const machines = fact.configurations
    ? ` This is so ${fact.configurations.map((one) => `for ${one}`).join('; ')}.`
    : '';
  const calls = fact.calls?.length ? ` This is so in ${callsInWords(fact.calls)}.` : '';
  const doubt = fact.blended
    ? ' The paths here were too many to keep apart, so this may be a false alarm (setting stateBound).'
    : '';
  const said = capital(message);
  return {
    place: fact.place,
    message: `${said}${calls}${machines}${doubt}`,
    ...(calls && { inEveryCall: `${said}${machines}${doubt}` }),
    about: namesOf(fact),
    ...more,
    path: [...pathInWords(fact.path), ...(more.path ?? []), ...(fact.calls ?? []).flatMap(placesOf)],
  };
}

/** From the outermost one inward. */
function placesOf(call: Call): PathPlace[] {
  return [...(call.outer ? placesOf(call.outer) : []), pathPlace(call.place, callInWords(call))];
}

const mostCallsNamed = 3;

function callsInWords(calls: readonly Call[]): string {
  const [first] = calls;
  if (!first || calls.length <= mostCallsNamed) return calls.map(callInWords).join(' and ');
  return calls.some(({ outer }) => outer)
    ? `${calls.length} of the places where “do ${first.name}” is done`
    : `${calls.length} of the ${first.of} “do ${first.name}”`;
}

/** The names of the things, and of the kinds of items, by which a `for each` may speak of them. */
function namesOf({ item, hazard, rule, supply, unmet = [] }: Subjects): string[] {
  const things = [item, hazard, rule, supply, ...unmet.map(subjectOf)];
  return things.flatMap((thing) => (thing ? [thing.name, ...('kind' in thing ? [thing.kind.name] : [])] : []));
}

function subjectOf(unmet: Unmet): Item | Gauge | Supply {
  switch (unmet.type) {
    case 'item':
    case 'time':
      return unmet.item;
    case 'reading':
      return unmet.gauge;
    case 'supply':
      return unmet.supply;
  }
}

export function pathPlace(place: Place, text: string): PathPlace {
  return { place, text };
}
