import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { format } from '../../server/api.ts';
import { stamp } from '../pictures/sources.ts';
import { findingsOf } from '../support/check.ts';
import { readMarks } from '../support/marks.ts';
import { cardsIn, faulty, folder, textOf, told, worlds } from './support.ts';

const read = (file: string) => readFileSync(file, 'utf8');
const readme = read('README.md');
const guide = read('DEVELOPERS.md');
const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };

describe.each(['README.md', 'DEVELOPERS.md', 'samples/README.md', 'samples/recipes/README.md'])('%s', (file) => {
  const text = read(file);

  test('links only to what is there', () => {
    const links = [...text.matchAll(/\]\(([^):#]+)\)/g)].map(([, link = '']) => join(dirname(file), link));
    expect(links.filter((link) => !existsSync(link))).toEqual([]);
  });

  test('names only commands that there are', () => {
    const commands = [...text.matchAll(/npm (?:run )?(start|test|(?<=run )\w+)/g)].map(([, name = '']) => name);
    expect(commands.filter((name) => !(name in scripts))).toEqual([]);
  });
});

test('the guide names only files and folders that there are, but for those that the build makes', () => {
  const words = [...guide.matchAll(/`((?!dist\/)[\w.-]+\/[\w./-]*)`/g)].map(([, path = '']) => path);
  expect(words.length).toBeGreaterThan(30);
  expect(
    words.filter(
      (path) => ![path, `server/render/${path}`, `server/proof/${path}`, `server/findings/${path}`].some(existsSync),
    ),
  ).toEqual([]);
});

test('the guide names the files of the engine by the names that they have', () => {
  const [, chapter = ''] = /## How the path engine works\n(.*?)\n## /s.exec(guide) ?? [];
  const files = [...chapter.matchAll(/`([\w-]+\.ts)`/g)].map(([, file = '']) => file);
  expect(files.length).toBeGreaterThan(10);
  const inEngine = ['proof', 'flow'].flatMap((part) =>
    readdirSync(`server/${part}`, { recursive: true, encoding: 'utf8' }).map((file) => basename(file)),
  );
  expect(files.filter((file) => !inEngine.includes(file))).toEqual([]);
});

test('the pictures show the samples as they are: run `npm run pictures` and look at them', () => {
  expect(read('client/pictures/made-from.txt').trim()).toBe(stamp());
});

const firstCard = /```card\n(.*?)```/s.exec(readme)?.[1] ?? '';

test('the first card has ten lines and is clean', () => {
  expect(firstCard.trim().split('\n')).toHaveLength(10);
  expect(told(findingsOf(firstCard))).toEqual([]);
});

test.each([
  ['without its last step', firstCard.replace('  step set drain closed\n', ''), 'safety.left-changed'],
  [
    'with its warning moved down',
    firstCard.replace(/( {2}warning jet\n)((?: {2}step.*\n){2})/, '$2$1'),
    'safety.warning-late',
  ],
])('the first card %s gives the finding that the text says', (_, text, code) => {
  expect(text).not.toBe(firstCard);
  expect(findingsOf(text).map((finding) => finding.code)).toEqual([code]);
});

test('every card with faults is listed with the findings that it marks', () => {
  const listed = [...read('samples/README.md').matchAll(/\]\(with-faults\/([\w-]+\.card)\) \| (.*) \|/g)];
  const rows = listed.map(([, file = '', codes = '']) => [
    file,
    [...codes.matchAll(/`([^`]+)`/g)].map(([, code]) => code).sort(),
  ]);
  const marked = cardsIn(faulty).map((file) => [
    file,
    [...new Set(readMarks(textOf(`${folder}/${faulty}/${file}`)).marks.map(({ code }) => code))].sort(),
  ]);
  expect(rows).toEqual(marked);
});

test.each([...worlds, faulty].flatMap((name) => cardsIn(name).map((file) => `${folder}/${name}/${file}`)))(
  'the formatter leaves %s unchanged',
  (file) => {
    const text = textOf(file);
    expect(format(text) ?? text).toBe(text);
  },
);
