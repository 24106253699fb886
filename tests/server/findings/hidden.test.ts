import { expect, test } from 'vitest';
import type { Fix } from '../../../shared/finding.ts';
import { applyFix } from '../../support/apply.ts';
import { check, findingsOf } from '../../support/check.ts';

const withSteps = (steps: string) =>
  `card wash "Wash" {\n  number "1" revision "A" crew mechanic "Mechanic"\n${steps}\n}`;

test('what nobody sees is found in a text, in a comment and in a name', () => {
  check(
    withSteps(`  step "Look at the \u202Ehose."
  //                ^ text.hidden
  step "Look at the\u2067 hose\u2069."
  //               ^ text.hidden
  //                     ^ text.hidden
  /* step "Look round\u200B\u2060." */
  //                 ^^ text.hidden
  stage lo\u115Fok "Look" { step "Look round." }
  //    ^ name.unused
  //      ^ text.hidden`),
  );
});

test('outside of texts a sign that means nothing stays what it is', () => {
  check(withSteps(`  step "Look round." \u202E\n  //                 ^ syntax.character`));
});

test('a byte order mark is none, and blanks of a width, soft hyphens and joined signs are none', () => {
  check(`\uFEFF${withSteps('  step "Soft\u00ADly press\u00A0the button with \u{1F468}\u200D\u{1F527} on it."')}`);
});

test('the finding says the number, and its fix takes it out', () => {
  const text = withSteps('  step "Look at the \u202E\u200Bhose."');
  const [finding] = findingsOf(text, { only: ['text'] });
  expect(finding?.message).toContain('U+202E U+200B');
  expect(applyFix(text, finding?.fixes[0] as Fix)).toBe(withSteps('  step "Look at the hose."'));
});

test('no message carries on what a text hides', () => {
  const findings = findingsOf(
    `kind lamp { off "Switch {} off", on "Switch {} on" }
item left : lamp "the \u202Etfel\u001B[2J lamp" normally off
${withSteps('  step set left on')}`,
  );
  expect(findings.map(({ code }) => code)).toContain('safety.left-changed');
  expect(JSON.stringify(findings)).not.toMatch(/[\u202E]|\\u001b/i);
  expect(JSON.stringify(findings)).toContain('[U+202E]tfel[U+001B][2J lamp');
});
