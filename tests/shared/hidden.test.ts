import { expect, test } from 'vitest';
import { hasHidden, hiddenEscaped, hiddenIn, hiddenShown, withoutHidden } from '../../shared/hidden.ts';

test.each([
  ['an override of the direction of writing', 'a\u202Eb', 'a[U+202E]b'],
  ['an isolate', 'a\u2066b\u2069', 'a[U+2066]b[U+2069]'],
  ['a mark of direction', 'a\u200Fb', 'a[U+200F]b'],
  ['a blank without a width', 'a\u200Bb', 'a[U+200B]b'],
  ['a joiner between letters that do not join', 'a\u200Db', 'a[U+200D]b'],
  ['a word joiner', 'a\u2060b', 'a[U+2060]b'],
  ['a byte order mark', 'a\uFEFFb', 'a[U+FEFF]b'],
  ['the begin of a terminal command', 'a\u001B[2Jb', 'a[U+001B][2Jb'],
  ['the same in one character', 'a\u009B2Jb', 'a[U+009B]2Jb'],
  ['a bell', 'a\u0007b', 'a[U+0007]b'],
  ['a zero', 'a\u0000b', 'a[U+0000]b'],
  ['a separator of lines', 'a\u2028b', 'a[U+2028]b'],
  ['a tag', 'a\u{E0041}b', 'a[U+E0041]b'],
  ['a letter that is a blank', 'a\u3164b', 'a[U+3164]b'],
])('%s is hidden', (_, text, shown) => {
  expect(hiddenShown(text)).toBe(shown);
  expect(hasHidden(text)).toBe(true);
  expect(hasHidden(withoutHidden(text))).toBe(false);
  expect(hiddenEscaped(JSON.stringify(text))).not.toMatch(/[^\x20-\x7E]/);
  expect(JSON.parse(hiddenEscaped(JSON.stringify(text)))).toBe(text);
});

test.each([
  ['lines and tabs', 'a\tb\r\nc'],
  ['a soft hyphen', 'Wasser\u00ADpumpe'],
  ['a narrow blank', '24\u202FV\u00A0!'],
  ['joined signs', '\u{1F468}\u200D\u{1F527}, \u{1F477}\u{1F3FD}\u200D\u2640\uFE0F'],
  ['joiners of Persian', 'می\u200Cشود'],
  ['joiners of Hindi', 'क्\u200Dष'],
  ['marks in Hebrew', 'שסתום\u200F 24'],
])('%s are not', (_, text) => {
  expect(hasHidden(text)).toBe(false);
});

test('rows of them are found as one', () => {
  expect(hiddenIn('a\u202E\u200Bb\u0007')).toEqual([
    { start: 1, end: 3, codes: 'U+202E U+200B' },
    { start: 4, end: 5, codes: 'U+0007' },
  ]);
});
