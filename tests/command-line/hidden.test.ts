/** What a text or a file name hides does nothing to a terminal, to a file name, or to a program that reads a report. */
import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { folder } from './support.ts';

const clear = '\u001B[2J';
const turned = '\u202Evlav\u202C';
const nasty = `kind lamp { off "Switch {} off", on "Switch {} on" }
item left : lamp "the ${turned}${clear} lamp" normally off
card wa\u115Fsh "Wash ${clear}" {
  number "1${turned}"
  revision "A"
  crew mechanic "Mechanic"
  // ${clear}
  step set left on
}
`;
const fileName = `a ${turned}${clear}.card`;

/** All but the end of a line. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: those are what is looked for
const hidden = /[\u0000-\u0009\u000B-\u001F\u007F-\u009F\u115F\u202A-\u202E\u2066-\u2069]/;

test.each(['text', 'json', 'sarif'])('check --format %s', async (format) => {
  const { out, errors } = await folder().write(fileName, nasty).run(['check', '.', '--format', format]);
  expect(out).toContain('safety.left-changed');
  expect(out).toContain('text.hidden');
  expect(out + errors).not.toMatch(hidden);
});

test('the mark stands under what is meant, though something hidden is shown before it', async () => {
  const { out } = await folder()
    .write('a.card', nasty.replace('step set', `/* ${turned} */ step set`))
    .run(['check', 'a.card']);
  const lines = out.split('\n');
  const at = lines.findIndex((line) => line.includes('text.hidden') && line.startsWith('a.card:8:'));
  const [text = '', mark = ''] = lines.slice(at + 1, at + 3);
  expect(text.slice(mark.indexOf('^'), mark.lastIndexOf('^') + 1)).toBe('[U+202E]');
});

test('JSON says the same as before', async () => {
  const { out } = await folder().write(fileName, nasty).run(['check', '.', '--format', 'json']);
  expect(JSON.parse(out).findings[0].file).toBe(fileName);
});

describe('commands that name a file', () => {
  test('what cannot be done', async () => {
    const { errors } = await folder().run(['check', `${clear}.card`, `--${turned}`]);
    expect(errors).not.toMatch(hidden);
    expect((await folder().run(['check', `${clear}.card`])).errors).toContain('[U+001B][2J.card');
    expect((await folder().run(['explain', clear])).errors).toContain('"[U+001B][2J"');
  });

  test('format', async () => {
    const there = folder().write(fileName, nasty);
    expect((await there.run(['format', '--check', '.'])).out).not.toMatch(hidden);
    expect((await there.run(['format', '.'])).out).toContain(turned);
    expect((await there.run(['format', '.'], '.', { terminal: true })).out).not.toMatch(hidden);
  });

  test('export', async () => {
    const there = folder().write(fileName, nasty);
    const { out, errors } = await there.run(['export', '.', '--draft', '--to', `out${clear}`]);
    expect(out + errors).not.toMatch(hidden);
    expect(readdirSync(`${there.path}/out${clear}`)).toEqual(['wash.html']);
    expect(there.read(`out${clear}/wash.html`)).not.toMatch(hidden);
  });
});
