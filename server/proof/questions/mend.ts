import type { Condition, Item } from '../../../shared/card.ts';
import { evaluate, statesOf } from '../meaning/evaluate.ts';
import { allStates, bitsOf, isSingle, type State } from '../meaning/state.ts';
import { type Change, fewestChanges, isNearer } from '../meaning/supply.ts';
import { type ChangesFor, changesThatCut, changesThatFeed } from '../meaning/supply-mend.ts';
import { thingsIn } from '../meaning/things.ts';
import type { Look } from '../slicing/question.ts';

/** The states, as a mask, to which a mend may bring an item. */
type Reach = (item: Item) => number;

/** The fewest settings of items after which the condition surely holds, whatever moves by itself; the item that is being moved is left alone. */
export function mendOf(condition: Condition, state: State, look: Look, leave?: Item): readonly Change[] | undefined {
  return nearestWithin((item) => ofSet(item, leave), condition, state, look, look.moved);
}

/** Without a mend: what nobody has in hand and would have to be so. */
export function hangingOn(condition: Condition, state: State, look: Look, leave?: Item): readonly Change[] | undefined {
  return movingThatWouldMend(condition, state, look, leave) ?? seenThatWouldMend(condition, state, look, leave);
}

/** What would mend it if nothing moved by itself: what is set, and what may move; undefined where that is no help. */
function movingThatWouldMend(
  condition: Condition,
  state: State,
  look: Look,
  leave?: Item,
): readonly Change[] | undefined {
  const mend = nearestWithin((item) => ofSet(item, leave), condition, state, look);
  const moving = [...thingsIn(condition).items].filter(({ may }) => may.length > 0);
  const wanted = moving.flatMap((item) => {
    const changed = mend?.find((change) => change.item === item);
    const possible = changed ? 1 << changed.state : statesOf(item, state, look.variables);
    return isSingle(possible) && item.may.some((may) => 1 << may.state !== possible)
      ? [{ item, state: bitsOf(possible)[0] as number }]
      : [];
  });
  return mend && wanted.length > 0 ? [...mend.filter(({ item }) => item.may.length === 0), ...wanted] : undefined;
}

/** As `mendOf`, also by checks of what is only seen, in states in which it may be there; a setting is preferred to a check. */
export function mendByChecksToo(condition: Condition, state: State, look: Look): readonly Change[] | undefined {
  const byChecks = nearestWithSeen(condition, state, look, (item) => statesOf(item, look.node.state, look.variables));
  const bySettings = nearestWithin((item) => ofSet(item), condition, state, look);
  return byChecks && (!bySettings || isNearer(byChecks, bySettings)) ? byChecks : bySettings;
}

/** What is only seen and would have to be so, beside what can be set, for the condition to hold; undefined where that is no help. */
function seenThatWouldMend(
  condition: Condition,
  state: State,
  look: Look,
  leave?: Item,
): readonly Change[] | undefined {
  return nearestWithSeen(condition, state, look, allStates, leave)?.filter(({ item }) => item.kind.seen);
}

function nearestWithSeen(
  condition: Condition,
  state: State,
  look: Look,
  ofSeen: Reach,
  leave?: Item,
): readonly Change[] | undefined {
  if (![...thingsIn(condition).items].some((item) => item.kind.seen)) return undefined;
  const reach: Reach = (item) => (item.kind.seen ? ofSeen(item) : ofSet(item, leave));
  return nearestWithin(reach, condition, state, look);
}

function ofSet(item: Item, leave?: Item): number {
  return item === leave || item.kind.seen ? 0 : allStates(item);
}

/** `becomes` says what a state may turn into before the condition is asked. */
function nearestWithin(
  reach: Reach,
  condition: Condition,
  state: State,
  look: Look,
  becomes: (state: State) => readonly State[] = (same) => [same],
): readonly Change[] | undefined {
  const changesFor: ChangesFor = (asked, holds) => {
    if (settles(asked, holds, [])) return [];
    const candidates = itemsBehind(asked)
      .sort((a, b) => Number(a.kind.seen) - Number(b.kind.seen))
      .flatMap((item) => changesOf(item, reach(item), state, look));
    return fewestChanges(candidates, (changes) => settles(asked, holds, changes));
  };
  const settles = (asked: Condition, holds: boolean, changes: readonly Change[]) => {
    const changed = changes.reduce((at, { item, state: value }) => look.set(at, item, value), state);
    return becomes(changed).every(
      (one) => evaluate(asked, look.view(one, 'known', state), look.variables) === (holds ? 'yes' : 'no'),
    );
  };
  return (
    changesFor(condition, true) ?? supplyMend(condition, changesFor, (changes) => settles(condition, true, changes))
  );
}

/** More changes than are tried in all their combinations: along the supply that the condition is about. */
function supplyMend(
  condition: Condition,
  changesFor: ChangesFor,
  isMended: (changes: readonly Change[]) => boolean,
): readonly Change[] | undefined {
  const reaches = condition.type === 'not' ? condition.term : condition;
  if (reaches.type !== 'reaches') return undefined;
  const { supply, node } = reaches;
  if (reaches !== condition) return changesThatCut(supply, changesFor, isMended);
  const changes = changesThatFeed(supply, node, changesFor);
  return changes && isMended(changes) ? changes : undefined;
}

/** The items that a condition looks at, and before them those on which it hangs whether one of them moves by itself. */
function itemsBehind(condition: Condition): Item[] {
  const { items } = thingsIn(condition);
  for (const item of items)
    for (const { when } of item.may) if (when) for (const other of thingsIn(when).items) items.add(other);
  return [...items].sort((a, b) => a.may.length - b.may.length);
}

function changesOf(item: Item, reach: number, state: State, look: Look): Change[] {
  const possible = statesOf(item, state, look.variables);
  const sure = isSingle(possible) ? possible : 0;
  return bitsOf(reach & ~sure).map((to) => ({ item, state: to }));
}
