/** Many runs and rounds: what is kept of each, and what a broken duty tells. */
import { expect, test } from 'vitest';
import { buildFlow } from '../../../server/flow/build.ts';
import { conditionsOf } from '../../../server/proof/exploring/ask.ts';
import { startOf } from '../../../server/proof/exploring/start.ts';
import { FlowIndex } from '../../../server/proof/slicing/flow-index.ts';
import { Slice } from '../../../server/proof/slicing/slice.ts';
import { mainFile, openText } from '../../support/check.ts';
import { numbers } from '../../support/numbers.ts';
import { card, kinds, pathTold, proofOf } from './prove.ts';

const starter = 'item starter-1 : starter "the starter" normally off { duty cranking at most 3 s, then rest 60 s }';
const run = 'step run starter-1 cranking for 5 s';

/** The variables of a question about the starter. */
function variables(body: string): string[] {
  const bound = openText([kinds, starter, card(body)].join('\n'))
    .workspace.snapshot(mainFile)
    ?.bound.cards.at(-1);
  if (!bound) throw new Error('no card in the text');
  const flow = buildFlow(bound, { includes: () => true });
  const question = {
    items: bound.equipment.items,
    gauges: [],
    monitors: [],
    watches: (index: FlowIndex) => index.at('finish'),
    look: () => {},
  };
  return new Slice(new FlowIndex(flow, conditionsOf(bound)), question, startOf(bound)).variables.map(
    ({ type }) => type,
  );
}

test('runs of which one is over before the other begins share what is kept of them', () => {
  expect(variables(run)).toEqual(['item', 'before-run']);
  expect(variables(`${run}\n${run}\nif "Cold?" { ${run} }`)).toEqual(['item', 'before-run']);
});

test('runs that may overlap are kept apart', () => {
  expect(variables(`together { by one { ${run} ${run} } by two { ${run} } }\n${run}`)).toEqual([
    'item',
    'before-run',
    'before-run',
    'before-run',
  ]);
});

test('rounds of loops of which one is over before the other begins share a count', () => {
  const rounds = (body: string) => variables(body).filter((type) => type === 'rounds').length;
  const loop = `repeat 3 times { ${run} }`;
  expect(rounds(`${loop}\n${loop}\nif "Cold?" { ${loop} }`)).toBe(1);
  expect(rounds(`repeat 2 times { ${loop}\n${loop} }`)).toBe(2);
  expect(rounds(`together { by one { ${loop}\n${loop} } by two { ${loop} } }\n${loop}`)).toBe(3);
});

test('what an item goes back to is that from before its own run, in each of many', () => {
  const rule = 'rule off "Off at the end" { at end require starter-1 off }';
  const rules = (...lines: string[]) => proofOf([kinds, starter, rule, card(lines.join('\n'))].join('\n')).proof.rules;
  expect(rules(run, run)).toEqual([]);
  expect(rules(run, 'step set starter-1 cranking', run)).toHaveLength(1);
});

test('each of many broken duties is told from its own run', () => {
  const { proof, at } = proofOf(
    [
      kinds,
      starter,
      card(
        numbers(2000)
          .map(() => run)
          .join('\n'),
      ),
    ].join('\n'),
  );
  expect(proof.duties).toHaveLength(2000 + 1999);
  const last = proof.duties.filter(({ sort }) => sort === 'short-rest').at(-1);
  expect(pathTold(last)).toEqual(['the starter: cranking', 'the starter goes back (5 s later)']);
  expect(last && at(last.place)).toBe('run starter-1 cranking for 5 s');
});
