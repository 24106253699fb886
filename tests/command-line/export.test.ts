import type { Element } from 'hast';
import { expect, test } from 'vitest';
import { found, textIn } from '../support/html.ts';
import { cleanCard, faultyCard, folder } from './support.ts';

test('each card becomes one file, with its work copy', async () => {
  const here = folder().write('a.card', `${cleanCard}${cleanCard.replace('wash', 'rinse').replace('"1"', '"2"')}`);
  const { code, out } = await here.run(['export', 'a.card', '--to', 'out/cards']);
  expect({ code, out }).toEqual({ code: 0, out: 'out/cards/wash.html\nout/cards/rinse.html\n' });
  expect(here.read('out/cards/wash.html')).toContain('/* work copy */');
});

test('cards of one name become several files', async () => {
  const here = folder().write('a.card', cleanCard).write('b.card', cleanCard.replace('"1"', '"2"'));
  expect((await here.run(['export', '.'])).out).toBe('wash.html\nwash-2.html\n');
});

test('a card with errors is refused, the others are written', async () => {
  const here = folder().write('a.card', cleanCard).write('b.card', faultyCard.replace('card wash', 'card rinse'));
  const { code, out, errors } = await here.run(['export', '.']);
  expect({ code, out }).toEqual({ code: 1, out: 'wash.html\n' });
  expect(errors).toContain('"Wash" has an error and is not for use.');
});

test('a draft is written with errors too', async () => {
  const here = folder().write('b.card', faultyCard);
  expect(await here.run(['export', 'b.card', '--draft'])).toMatchObject({ code: 0, out: 'wash.html\n' });
  expect(here.read('wash.html')).toMatch(/draft/i);
});

test('a compact card is printed in two columns', async () => {
  const here = folder().write('a.card', cleanCard);
  await here.run(['export', 'a.card']);
  expect(here.read('wash.html')).not.toContain('columns:2;column-gap');
  expect(await here.run(['export', 'a.card', '--compact'])).toMatchObject({ code: 0 });
  expect(here.read('wash.html')).toContain('columns:2;column-gap');
});

test('a file without a card gives exit code 2', async () => {
  const { code, errors } = await folder().write('a.card', 'kind valve { closed, open }').run(['export', 'a.card']);
  expect(code).toBe(2);
  expect(errors).toBe('There is no card in a.card.\n');
});

test('a folder that cannot be written gives exit code 2', async () => {
  const here = folder().write('a.card', cleanCard).write('out', 'no folder');
  const { code, errors } = await here.run(['export', 'a.card', '--to', 'out']);
  expect(code).toBe(2);
  expect(errors).toContain('The card cannot be written');
});

test('what to do when a check fails, or when the rounds of a repeat were in vain, stands in one table', async () => {
  const steps = `repeat at most 3 times until "Is it dry?" {
    step "Wipe it."
    step check "Is the cloth clean?" else stop "Get another."
  } else stop "Call the office."`;
  const here = folder().write('a.card', cleanCard.replace('\n}', `\n  ${steps}\n}`));
  await here.run(['export', 'a.card']);
  const [table] = found(here.read('wash.html'), 'failures');
  expect(found(table as Element, 'tr').map((row) => found(row, 'th', 'td').map(textIn))).toEqual([
    ['Where', 'What must be so', 'If it is not'],
    ['Step 3', 'Check: Is the cloth clean?', 'STOP. Get another.'],
    [
      'Steps 2 and 3',
      'Do steps 2 and 3 until the answer to “Is it dry?” is yes, at most 3 times.',
      'STOP. Call the office.',
    ],
  ]);
});
