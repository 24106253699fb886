import { expect, test } from 'vitest';
import { loweredChecks } from '../../server/lowered.ts';
import { renderCard } from '../../server/render/render.ts';
import { place } from '../support/card-builder.ts';
import { rinseInput } from '../support/rinse.ts';

test('what settings take from the checks is known, not what they add', () => {
  expect(loweredChecks({ levels: { safety: 'off', 'duty.takes': 'error' } })).toEqual(['safety: off']);
  expect(loweredChecks({ levels: {} })).toEqual([]);
});

test('a card with checks switched off is a draft that says so', () => {
  const html = renderCard(rinseInput({ lowered: ['safety: off'], workCopy: 'alert' }));
  expect(html).toContain('DRAFT');
  expect(html).toContain('safety: off');
  expect(html).not.toContain('id="job"');
});

test('open warnings stand on a card for use, without the word DRAFT', () => {
  const finding = {
    code: 'stop.left',
    level: 'warning',
    message: 'The cart still runs.',
    place: place(),
    path: [],
    fixes: [],
  } as const;
  const html = renderCard(rinseInput({ findings: [finding] }));
  expect(html).toContain('1 warning is open');
  expect(html).toContain('The cart still runs.');
  expect(html).not.toContain('DRAFT');
});
