import { expect, test } from 'vitest';
import { loweredChecks, raisedLevels, shownLevel } from '../../server/levels.ts';
import { renderCard } from '../../server/render/render.ts';
import { place } from '../support/card-builder.ts';
import { rinseInput } from '../support/rinse.ts';

test('what settings take from the checks is known, not what they add', () => {
  expect(loweredChecks({ levels: { safety: 'off', 'duty.takes': 'error' } })).toEqual(['safety: off']);
  expect(loweredChecks({ levels: {} })).toEqual([]);
});

test('what does not parse, and what could not be looked at, is shown whatever the settings say', () => {
  const levels = { syntax: 'off', internal: 'off', settings: 'off' } as const;
  for (const code of ['syntax.missing', 'internal', 'settings.unusable'])
    expect(shownLevel({ code, level: 'error' }, levels)).toBe('error');
  expect(loweredChecks({ levels })).toEqual([]);
});

test('levels of others are taken where they raise, and only there', () => {
  const own = { safety: 'warning', 'prose.vague': 'off' } as const;
  const raised = raisedLevels(own, { 'safety.rule': 'error', safety: 'off', prose: 'hint', duty: 'off' });
  const levelOf = (code: string) => shownLevel({ code, level: 'error' }, raised);
  expect([levelOf('safety.rule'), levelOf('safety.left-changed')]).toEqual(['error', 'warning']);
  expect([levelOf('prose.vague'), levelOf('duty.takes')]).toEqual(['hint', 'error']);
});

test('a card with checks switched off is a draft that says so', () => {
  const html = renderCard(rinseInput({ lowered: ['safety: off'], workCopy: 'alert' }));
  expect(html).toContain('DRAFT');
  expect(html).toContain('safety: off');
  expect(html).not.toMatch(/id="?job/);
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
