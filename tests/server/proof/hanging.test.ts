/** The items of which a question looks at the state in which they begin. */
import { expect, test } from 'vitest';
import { buildFlow } from '../../../server/flow/build.ts';
import { conditionsOf } from '../../../server/proof/exploring/ask.ts';
import { startOf } from '../../../server/proof/exploring/start.ts';
import { FlowIndex } from '../../../server/proof/slicing/flow-index.ts';
import { Slice } from '../../../server/proof/slicing/slice.ts';
import { mainFile, openText } from '../../support/check.ts';
import { card, kinds } from './prove.ts';

const equipment = ['drain', 'lid', 'cap'].map((name) => `item ${name} : valve "the ${name}" normally closed`);

/** For a question that looks at all items at the end. */
function hanging(body: string): string[] {
  const bound = openText([kinds, ...equipment, card(body)].join('\n'))
    .workspace.snapshot(mainFile)
    ?.bound.cards.at(-1);
  if (!bound) throw new Error('no card in the text');
  const question = {
    items: bound.equipment.items,
    gauges: [],
    monitors: [],
    watches: (index: FlowIndex) => index.at('finish'),
    look: () => {},
  };
  const slice = new Slice(
    new FlowIndex(buildFlow(bound, { includes: () => true }), conditionsOf(bound)),
    question,
    startOf(bound),
  );
  return [...slice.itemsLiveAtStart()].map(({ name }) => name);
}

test('what is set on every way before it is looked at does not hang on the start', () => {
  expect(hanging('step "Look."')).toEqual(['drain', 'lid', 'cap']);
  expect(hanging('step set lid open')).toEqual(['drain', 'cap']);
  expect(hanging('if "A?" { step set lid open } step set drain open')).toEqual(['lid', 'cap']);
  expect(hanging('step { set drain open check lid open set lid open set cap open }')).toEqual(['lid']);
  expect(hanging('step { set drain open set lid open set cap open }')).toEqual([]);
});
