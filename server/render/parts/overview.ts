/** Pictures of what is easier seen than read, each only where it says something: networks and rests before the steps, the way through after them. */
import type { Element, ElementContent } from 'hast';
import { h } from 'hastscript';
import type { Action, Item, Supply } from '../../../shared/card.ts';
import { itemsIn } from '../../../shared/conditions.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import type { Context } from '../context.ts';
import type { Program } from '../job/compile.ts';
import { inPrintedOrder, isFor, onlyOf, type Part, partsInside } from '../numbering.ts';
import { flowPicture } from '../pictures/flow.ts';
import { supplyPicture } from '../pictures/supply.ts';
import { dutyTimeline } from '../pictures/timeline.ts';
import { dutyNotes } from '../sentences/duties.ts';
import { capitalised } from '../sentences/labels.ts';

interface Change {
  readonly item: Item;
  readonly state: number;
}

/** A network with fewer links than these is said by the sentences of its steps. */
const fewestLinks = 2;

export function renderOverview(context: Context): ElementContent[] {
  const changes = changesIn(context);
  const networks = suppliesOf(changes, context).flatMap((supply) =>
    captioned(capitalised(supply.label, context.words.tag), supplyPicture(supply, context)),
  );
  const pictures = [...networks, ...timelines(changes, context)];
  if (pictures.length === 0) return [];
  return [h('section.overview', [h('h2', context.words.heading.overview), ...pictures])];
}

export function renderWay(program: Program, context: Context): ElementContent[] {
  const { heading, picture } = context.words;
  const drawn = captioned(picture.flow, flowPicture(program, context));
  return drawn.length === 0 ? [] : [h('section.way-through', [h('h2', heading.way), ...drawn])];
}

function captioned(caption: string, drawn: Element | undefined): ElementContent[] {
  return drawn ? [h('figure.drawn', [h('figcaption', { dir: 'auto' }, caption), drawn])] : [];
}

/** Every change that the card makes, in the order of its steps. */
function changesIn({ input: { card, configuration } }: Context): readonly Change[] {
  const ofPart = (part: Part): readonly Change[] => {
    if (!isFor(onlyOf(part), configuration)) return [];
    if (part.type !== 'step') return partsInside(part).flatMap(ofPart);
    return part.actions.flatMap((action) =>
      action.type === 'sign' || action.type === 'accept' ? [] : changesOf(action),
    );
  };
  return inPrintedOrder(card).flatMap(ofPart);
}

function changesOf(action: Action): readonly Change[] {
  if (action.type === 'set' || action.type === 'ensure') return action.changes;
  return action.type === 'run' ? [action] : [];
}

/** The networks that the card relies on, or changes. */
function suppliesOf(changes: readonly Change[], { input: { card } }: Context): readonly Supply[] {
  const changed = new Set(changes.map(({ item }) => item));
  const needed = new Set(
    changes.flatMap(({ item, state }) => item.needs.filter((need) => need.state === state).map(({ supply }) => supply)),
  );
  return card.equipment.supplies.filter((supply) => {
    if (supply.links.length < fewestLinks) return false;
    const conditions = [...supply.links, ...supply.sources].flatMap(({ when }) => (when ? [when] : []));
    return needed.has(supply) || conditions.some((condition) => itemsIn(condition).some((item) => changed.has(item)));
  });
}

/** Items with the same duties share one. */
function timelines(changes: readonly Change[], context: Context): ElementContent[] {
  const { words } = context;
  const groups = new Map<string, Change & { readonly labels: Set<string> }>();
  for (const change of changes) {
    const key = dutyNotes(change.item, change.state, words).join(' ');
    getOrInsert(groups, key, () => ({ ...change, labels: new Set<string>() })).labels.add(change.item.label);
  }
  return [...groups.values()].flatMap(({ item, state, labels }) => {
    const label = words.grammar.list([...labels]);
    return captioned(capitalised(label, words.tag), dutyTimeline({ ...item, label }, state, context));
  });
}
