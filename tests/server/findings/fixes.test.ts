import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { findingSorts } from '../../../server/api.ts';
import { textsOf } from '../../../server/findings/support/help.ts';
import type { Finding } from '../../../shared/finding.ts';
import { applyFix } from '../../support/apply.ts';
import { findingsOf } from '../../support/check.ts';

function errorsIn(findings: readonly Finding[]): string[] {
  return findings.filter(({ level }) => level === 'error').map(({ code }) => code);
}

const examples = findingSorts.flatMap((sort) => sort.examples.map((example) => textsOf(example).bad));
const folder = 'samples/with-faults';
const samples = readdirSync(folder)
  .filter((file) => file.endsWith('.card'))
  .map((file) => readFileSync(`${folder}/${file}`, 'utf8'));

const fixed = [...examples, ...samples].flatMap((text) =>
  findingsOf(text).flatMap((finding) =>
    finding.fixes.map((fix) => ({ text, finding, fix, code: finding.code, title: fix.title })),
  ),
);

describe('a fix leaves the card with its finding gone and no new error', () => {
  test.each(fixed)('$code: $title', ({ text, finding, fix }) => {
    const before = findingsOf(text);
    const after = findingsOf(applyFix(text, fix));
    const count = (findings: readonly Finding[]) => findings.filter(({ code }) => code === finding.code).length;
    expect(count(after)).toBeLessThan(count(before));
    expect(newIn(errorsIn(after), errorsIn(before))).toEqual([]);
  });
});

/** What stands in one list more often than in the other. */
function newIn(after: readonly string[], before: readonly string[]): string[] {
  const left = [...before];
  return after.filter((code) => {
    const index = left.indexOf(code);
    if (index >= 0) left.splice(index, 1);
    return index < 0;
  });
}

test('these findings have fixes', () => {
  expect([...new Set(fixed.map(({ code }) => code))].sort()).toEqual([
    'accept.unused',
    'card.duplicate-number',
    'card.missing-field',
    'crew.missing',
    'crew.own-inspection',
    'crew.two-hands',
    'crew.unknown',
    'duty.short-rest',
    'duty.takes',
    'duty.too-long',
    'duty.too-often',
    'duty.unbounded',
    'flow.always-passes',
    'flow.endless',
    'flow.gap',
    'flow.never-passes',
    'flow.overlap',
    'flow.unreachable',
    'limit.between-marks',
    'limit.conflict',
    'limit.empty',
    'limit.in-text',
    'limit.looser',
    'name.duplicate',
    'name.unknown',
    'name.unused',
    'noise.dose',
    'prose.action-in-admonition',
    'prose.admonition-order',
    'prose.condition-last',
    'prose.long-sentence',
    'prose.several-actions',
    'prose.unsaid-action',
    'prose.vague',
    'prose.word',
    'record.open-over-stages',
    'safety.left-changed',
    'safety.not-assumed',
    'safety.rule',
    'safety.unprotected',
    'safety.unsafe-stop',
    'safety.warning-late',
    'safety.warning-missing',
    'state.no-change',
    'state.seen',
    'supply.not-fed',
    'syntax.character',
    'syntax.comment',
    'syntax.reserved',
    'syntax.text',
    'syntax.unclosed',
    'syntax.unexpected',
    'text.hidden',
    'torque.passes',
    'torque.tool',
    'unit.unknown',
  ]);
});
