/** The actions of a step. An action on something unknown is kept as a check that may pass or fail, so that its `else` still leads on. */
import type * as syntax from '../../grammar/syntax.ts';
import type { Action, Flow, Part, RecordColumn, Set as SetAction, Watch, Words } from '../../shared/card.ts';
import type { Place } from '../../shared/text.ts';
import type { BodyScope } from './body.ts';
import { bindCondition, bindReading } from './conditions.ts';
import { partsOf } from './fields.ts';
import { findTarget } from './labels.ts';
import { type Callable, findItem, findItemInState, findThing, placeOf, type Thing } from './names.ts';
import { nearest } from './nearest.ts';
import { Once } from './once.ts';
import { bindBoundOf, bindDuration, bindSpan, bindUnit } from './quantities.ts';
import { bindWords, filledIn, titleOf } from './texts.ts';

export function bindFlow(scope: BodyScope, node: syntax.Flow | undefined): Flow | undefined {
  if (node === undefined) return undefined;
  const place = placeOf(scope, node);
  switch (node.type) {
    case 'go': {
      const target = node.label && findTarget(scope, node.label);
      return { type: 'go', place, target };
    }
    case 'stop':
      return { type: 'stop', text: node.text ? filledIn(scope, node.text) : '', place };
    case 'finish':
      return { type: 'finish', place };
  }
}

/** Undefined where nothing is left of it: what it acts on is unknown, and no way leads out of it. */
export function bindAction(scope: BodyScope, node: syntax.Action): Action | undefined {
  switch (node.type) {
    case 'set':
    case 'ensure':
      return bindSet(scope, node);
    case 'check':
      return bindCheck(scope, node);
    case 'read':
      return bindRead(scope, node);
    case 'bring':
      return bindBring(scope, node);
    case 'run':
      return bindRun(scope, node);
    case 'wait':
      return bindWait(scope, node);
    case 'tighten':
      return bindTighten(scope, node);
    case 'record':
      return bindRecord(scope, node);
  }
}

function bindSet(scope: BodyScope, node: syntax.Set): Action | undefined {
  const changes: SetAction['changes'][number][] = [];
  for (const change of node.states) {
    const changed = findItemInState(scope, change.item, change.state);
    if (changed) changes.push({ item: changed.item, state: changed.state, place: placeOf(scope, change) });
  }
  return changes.length === 0 ? undefined : { type: node.type, changes, place: placeOf(scope, node) };
}

function bindCheck(scope: BodyScope, node: syntax.Check): Action {
  const place = placeOf(scope, node);
  const otherwise = bindFlow(scope, node.otherwise);
  if (node.question) return { type: 'check', question: bindWords(scope, node.question), otherwise, place };
  return { type: 'check', condition: bindCondition(scope, node.condition, place), otherwise, place };
}

/** What is left of an action whose gauge or item is unknown. */
function openCheck(place: Place, otherwise: Flow | undefined): Action {
  return { type: 'check', condition: { type: 'open', place }, otherwise, place };
}

/** The place of what a gauge is asked for, so that a finding about a bound points at it. */
function placeOfAsked(
  scope: BodyScope,
  node: { readonly bound?: syntax.BoundNode; readonly limit?: syntax.Name },
  all: Place,
): Place {
  const asked = node.bound ?? node.limit;
  return asked ? placeOf(scope, asked) : all;
}

function findGauge(scope: BodyScope, name: syntax.Name | undefined): Thing | undefined {
  return name && findThing(scope, name, 'gauge');
}

function bindRead(scope: BodyScope, node: syntax.Read): Action | undefined {
  const place = placeOf(scope, node);
  const thing = findGauge(scope, node.gauge);
  const otherwise = bindFlow(scope, node.otherwise);
  const isBare = node.bound === undefined && node.limit === undefined;
  if (thing?.gauge === undefined) return isBare && !node.mend ? undefined : openCheck(place, otherwise);
  const { gauge } = thing;
  if (isBare) return { type: 'read', gauge, otherwise, place };
  const asked = bindReading(scope, thing, node, placeOfAsked(scope, node, place));
  return { type: 'read', gauge, asked, otherwise, place };
}

function bindBring(scope: BodyScope, node: syntax.Bring): Action | undefined {
  const place = placeOf(scope, node);
  const thing = findGauge(scope, node.gauge);
  const within = bindDuration(scope, node.within);
  const otherwise = bindFlow(scope, node.otherwise);
  if (thing?.gauge === undefined) return openCheck(place, otherwise);
  const asked = bindReading(scope, thing, node, placeOfAsked(scope, node, place));
  return { type: 'bring', gauge: thing.gauge, asked, within, otherwise, place };
}

