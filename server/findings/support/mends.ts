/** Fixes that write a step into a card. */
import type { Card, Gauge, Item, Role, Stage, Statement, Step } from '../../../shared/card.ts';
import type { Fix, TextEdit } from '../../../shared/finding.ts';
import { holds, isSamePlace, type Place } from '../../../shared/text.ts';
import type { ItemState } from '../../proof/break.ts';
import { changesItem, statementsIn, stateName, stepsIn } from './card.ts';
import { insertActions, insertAfter, insertBefore, type TextOf } from './edits.ts';
import { everyOne, nameIn, type WrittenOut } from './names.ts';
import type { Needed } from './needed.ts';
import { actionAt, isSetFrom, roleAt, statementAt } from './where.ts';

export interface MendedCard {
  readonly card: Card;
  readonly textOf: TextOf;
}

// ---------------------------------------------------------------- before a step

/**
 * Brings this about before the action at a place, and puts back at the end of the card what would otherwise be left out of its
 * normal state. What can only be seen is checked, last of all. Undefined where the step itself changes one of the items.
 */
export function bringAboutBefore(
  place: Place,
  { states, waits, reads }: Needed,
  { card, textOf }: MendedCard,
  spokenOf: readonly Item[] = [],
): Fix | undefined {
  const before = statementAt(card, place);
  if (!before) return undefined;
  const every = everyOne(card, before);
  const nameOf: NameOf = (thing) => nameIn(thing, every, spokenOf);
  const meant = every.map((one) => ({ ...one, states: states.map((state) => meantIn(one, state, nameOf)) }));
  const isNameless = [...states.map(({ item }) => item), ...reads.map(({ gauge }) => gauge)].some(
    (one) => !nameOf(one),
  );
  if (isNameless || meant.some((one) => one.states.some(({ item }) => changesItem(one.statement, item))))
    return undefined;
  const looks = [...lookingsAt(states, nameOf), ...reads.map(({ gauge, asked }) => `read ${nameOf(gauge)} ${asked}`)];
  const actions = [...settingsOf(states, nameOf), ...waits, ...looks];
  const isBack = states.every(({ item, state }) => item.normally === state);
  const fix = doBefore(
    place,
    actions,
    { card, textOf },
    looks.length > 0,
    isBack ? whoSet(states, card, before) : undefined,
  );
  const back = fix && putBack(meant, nameOf, { card, textOf });
  return back ? { title: `${fix.title}, and later: ${back.step}`, edits: [...fix.edits, ...back.edits] } : fix;
}

type NameOf = (thing: Item | Gauge) => string | undefined;

/** Outside of procedures and rounds things go by their own names. */
const ownName: NameOf = ({ name }) => name;

/** What the same words bring about in another call or round. */
function meantIn({ names }: WrittenOut, { item, state }: ItemState, nameOf: NameOf): ItemState {
  const named = names.get(nameOf(item) ?? '');
  return { item: named && 'kind' in named && named.kind === item.kind ? named : item, state };
}

/** Whether the step at a place, or one before it in its stage, brings one of the items to another state: that is not undone for it. */
export function undoesWhatIsDone(states: readonly ItemState[], place: Place, card: Card): boolean {
  const here = allAt(place, card);
  const stage = card.body.find((part) => part.type === 'stage' && holds(part.place, place));
  const before = [...statementsIn(stage?.type === 'stage' ? stage.body : card.body)].filter(
    (one): one is Statement => one.type === 'step' && one.place.file === place.file && one.place.start <= place.start,
  );
  return states.some(({ item, state }) => {
    const last = before.findLast((one) => changesItem(one, item));
    return here.some((one) => changesItem(one, item)) || (last !== undefined && !setsTo(last, item, state));
  });
}

/** Whether the step at a place brings the item to that state itself. */
export function isBroughtThere({ item, state }: ItemState, place: Place, card: Card): boolean {
  return allAt(place, card).some((one) => setsTo(one, item, state) || runsTo(one, item, state));
}

/** The statement at a place, as often as it is written out. */
function allAt(place: Place, card: Card): Statement[] {
  const statement = statementAt(card, place);
  return statement ? everyOne(card, statement).map((one) => one.statement) : [];
}

/**
 * Writes actions before the one at a place: as steps by the same role, or into its step where jumps lead to that, or where what
 * is looked at must still be known (`looks`) and the step would end it.
 */
export function doBefore(
  place: Place,
  actions: readonly string[],
  { card, textOf }: MendedCard,
  looks = false,
  role?: Role,
): Fix | undefined {
  const before = statementAt(card, place);
  if (!before) return undefined;
  const action = actionAt(before, place);
  if (before.type === 'step' && action && (before.label || (looks && !isFirstToHappen(action, before)))) {
    return { title: `Insert: ${actions.join(' ')}`, edits: insertActions(before, action.place, actions, textOf) };
  }
  if (looks && before.type === 'step' && !action) return undefined;
  const by = roleWords(card, place, role);
  const steps = actions.map((one) => `step${by} ${one}`);
  return { title: `Insert: ${steps.join(', ')}`, edits: steps.map((step) => insertBefore(before.place, step, textOf)) };
}

