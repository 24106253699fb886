/** What a finding saw in a sentence is remembered, and told where it is so, and nowhere else. */
import { expect, test } from 'vitest';
import { openWorkspace } from '../../../server/api.ts';
import { defaultSettings, type Settings } from '../../../shared/settings.ts';
import { openFiles, openText } from '../../support/check.ts';

const head = 'card wash "Wash" {\n  number "1" revision "A" crew mechanic "Mechanic"\n';
const withBody = (body: string) => `${head}  ${body}\n}`;

/** The findings about prose in files that are checked with settings of their own, one file after the other. */
function proseIn(files: Readonly<Record<string, { readonly text: string; readonly settings?: Partial<Settings> }>>) {
  const settings = new Map(Object.entries(files).map(([file, own]) => [file, { ...defaultSettings, ...own.settings }]));
  const api = openWorkspace({ readText: (file) => files[file]?.text }, (file) => settings.get(file) ?? defaultSettings);
  return Object.keys(files).map((file) => {
    const found = api.check([file]).findings.filter(({ code }) => code.startsWith('prose.'));
    return found.map(({ code, place }) => `${code} ${file === place.file ? '' : place.file}${place.start}`);
  });
}

const told: readonly (readonly [code: string, words: string, other: Partial<Settings>])[] = [
  ['prose.vague', 'Let sufficient water run.', { vagueWords: ['gently'] }],
  ['prose.long-sentence', 'Hold the hose at its end.', { longestSentence: 3 }],
  ['prose.word', 'Utilize a lamp.', { notApprovedWords: {} }],
  ['prose.word', 'Ensure that it is dry.', { writingProfile: 'ASD-STE100' }],
  ['prose.word', 'Check the seal and move it.', { writingProfile: 'DOE-STD-1029-92', actionVerbs: ['move'] }],
  ['prose.several-actions', 'Remove the bolts and install covers.', { actionVerbs: [] }],
  ['prose.course', 'Open the vent or lift the lid.', { actionVerbs: [] }],
  ['prose.noun-cluster', 'Inspect the landing gear door hinge.', { approvedWords: ['gear door'] }],
];

test.each(told)('%s in “%s” hangs on the settings of its file', (code, words, other) => {
  const text = withBody(`step "${words}"`);
  const [usual, own] = [{ text }, { text, settings: other }];
  const [first = [], second = [], third, fourth] = proseIn({
    'a.card': usual,
    'b.card': own,
    'c.card': usual,
    'd.card': own,
  });
  const has = (found: readonly string[]) => found.some((one) => one.startsWith(code));
  expect([has(first), has(second)]).toContain(true);
  expect(second).toEqual(proseIn({ 'b.card': own })[0]);
  expect([third, fourth]).toEqual([first, second]);
});

test.each([
  ['Ensure that it is dry.', ['step "{}"', 'note "{}"', 'if "{}" { step "Look." }']],
  ['Close the left wash valve.', ['step "{}"', 'caution "{}"']],
  ['Call the office if the lamp lights.', ['step "{}"', 'caution "{}"', 'step check "{}"']],
  ['Fit the pin within 5 min.', ['step "{}"', 'step "{}" record "Start"', 'note "{}"']],
])('“%s” is told by what it stands in', (sentence, bodies) => {
  const settings: Partial<Settings> = { writingProfile: 'ASD-STE100' };
  const texts = bodies.map((body) => withBody(body.replace('{}', sentence)));
  const alone = texts.map((text) => proseIn({ 'a.card': { text, settings } })[0]);
  const both = { ...defaultSettings, ...settings };
  for (const order of [texts, [...texts].reverse()]) {
    const api = openWorkspace({ readText: () => undefined }, () => both);
    for (const text of order) {
      api.workspace.setText('a.card', text);
      const found = api.check(['a.card']).findings.filter(({ code }) => code.startsWith('prose.'));
      expect(found.map(({ code, place }) => `${code} ${place.start}`)).toEqual(alone[texts.indexOf(text)]);
    }
  }
});

test('what was seen in one file is told in another one at its own place', () => {
  const sentence = 'Let sufficient water run. Remove the bolts and install the cover.';
  const [first = [], second = []] = proseIn({
    'a.card': { text: withBody(`step "${sentence}"`) },
    'b.card': { text: withBody(`step "Look here. ${sentence}"`) },
  });
  const later = 'Look here. '.length;
  expect(first.length).toBeGreaterThan(1);
  expect(second).toEqual(first.map((one) => one.replace(/\d+$/, (start) => `${Number(start) + later}`)));
});

test('whatever is typed and taken back, what is told is what a text opened anew would be told', () => {
  const typed = 'If it is hot, wait within 5 min or utilize the landing gear door hinge and remove sufficient bolts.';
  const around = (words: string) =>
    withBody(`warning "Hot. ${words}"\n  step "Look. ${words}" "${words}"\n  step "${words}" record "Start"`);
  const letters = Array.from(typed, (_, at) => typed.slice(0, at + 1));
  const main = 'main.card';
  const kept = openFiles({ [main]: around('') });
  for (const words of [...letters, ...letters.reverse().filter((_, at) => at % 3 === 0)]) {
    kept.workspace.setText(main, around(words));
    expect(kept.check([main]).findings).toEqual(openText(around(words)).check([main]).findings);
  }
});
