/** Items: what they are at once, what they may do, need and bear when everything else has its name. */
import type * as syntax from '../../grammar/syntax.ts';
import type { Duty, Item } from '../../shared/card.ts';
import type { Exact } from '../../shared/exact.ts';
import { getOrInsert } from '../../shared/maps.ts';
import type { Place } from '../../shared/text.ts';
import { bindCondition } from './conditions.ts';
import type { FoundItem } from './declare.ts';
import { type Building, findKind, findState, findThing, inWords, placeOf, type Scope, type Work } from './names.ts';
import { Once } from './once.ts';
import { bindPlate } from './plates.ts';
import { bindCount, bindDuration, bindQuantity } from './quantities.ts';

/** An item while it is put together. */
type ItemInMaking = Omit<Building<Item>, 'may' | 'needs' | 'duties'> & {
  may: Item['may'][number][];
  needs: Item['needs'][number][];
  duties: Duty[];
};

/** Declares all items; `finish` adds what speaks of supplies, gauges and other items. */
export function bindItems(work: Work, found: readonly FoundItem[]): { items: readonly Item[]; finish: () => void } {
  const made: { item: ItemInMaking; found: FoundItem }[] = [];
  for (const each of found) {
    const item = bindItem(each, made.length);
    work.names.things.set(each.declared.name, { sort: 'item', declared: each.declared, item });
    if (item === undefined) continue;
    made.push({ item, found: each });
    getOrInsert(work.names.itemsOf, item.kind, () => []).push(item);
  }
  return {
    items: made.map(({ item }) => item),
    finish: () => {
      for (const each of made) addParts(each.found.scope, each.item, each.found.node);
    },
  };
}

/** Undefined where its kind is unknown: nothing can then be said of its states. */
function bindItem({ scope, node, declared, label }: FoundItem, id: number): ItemInMaking | undefined {
  const kind = node.kind && findKind(scope, node.kind)?.kind;
  if (kind === undefined) return undefined;
  return {
    id,
    name: declared.name,
    label: label?.value ?? node.label?.value ?? `the ${inWords(declared.name)}`,
    kind,
    verify: false,
    may: [],
    needs: [],
    duties: [],
    place: declared.place,
  };
}

function addParts(scope: Scope, item: ItemInMaking, node: syntax.ItemDeclaration): void {
  const once = new Once(scope);
  for (const part of node.parts) {
    const isSingle = part.type === 'at' || part.type === 'normally' || part.type === 'reduces';
    if (!isSingle || once.take(part.type, part)) addPart(scope, item, part);
  }
}

function addPart(scope: Scope, item: ItemInMaking, part: syntax.ItemPart): void {
  switch (part.type) {
    case 'at':
      item.at = part.text?.value;
      return;
    case 'normally':
      item.normally = findState(scope, item.kind, part.state, item.label);
      item.verify = part.verify;
      return;
    case 'may':
      addMay(scope, item, part);
      return;
    case 'reduces':
      item.reduces = bindReduction(scope, part.quantity);
      return;
    case 'needs':
      addNeed(scope, item, part);
      return;
    case 'duties':
      for (const duty of part.duties) addDuty(scope, item, duty);
      return;
    case 'broken':
      return;
  }
}

function bindReduction(scope: Scope, quantity: syntax.QuantityNode | undefined): Exact | undefined {
  return bindQuantity(scope, quantity, { dimension: 'noise reduction' })?.value;
}

function addMay(scope: Scope, item: ItemInMaking, part: Extract<syntax.ItemPart, { type: 'may' }>): void {
  const place = placeOf(scope, part);
  const when = part.when && bindCondition(scope, part.when, place);
  const state = findState(scope, item.kind, part.state, item.label);
  if (state !== undefined) item.may.push({ state, place, when });
}

function addNeed(scope: Scope, item: ItemInMaking, part: Extract<syntax.ItemPart, { type: 'needs' }>): void {
  const state = findState(scope, item.kind, part.state, item.label);
  const supply = part.supply && findThing(scope, part.supply, 'supply')?.supply;
  if (part.supply === undefined || supply === undefined) return;
  const node = scope.work.names.nodes.get(supply)?.get(item.name);
  if (node !== undefined) {
    if (state !== undefined) item.needs.push({ supply, node: node.index, state, place: placeOf(scope, part) });
    return;
  }
  if (scope.work.lost.has(item.name)) return;
  const place = placeOf(scope, part.supply);
  scope.work.problems.add({ type: 'not-on-supply', place, name: item.name, label: item.label, supply: supply.label });
}

function addDuty(scope: Scope, item: ItemInMaking, node: syntax.Duty): void {
  const state = findState(scope, item.kind, node.state, item.label);
  const place = placeOf(scope, node);
  const rest = bindDuration(scope, node.rest);
  if (state === undefined) return;
  if (node.plate) item.duties.push(...bindPlate(scope, node.plate, { state, rest, place }));
  const duty = node.plate ? undefined : bindDuty(scope, node, state, rest, place);
  if (duty) item.duties.push(duty);
}

function bindDuty(
  scope: Scope,
  node: syntax.Duty,
  state: number,
  rest: Exact | undefined,
  place: Place,
): Duty | undefined {
  if (node.times === undefined) {
    const limit = bindDuration(scope, node.longest);
    return limit && { type: 'longest', state, limit, rest, place };
  }
  const times = bindCount(scope, node.times, 'counts less than one');
  const window = bindDuration(scope, node.window);
  if (times === undefined) return undefined;
  if (window) return { type: 'times-in-window', state, times, window, place };
  return rest && { type: 'times-then-rest', state, times, rest, place };
}
