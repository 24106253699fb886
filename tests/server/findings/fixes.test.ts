import { describe, expect, test } from 'vitest';
import { findingSorts } from '../../../server/api.ts';
import { textsOf } from '../../../server/findings/support/help.ts';
import type { Finding } from '../../../shared/finding.ts';
import { applyFix } from '../../support/apply.ts';
import { findingsOf } from '../../support/check.ts';

function errorsIn(findings: readonly Finding[]): string[] {
  return findings.filter(({ level }) => level === 'error').map(({ code }) => code);
}

const examples = findingSorts.flatMap(({ code, examples }) =>
  examples.map((example) => ({ code, bad: textsOf(example).bad })),
);
const fixed = examples.flatMap(({ code, bad }) =>
  findingsOf(bad, { only: [code] }).flatMap(({ fixes }) => fixes.map((fix) => ({ code, bad, fix, title: fix.title }))),
);

describe('a fix leaves the card with its finding gone and no new error', () => {
  test.each(fixed)('$code: $title', ({ code, bad, fix }) => {
    const before = findingsOf(bad);
    const after = findingsOf(applyFix(bad, fix));
    const count = (findings: readonly Finding[]) => findings.filter((finding) => finding.code === code).length;
    expect(count(after)).toBeLessThan(count(before));
    expect(errorsIn(after).filter((error) => !errorsIn(before).includes(error))).toEqual([]);
  });
});

test('these findings have fixes', () => {
  expect([...new Set(fixed.map(({ code }) => code))].sort()).toMatchInlineSnapshot(`
    [
      "accept.unused",
      "card.missing-field",
      "crew.missing",
      "crew.unknown",
      "duty.short-rest",
      "duty.too-long",
      "duty.too-often",
      "limit.between-marks",
      "limit.conflict",
      "limit.empty",
      "limit.looser",
      "name.unknown",
      "prose.admonition-order",
      "safety.left-changed",
      "safety.not-assumed",
      "safety.rule",
      "safety.unprotected",
      "safety.unsafe-stop",
      "safety.warning-late",
      "safety.warning-missing",
      "state.no-change",
      "state.seen",
      "supply.not-fed",
      "syntax.character",
      "syntax.comment",
      "syntax.text",
      "syntax.unclosed",
      "syntax.unexpected",
      "unit.unknown",
    ]
  `);
});
