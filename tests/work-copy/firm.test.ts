import { expect, test } from 'vitest';
import { openWorkspace } from '../../server/api.ts';
import type { Exit, Job } from '../../shared/job.ts';

/** The texts of the checks of a card past which nobody goes on. */
function firmChecks(text: string): readonly string[] {
  const api = openWorkspace({ readText: (file) => (file === 'test.card' ? text : undefined) });
  const [card] = api.render('test.card', { workCopy: 'run()' });
  expect(card?.errors).toEqual([]);
  const [, program = '{}'] = /<script id="job"[^>]*>(.*?)<\/script>/s.exec(card?.html ?? '') ?? [];
  const job = JSON.parse(program) as Job;
  const lines = job.moves.flatMap((move) => (move.type === 'unit' ? move.lines : []));
  return lines.flatMap((line) => {
    const { exit } = line as { readonly exit?: Exit };
    return exit?.firm ? [line.text] : [];
  });
}

test('a check that a rule or a hazard relies on is firm, and another is not', () => {
  const checks = firmChecks(`
item valve : valve "the valve" at "hall" normally closed verify
item drain : valve "the drain" at "hall"
item pump : pump "the pump" normally stopped
gauge level "tank level" in % { reads 0 to 100 by 1   moved by drain }
rule dry "The pump runs only with its valve closed" {
  before pump running
  require valve closed and level at least 20 %
}
card test "Test" {
  number "T-1"
  revision "A" on 2026-01-01
  crew fitter "Fitter"
  step by fitter check valve closed
  step by fitter check drain closed
  step by fitter read level at least 30 %
  step by fitter check "Is the floor dry?"
  step by fitter set pump running
  step by fitter set pump stopped
}`);
  expect(checks).toHaveLength(2);
  expect(checks.join(' ')).toContain('the valve');
  expect(checks.join(' ')).toContain('tank level');
});