/** No text, no time and no other action of the step comes before it. */
function isFirstToHappen(action: Step['actions'][number], { texts, takes, actions }: Step): boolean {
  return texts.length === 0 && !takes && actions[0] === action;
}

function settingsOf(states: readonly ItemState[], nameOf: NameOf): string[] {
  return states.filter(({ item }) => !item.kind.seen).map((one) => `set ${written(one, nameOf)}`);
}

/** Checks of what is only seen. */
function lookingsAt(states: readonly ItemState[], nameOf: NameOf): string[] {
  return states.filter(({ item }) => item.kind.seen).map((one) => `check ${written(one, nameOf)}`);
}

function written({ item, state }: ItemState, nameOf: NameOf): string {
  return `${nameOf(item)} ${stateName(item, state)}`;
}

function settingStep(states: readonly ItemState[], role: Role | undefined, nameOf = ownName): string {
  return `step${byRole(role)} set ${states.map((one) => written(one, nameOf)).join(', ')}`;
}

function stepThatBringsAbout(states: readonly ItemState[], role: Role | undefined): string {
  const looks = lookingsAt(states, ownName);
  if (looks.length === 0) return settingStep(states, role);
  const actions = [...settingsOf(states, ownName), ...looks];
  return `step${byRole(role)} ${actions.length === 1 ? actions[0] : `{ ${actions.join(' ')} }`}`;
}

function byRole(role: Role | undefined): string {
  return role ? ` by ${role.name}` : '';
}

/** The one role that brings all of these out of the states: it knows that they are to go back. Undefined where they are several, or not said. */
function whoSet(states: readonly ItemState[], card: Card, until?: Statement): Role | undefined {
  const steps = [...stepsIn(card.body)];
  const end = until ? steps.findIndex(({ step }) => step === until) : steps.length;
  const setting = steps
    .slice(0, Math.max(0, end))
    .filter(({ step }) => states.some(({ item, state }) => changesItem(step, item) && !setsTo(step, item, state)));
  const [role, ...others] = new Set(setting.map(({ step, laneRole }) => step.roles[0] ?? laneRole));
  return others.length === 0 ? role : undefined;
}

/** ` by ROLE` as the step at a place says it, or the step before, for another step beside it; nothing in a lane, which says it. */
function roleWords(card: Card, place: Place, other?: Role): string {
  const { role, byLane } = roleAt(card, place);
  return byLane ? '' : byRole(other ?? role);
}

/**
 * Puts back what was changed for a step: behind the step that undoes what that one did, so that the last change is undone first, or
 * else where the card ends.
 */
function putBack(
  meant: readonly Meant[],
  nameOf: NameOf,
  { card, textOf }: MendedCard,
): { readonly step: string; readonly edits: TextEdit[] } | undefined {
  const [first] = meant;
  const changed = meant.flatMap(({ statement, states }) => states.filter((one) => isLeftOut(one, statement, card)));
  if (!first || changed.length === 0) return undefined;
  const { role } = roleAt(card, first.statement.place);
  if (isRun(first.statement)) {
    const again = first.states.filter((_, index) =>
      meant.some(({ states }) => changed.includes(states[index] as ItemState)),
    );
    const step = settingStep(backwards(again), role, nameOf);
    return { step, edits: [insertAfter(first.statement.place, step, textOf)] };
  }
  const step = settingStep(backwards(changed), role);
  const undone = undoneBy(meant, card);
  return { step, edits: undone ? [insertAfter(undone.place, step, textOf)] : atEnd(step, card, textOf) };
}

/** What is brought about for a step in one call or round. */
interface Meant extends WrittenOut {
  readonly states: readonly ItemState[];
}

/** Nothing but the fix would bring it back to its normal state. */
function isLeftOut({ item, state }: ItemState, before: Statement, card: Card): boolean {
  const { normally, kind } = item;
  if (normally === undefined || normally === state || kind.seen) return false;
  return !staysAway(card, item) && !isSetFrom(card, before, item, normally);
}

/** To their normal states, the last first, each once. */
function backwards(states: readonly ItemState[]): ItemState[] {
  const items = [...new Set(states.map(({ item }) => item))];
  return items.map((item) => ({ item, state: item.normally as number })).reverse();
}

function isRun(step: Statement): boolean {
  return step.type === 'step' && step.actions.every(({ type }) => type === 'run');
}

