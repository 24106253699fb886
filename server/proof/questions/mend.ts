import type { Condition, Item } from '../../../shared/card.ts';
import { evaluate } from '../evaluate.ts';
import type { Look } from '../question.ts';
import { bitsOf, isSingle, type State } from '../state.ts';
import { type Change, fewestChanges } from '../supply.ts';
import { thingsIn } from '../things.ts';

/** The fewest settings of items after which the condition surely holds; the item that is being moved is left alone. */
export function mendOf(condition: Condition, state: State, look: Look, leave?: Item): Change[] | undefined {
  const candidates = [...thingsIn(condition).items]
    .filter((item) => !item.kind.seen && item !== leave)
    .flatMap((item) => changesOf(item, state, look));
  return fewestChanges(candidates, (changes) => {
    const changed = changes.reduce((at, { item, state: value }) => look.set(at, item, value), state);
    return evaluate(condition, look.view(changed, 'known', state), look.variables) === 'yes';
  });
}

function changesOf(item: Item, state: State, look: Look): Change[] {
  const variable = look.variables.ofItem(item);
  const possible = variable === undefined ? 0 : (state[variable] as number);
  const sure = isSingle(possible) ? bitsOf(possible)[0] : undefined;
  return item.kind.states.map((_, index) => ({ item, state: index })).filter((change) => change.state !== sure);
}
