import { describe, expect, test } from 'vitest';
import { compareWithMarks, readMarks } from '../support/marks.ts';
import { mends } from './mends.ts';
import { cardsIn, faulty, folder, openSamples, plain, textOf, told } from './support.ts';

const files = cardsIn(faulty);

describe.each(files)('%s', (name) => {
  const file = `${folder}/${faulty}/${name}`;
  const text = textOf(file);

  test('gives exactly the findings that it marks', () => {
    const { findings } = openSamples().check([file]);
    expect(compareWithMarks(readMarks(text), findings)).toEqual({ missed: [], unexpected: [] });
  });

  test('gives none when its faults are mended', () => {
    const mended = mend(plain(text), mends[name] ?? []);
    const { findings } = openSamples({ [file]: mended }).check([file]);
    expect(told(findings)).toEqual([]);
  });
});

test('checked together they give no more than each alone', () => {
  const paths = files.map((name) => `${folder}/${faulty}/${name}`);
  const alone = paths.flatMap((path) => told(openSamples().check([path]).findings));
  expect(told(openSamples().check(paths).findings).sort()).toEqual(alone.sort());
});

function mend(text: string, replacements: readonly (readonly [string, string])[]): string {
  return replacements.reduce((mended, [was, is]) => {
    expect(mended, 'the text that is to be mended').toContain(was);
    return mended.replace(was, is);
  }, text);
}
