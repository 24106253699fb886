/** Where in the approved data steps, limits, rules and admonitions come from: on the card, in the list, in the report. */
import { describe, expect, it, test } from 'vitest';
import { all } from '../../grammar/navigate.ts';
import { parse } from '../../grammar/parse.ts';
import { format } from '../../server/api.ts';
import { found, textIn } from '../support/html.ts';
import { cleanCard, folder } from './support.ts';

const plant = `item drain : valve "the drain valve" normally closed
gauge pressure "the pressure" in bar {
  limit work 2 bar to 4 bar source "Manual 12-3, table 1"
  limit idle at most 0.4 bar
}
hazard jet "a jet of water" while drain open {
  warning "Water under pressure cuts."
  source "Manual 12-3, warning 2"
}
rule drained "The drain is closed at the end" { at end require drain closed source "Plant rules, 7" }
`;
const card = `use "plant.card"
card flush "Flush the line" {
  number "F-1"
  revision "A"
  crew hand "Hand"
  step "Close the road." source "Manual 12-3, 4.a"
  step source "Manual 12-3, 4.a" "Look at the hose."
  warning jet
  step set drain open
  caution "The valve is stiff." source "Manual 12-3, note 1"
  step source "Manual 12-3, 4.b" set drain closed
  step "Look at the pump." read pressure in work
}
`;

const shop = () => folder().write('plant.card', plant).write('flush.card', card);

const lines = (out: string) => out.split('\n').filter((line) => line !== '');

describe('the language', () => {
  it('reads a source where something has one, and writes it as it was', () => {
    for (const text of [plant, card]) {
      expect(parse(text).problems).toEqual([]);
      expect(format(format(text) ?? '')).toBe(format(text));
    }
    expect(format(card)).toContain('caution "The valve is stiff." source "Manual 12-3, note 1"');
    expect(all(parse(plant).file, 'limit').map(({ source }) => source?.value)).toEqual([
      'Manual 12-3, table 1',
      undefined,
    ]);
  });

  it('asks for the sentence where it is left out', () => {
    const { problems } = parse(card.replace('source "Manual 12-3, 4.b" set', 'source set'));
    expect(problems.map(({ message }) => message).join()).toMatch(/what it comes from, in quotes, is missing/i);
  });
});

describe('the list', () => {
  it('says by source what hangs on it', async () => {
    const { code, out } = await shop().run(['sources', '.']);
    expect(code).toBe(0);
    expect(lines(out)).toEqual([
      'Manual 12-3, 4.a',
      '  flush.card:6: step 1: Close the road.',
      '  flush.card:7: step 2: Look at the hose.',
      'Manual 12-3, 4.b',
      '  flush.card:11: step 4',
      'Manual 12-3, note 1',
      '  flush.card:10: admonition: The valve is stiff.',
      'Manual 12-3, table 1',
      '  plant.card:3: limit: the pressure, work: 2 to 4 bar',
      'Manual 12-3, warning 2',
      '  plant.card:6: admonition: a jet of water',
      'Plant rules, 7',
      '  plant.card:10: rule: The drain is closed at the end',
    ]);
  });

  it('is only of a source whose revision changed, or of what names none', async () => {
    expect(lines((await shop().run(['sources', '.', '--from', 'plant RULES'])).out)).toEqual([
      'Plant rules, 7',
      '  plant.card:10: rule: The drain is closed at the end',
    ]);
    expect(lines((await shop().run(['sources', '.', '--none'])).out)).toEqual([
      'No source named',
      '  flush.card:9: step 3',
      '  flush.card:12: step 5: Look at the pump.',
      '  plant.card:4: limit: the pressure, idle: at most 0.4 bar',
    ]);
    expect((await shop().run(['sources', '.', '--from', 'Manual 99'])).out).toBe('Nothing names such a source.\n');
  });

  it('has the limits of gauges that are only watched, waited for or decided by', async () => {
    const asked = {
      watched: 'step run pump running for 5 s { watch pressure stays in work }',
      awaited: 'step wait until pressure in work within 1 min',
      decided: 'if pressure in work { step "Look." }',
    };
    const said = async (line: string) => {
      const text = `use "plant.card"\nitem pump : pump normally stopped\ncard c "C" { number "F-2" revision "A" crew hand "Hand" ${line} }`;
      const here = folder().write('plant.card', plant).write('c.card', text);
      return (await here.run(['sources', 'c.card', '--from', 'table 1'])).out;
    };
    for (const line of Object.values(asked))
      expect(await said(line)).toContain('limit: the pressure, work: 2 to 4 bar');
  });

  it('says what is so where there is nothing to list', async () => {
    const here = folder()
      .write('wash.card', cleanCard)
      .write('dry.card', cleanCard.replace('hose."', 'hose." source "Manual 1"'));
    const said = async (...args: readonly string[]) => (await here.run(['sources', ...args])).out;
    expect(await said('wash.card')).toBe('Nothing names a source.\n');
    expect(await said('wash.card', '--from', 'Manual')).toBe('Nothing names such a source.\n');
    expect(await said('dry.card', '--none')).toBe('Everything names a source.\n');
  });

  it('tells once what several cards come to', async () => {
    const here = shop().write('again.card', card.replace('"F-1"', '"F-2"'));
    const { out } = await here.run(['sources', '.', '--from', 'Plant rules']);
    expect(lines(out)).toHaveLength(2);
  });
});

/** The rows of the table under a heading, as plain words. */
function rowsUnder(html: string, heading: string): string[] {
  const sections = found(html, 'section');
  const section = sections.find((one) => found(one, 'h2').some((head) => textIn(head) === heading));
  const rows = section ? found(section, 'tbody').flatMap((body) => found(body, 'tr')) : [];
  return rows.map((row) => found(row, 'th', 'td').map(textIn).join(' | '));
}

describe('the card', () => {
  it('prints by source what comes from it, and what names none', async () => {
    const here = shop();
    await here.run(['export', 'flush.card']);
    expect(rowsUnder(here.read('flush.html'), 'Sources')).toEqual([
      'Manual 12-3, 4.a | steps 1 and 2',
      'Manual 12-3, warning 2 | a jet of water',
      'Manual 12-3, note 1 | The valve is stiff.',
      'Manual 12-3, 4.b | step 4',
      'Manual 12-3, table 1 | the pressure, work: 2 to 4 bar',
      'Plant rules, 7 | The drain is closed at the end',
      'No source named | step 3; step 5; the pressure, idle: at most 0.4 bar',
    ]);
  });

  it('prints none where only rules name one', async () => {
    const plain = (text: string) => text.replace(/ *\bsource "Manual[^"]*"/g, '');
    const here = folder().write('plant.card', plain(plant)).write('flush.card', plain(card));
    await here.run(['export', 'flush.card']);
    expect(here.read('flush.html')).not.toContain('>Sources</h2>');
  });
});

test('the report tells of all cards what comes from which source', async () => {
  const here = shop();
  await here.run(['report', '.']);
  const rows = rowsUnder(here.read('report.html'), 'Sources');
  expect(rows).toContain('Manual 12-3, 4.b | step | step 4 | F-1 · Flush the line | flush.card:11');
  expect(rows).toContain('no source | step | steps 3, 5 | F-1 · Flush the line | flush.card:2');
});
