import type { Condition, Item } from '../../../shared/card.ts';
import { evaluate } from '../evaluate.ts';
import type { Look } from '../question.ts';
import { bitsOf, isSingle, type State } from '../state.ts';
import { type Change, fewestChanges } from '../supply.ts';
import { type ChangesFor, changesThatCut, changesThatFeed } from '../supply-mend.ts';
import { thingsIn } from '../things.ts';

/** The fewest settings of items after which the condition surely holds; the item that is being moved is left alone. */
export function mendOf(condition: Condition, state: State, look: Look, leave?: Item): readonly Change[] | undefined {
  const changesFor: ChangesFor = (asked, holds) => {
    if (settles(asked, holds, [])) return [];
    const items = [...thingsIn(asked).items].filter((item) => !item.kind.seen && item !== leave);
    const candidates = items.flatMap((item) => changesOf(item, state, look));
    return fewestChanges(candidates, (changes) => settles(asked, holds, changes));
  };
  const settles = (asked: Condition, holds: boolean, changes: readonly Change[]) => {
    const changed = changes.reduce((at, { item, state: value }) => look.set(at, item, value), state);
    return evaluate(asked, look.view(changed, 'known', state), look.variables) === (holds ? 'yes' : 'no');
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

function changesOf(item: Item, state: State, look: Look): Change[] {
  const variable = look.variables.ofItem(item);
  const possible = variable === undefined ? 0 : (state[variable] as number);
  const sure = isSingle(possible) ? bitsOf(possible)[0] : undefined;
  return item.kind.states.map((_, index) => ({ item, state: index })).filter((change) => change.state !== sure);
}