/** The step of the card's own text with which what is set there is back as it was. */
function undoneBy(meant: readonly Meant[], card: Card): Statement | undefined {
  const away = meant
    .flatMap(({ statement }) => changesOf(statement))
    .filter(({ item, state }) => item.normally !== undefined && item.normally !== state);
  if (away.length === 0) return undefined;
  const step = meant[0]?.statement;
  const lists = card.body.flatMap((part) => (part.type === 'stage' ? [part.body] : []));
  const list = [...lists, card.body].find((some) => (some as readonly unknown[]).includes(step)) ?? card.body;
  const after = list
    .slice((list as readonly unknown[]).indexOf(step) + 1)
    .filter((one): one is Statement => one.type !== 'stage');
  const undoing = away.map(({ item }) => after.findLast((one) => setsTo(one, item, item.normally as number)));
  if (undoing.includes(undefined)) return undefined;
  return (undoing as Statement[]).sort((a, b) => a.place.start - b.place.start).at(-1);
}

function changesOf(statement: Statement): readonly ItemState[] {
  if (statement.type !== 'step') return [];
  return statement.actions.flatMap((action) =>
    action.type === 'set' || action.type === 'ensure' ? action.changes : [],
  );
}

function setsTo(statement: Statement, item: Item, state: number): boolean {
  return changesOf(statement).some((change) => change.item === item && change.state === state);
}

function runsTo(statement: Statement, item: Item, state: number): boolean {
  if (statement.type !== 'step') return false;
  return statement.actions.some((action) => action.type === 'run' && action.item === item && action.state === state);
}

function staysAway(card: Card, item: Item): boolean {
  return card.leaves.some((left) => left.item === item);
}

// ---------------------------------------------------------------- where the card finishes

/** Sets items, and checks those only seen, by the role at a place before each of these finishes. Undefined where one leaves no room for a step. */
export function bringAboutAtFinishes(
  finishes: readonly Place[],
  states: readonly ItemState[],
  place: Place,
  { card, textOf }: MendedCard,
): Fix | undefined {
  const step = stepThatBringsAbout(states, whoSet(states, card) ?? roleAt(card, place).role);
  const edits = finishes.map((finish) => {
    if (isSamePlace(finish, card.place)) return atEnd(step, card, textOf);
    const statement = statementAt(card, finish);
    return statement?.type === 'finish' ? [insertBefore(statement.place, step, textOf)] : [];
  });
  return edits.some((some) => some.length === 0) ? undefined : { title: `Insert: ${step}`, edits: edits.flat() };
}

/** Behind the last statement in the run of the card, or before it where it leads away. */
function atEnd(step: string, card: Card, textOf: TextOf): TextEdit[] {
  const last = lastStatement(card);
  if (!last) return [];
  const signing = firstOfSignatures(card, last);
  if (signing) return [insertBefore(signing.place, step, textOf)];
  const leadsAway = last.type === 'finish' || last.type === 'stop' || last.type === 'go';
  return [leadsAway ? insertBefore(last.place, step, textOf) : insertAfter(last.place, step, textOf)];
}

/** The first of the signatures with which the card ends: who signs has seen all that is put back. */
function firstOfSignatures(card: Card, last: Statement): Statement | undefined {
  const part = card.body.findLast((one) => !isForStops(one));
  const list = part?.type === 'stage' ? part.body : card.body.filter((one): one is Statement => one.type !== 'stage');
  let first: Statement | undefined;
  for (let at = list.indexOf(last); list[at]?.type === 'sign'; at--) first = list[at];
  return first;
}

function lastStatement(card: Card): Statement | undefined {
  const last: Stage | Statement | undefined = card.body.findLast((part) => !isForStops(part));
  return last?.type === 'stage' ? last.body.at(-1) : last;
}

// ---------------------------------------------------------------- where the card stops

/** Sets items in the stage for stops, which is written where there is none yet. */
export function bringAboutWhenStopped(states: readonly ItemState[], { card, textOf }: MendedCard): Fix | undefined {
  if (states.length === 0 || states.some(({ item }) => item.kind.seen)) return undefined;
  const stage = card.body.find((part) => part.type === 'stage' && part.whenStopped) as Stage | undefined;
  const last = (stage ?? card).body.at(-1);
  if (!last || last.place.file !== card.place.file) return undefined;
  const step = settingStep(lastChangedFirst(states, card), whoSet(states, card) ?? roleAt(card, last.place).role);
  const written = stage ? step : `stage "Make safe" when stopped { ${step} }`;
  return { title: `Insert: ${written}`, edits: [insertAfter(last.place, written, textOf)] };
}

/** What was switched on last is switched off first. */
function lastChangedFirst(states: readonly ItemState[], card: Card): ItemState[] {
  const steps = [...statementsIn(card.body)].filter((one): one is Statement => one.type !== 'stage');
  const changedAt = ({ item, state }: ItemState): number =>
    steps.findLastIndex((one) => changesItem(one, item) && !setsTo(one, item, state));
  return [...states].sort((a, b) => changedAt(b) - changedAt(a));
}

function isForStops(part: Stage | Statement): boolean {
  return part.type === 'stage' && part.whenStopped;
}
