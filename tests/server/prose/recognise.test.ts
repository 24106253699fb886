/** What sentences say: those of the printed cards, and usual ones of procedures. */
import { readFileSync } from 'node:fs';
import { globSync } from 'tinyglobby';
import { describe, expect, test } from 'vitest';
import { all } from '../../../grammar/navigate.ts';
import { parse } from '../../../grammar/parse.ts';
import { bind } from '../../../server/binding/bind.ts';
import { actionsIn } from '../../../server/findings/support/card.ts';
import { sentencesOf } from '../../../server/findings/support/sentences.ts';
import { recognise } from '../../../server/prose/recognise.ts';
import { contextOf } from '../../../server/render/context.ts';
import { linesOf } from '../../../server/render/sentences/lines.ts';
import type { Card, Equipment, Step } from '../../../shared/card.ts';
import { inputOf } from '../../support/rinse.ts';
import { equipment, forPeople, saying } from './usual-sentences.ts';

/** The actions that a text says, as the finding reads it. */
function saidIn(text: string, of: Equipment, language = 'en'): string[] {
  const source = `card c "C" { step "${text.replaceAll('"', '\\"').replaceAll('{', '{{')}" }`;
  const [step] = all(parse(source).file, 'step');
  const part = step?.parts[0];
  const sentences = part?.type === 'text' ? sentencesOf(part, source) : [];
  const said = recognise({ sentences: sentences.map((one) => one.text), language }, of);
  return said.map(({ actions }) => actions[0] ?? '');
}

describe('the sentences that the samples print', () => {
  const files = globSync('samples/*/*.card').filter((file) => !file.includes('/slips'));
  const read = (file: string) => parse(readFileSync(file, 'utf8'));
  const seen = new Set(['set', 'ensure', 'check', 'read', 'bring', 'run', 'wait']);

  function* sentencesIn(card: Card): Iterable<string> {
    const context = contextOf(inputOf(card));
    const { words } = context;
    for (const action of actionsIn(card.body)) {
      // A slip that a sample shows: nobody sets what is only seen.
      if (action.type === 'set' && action.changes.some(({ item }) => item.kind.seen)) continue;
      const step = {
        type: 'step',
        texts: [],
        roles: [],
        see: [],
        actions: [action],
        place: action.place,
        head: action.place,
      } as Step;
      for (const line of linesOf(step, context)) {
        if (!seen.has(line.type) || line.sentence.includes(words.grammar.open)) continue;
        yield line.type === 'read' && line.limits.length === 1
          ? `${line.sentence} ${words.step.mustBe(line.limits[0] as string)}.`
          : line.sentence;
      }
    }
  }

  test('are all recognised', () => {
    const missed: string[] = [];
    let count = 0;
    for (const file of files) {
      for (const card of bind(file, (name) => read(name)).cards) {
        for (const sentence of sentencesIn(card)) {
          count++;
          if (saidIn(sentence, card.equipment).length === 0) missed.push(`${file}: ${sentence}`);
        }
      }
    }
    console.log(`${count - missed.length} of ${count} printed sentences recognised`);
    expect(missed).toEqual([]);
    expect(count).toBeGreaterThan(100);
  });
});

describe('a usual sentence', () => {
  const { equipment: known } = bind('a.card', () => parse(equipment));

  test.each(saying)('%s', (sentence, action) => expect(saidIn(sentence, known)[0]).toBe(action));

  test('for people is left alone, but for fewer than one in twenty', () => {
    const alarms = forPeople.flatMap((sentence) => saidIn(sentence, known).map((action) => `${sentence} → ${action}`));
    console.log(`${alarms.length} of ${forPeople.length} sentences for people taken for actions`);
    expect(alarms.length / forPeople.length, alarms.join('\n')).toBeLessThan(0.05);
  });
});

describe('in a language that no library covers', () => {
  const text = `kind ventil { zu "Schließe {}" or "{} schließen", auf "Öffne {}" }
item einlass : ventil "das Einlassventil"  item ablass : ventil "das Ablassventil"`;
  const { equipment: known } = bind('a.card', () => parse(text));

  test.each([
    ['Schließe das Einlassventil.', ['set einlass zu']],
    ['Einlassventil schließen.', ['set einlass zu']],
    ['Öffne das Einlassventil und das Ablassventil.', ['set einlass auf, ablass auf']],
    ['Schließe das Buch.', []],
    ['Close the einlass.', []],
  ])('the sentences of the kinds match: %s', (sentence, actions) =>
    expect(saidIn(sentence, known, 'de')).toEqual(actions),
  );
});

describe('a sentence that was read before', () => {
  const bound = (declared: string) =>
    bind('a.card', (file) => (file === 'a.card' ? parse(`${declared}\ncard c "C" { }`) : undefined)).equipment;
  const sentence = 'Close the drain.';

  test('says something else when the equipment does', () => {
    const [first, other] = [
      bound('item tap : valve "the drain"'),
      bound('item lid : valve "the lid"\nitem outlet : valve "the drain"'),
    ];
    expect(saidIn(sentence, first)).toEqual(['set tap closed']);
    expect(saidIn(sentence, other)).toEqual(['set outlet closed']);
    expect(saidIn(sentence, first)).toEqual(['set tap closed']);
    expect(saidIn(sentence, bound('item tap : breaker "the drain"'))).toEqual(['set tap closed']);
    expect(saidIn(sentence, bound('item tap : lamp "the drain"'))).toEqual([]);
  });

  test('is about the things of the equipment that asks', () => {
    const again = bound('item tap : valve "the drain"');
    const told = () => recognise({ sentences: [sentence], language: 'en' }, again);
    recognise({ sentences: [sentence], language: 'en' }, bound('item tap : valve "the drain"'));
    expect(told()[0]?.about).toEqual([again.items[0]]);
    expect(told()[0]?.about[0]).toBe(again.items[0]);
  });
});
