import { expect, test } from 'vitest';
import { filesOf, readForPanel } from '../../../client/preview/messages.ts';

const place = { uri: 'file:///wash.card', start: 3, end: 9 };

test.each([
  { type: 'ready' },
  { type: 'walked' },
  { type: 'scrolled', offset: 12.5 },
  { type: 'reveal', place, focus: true },
  { type: 'choose' },
  { type: 'choose', card: 'wash', configuration: { unit: '2' } },
  { type: 'situation', offset: 4 },
])('the panel takes %j', (message) => {
  expect(readForPanel(message)).toEqual(message);
});

test.each([
  undefined,
  'ready',
  [],
  {},
  { type: 'show' },
  { type: 'scrolled' },
  { type: 'scrolled', offset: Number.NaN },
  { type: 'reveal', place: { uri: 7, start: 3, end: 9 }, focus: true },
  { type: 'reveal', place: { uri: place.uri, start: '3', end: 9 }, focus: true },
  { type: 'choose', configuration: { unit: { toString: 1 } } },
])('the panel takes no %j', (message) => {
  expect(readForPanel(message)).toBeUndefined();
});

test('a page sends its reader to the files of its card and of what is found in them, and nowhere else', () => {
  const finding = { code: 'safety.rule', level: 'error', message: '', place, path: [] } as const;
  const step = { uri: 'file:///pump.card', start: 0, end: 1, text: '' };
  const nothing = { version: 1, cards: [], configurations: [], body: '', style: '' };
  const files = filesOf({
    ...nothing,
    files: { 'w.card': place.uri, 'std:lock': 'cardwright-std:/lock.card' },
    findings: [{ ...finding, path: [step] }],
  });
  expect([...files]).toEqual([place.uri, 'cardwright-std:/lock.card', step.uri]);
});