function bindRun(scope: BodyScope, node: syntax.Run): Action | undefined {
  const place = placeOf(scope, node);
  const run = findItemInState(scope, node.item, node.state);
  const length = bindSpan(scope, node.length);
  const until = bindUntil(scope, node);
  const watches = node.watches.map((watch) => bindWatch(scope, watch)).filter((watch) => watch !== undefined);
  if (run === undefined) return until && openCheck(place, until.otherwise);
  return { type: 'run', item: run.item, state: run.state, length, until, watches, place };
}

function bindUntil(scope: BodyScope, node: syntax.Run | syntax.Wait) {
  if (node.until === undefined) return undefined;
  const place = placeOf(scope, node.until);
  const condition = bindCondition(scope, node.until, place);
  const within = bindDuration(scope, node.within);
  return { condition, within, otherwise: bindFlow(scope, node.otherwise), place };
}

function bindWatch(scope: BodyScope, node: syntax.Watch): Watch | undefined {
  const place = placeOf(scope, node);
  const thing = findGauge(scope, node.gauge);
  const within = bindDuration(scope, node.within);
  const otherwise = bindFlow(scope, node.otherwise);
  if (thing?.gauge === undefined || node.form === undefined) return undefined;
  const asked = bindReading(scope, thing, node, placeOfAsked(scope, node, place));
  return { type: 'watch', gauge: thing.gauge, form: node.form, asked, within, otherwise, place };
}

function bindWait(scope: BodyScope, node: syntax.Wait): Action {
  const length = bindSpan(scope, node.length);
  const until = bindUntil(scope, node);
  return { type: 'wait', length, until, place: placeOf(scope, node) };
}

function bindTighten(scope: BodyScope, node: syntax.Tighten): Action | undefined {
  const what = node.item ? findItem(scope, node.item) : bindWords(scope, node.text);
  const torque = node.torque && bindBoundOf(scope, node.torque, { dimension: 'torque' });
  const pattern = bindWords(scope, node.pattern);
  return what && { type: 'tighten', what, torque, pattern, place: placeOf(scope, node) };
}

function bindRecord(scope: BodyScope, node: syntax.Record): Action | undefined {
  if (node.part) {
    const part = bindPart(scope, node.text);
    return part && { type: 'record', columns: [], rows: [], part, place: placeOf(scope, node) };
  }
  const columns = [node, ...(node.others ?? [])].flatMap((column) => bindColumn(scope, column) ?? []);
  const rows = (node.at ?? []).map((text) => bindWords(scope, text));
  sayOnce(
    scope,
    columns.map(({ text }) => text),
  );
  sayOnce(scope, rows);
  return columns.length === 0 ? undefined : { type: 'record', columns, rows, place: placeOf(scope, node) };
}

/** Two rows for one position, or two columns for one value: nobody knows which of them to fill in. */
function sayOnce(scope: BodyScope, heads: readonly Words[]): void {
  const once = new Once(scope);
  for (const { text, place } of heads) if (text !== '') once.take(text, place);
}

/** Of a part that no card lists all is asked. */
function bindPart(scope: BodyScope, node: syntax.Text | undefined): Part | undefined {
  const text = bindWords(scope, node);
  if (text === undefined) return undefined;
  const list = listOfParts(scope);
  const part = list?.parts.find((one) => one.text.text === text.text);
  if (list && !part) reportUnlisted(scope, text, list);
  return part ?? { text, batch: true, expires: true };
}

interface ListOfParts {
  readonly card: Callable;
  readonly parts: readonly Part[];
}

/** Of the innermost card that has one: what it does is written out for it. */
function listOfParts(scope: BodyScope): ListOfParts | undefined {
  for (const card of [...scope.doing].reverse()) {
    const parts = card.node.type === 'card' ? partsOf({ ...scope, file: card.file }, card.node.fields) : [];
    if (parts.length > 0) return { card, parts };
  }
  return undefined;
}

function reportUnlisted(scope: BodyScope, { text: name, place }: Words, { card, parts }: ListOfParts): void {
  const { work, doing } = scope;
  if (name.split(' ').some((word) => work.lost.has(word))) return;
  const names = parts.map(({ text }) => text.text);
  const of = card === doing.at(-1) ? undefined : titleOf(scope, card);
  work.problems.add({
    type: 'unlisted-part',
    place,
    name,
    near: nearest(name, names),
    ...(of !== undefined && { of }),
  });
}

function bindColumn(scope: BodyScope, node: syntax.RecordColumn): RecordColumn | undefined {
  const unit = bindUnit(scope, node.unit);
  const text = bindWords(scope, node.text);
  const bound =
    unit && node.bound && bindBoundOf(scope, node.bound, { dimension: unit.dimension, unit, of: text?.text });
  return text && { text, unit, bound };
}
