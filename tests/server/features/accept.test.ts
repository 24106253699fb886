/** Accepting a finding from the list of fixes. */
import { expect, it } from 'vitest';
import { openWorkspace } from '../../../server/api.ts';
import { acceptFix, reasonToWrite } from '../../../server/features/accept.ts';
import type { Snapshot } from '../../../server/snapshot.ts';
import type { Finding, Fix } from '../../../shared/finding.ts';
import { applyFix } from '../../support/apply.ts';

const equipment = 'kind valve { closed "Close {}", open "Open {}" }\nitem drain : valve "the drain" normally closed\n';

function wholeCard(body: string): string {
  return `${equipment}card c "Drain it" {\n  number "1"\n  revision "A"\n  crew one "One"\n${body}\n}\n`;
}

const checked = (text: string) => openWorkspace({ readText: (file) => (file === 'c.card' ? text : undefined) });

/** The text after accepting its only finding of that code, with a reason; the code is then not found any more. */
function accepted(text: string, code: string): string {
  const api = checked(text);
  const found = api.check(['c.card']).findings.filter((finding) => finding.code === code);
  expect(found).toHaveLength(1);
  const snapshot = api.workspace.snapshot('c.card');
  const fix = found[0] && snapshot && acceptFix(found[0], snapshot);
  expect(fix?.title).toContain(code);
  const bare = fix ? applyFix(text, fix) : text;
  const codes = (now: string) =>
    checked(now)
      .check(['c.card'])
      .findings.map((finding) => finding.code);
  expect(codes(bare)).toEqual(expect.arrayContaining([code, 'accept.unused']));
  const whole = bare.replace(reasonToWrite, 'It is asked for.');
  expect(codes(whole)).not.toContain(code);
  expect(codes(whole).filter((one) => /syntax|accept/.test(one))).toEqual([]);
  return whole.slice(text.indexOf('crew one') + 'crew one "One"\n'.length, -3);
}

it('goes into the step, whatever stands there already', () => {
  const vague = 'prose.vague';
  expect(accepted(wholeCard('  step "Let sufficient water run."'), vague)).toBe(
    '  step "Let sufficient water run." { accept prose.vague because "It is asked for." }',
  );
  expect(accepted(wholeCard('  step "Let sufficient water run." set drain closed'), vague)).toBe(
    '  step "Let sufficient water run." { set drain closed accept prose.vague because "It is asked for." }',
  );
  expect(accepted(wholeCard('  step "Let sufficient water run." { set drain closed }'), vague)).toBe(
    '  step "Let sufficient water run." { set drain closed accept prose.vague because "It is asked for." }',
  );
  expect(accepted(wholeCard('  step "Let sufficient water run." {\n    set drain closed\n  }'), vague)).toBe(
    '  step "Let sufficient water run." {\n    set drain closed\n    accept prose.vague because "It is asked for."\n  }',
  );
});

it('goes into the stage, or else the card', () => {
  const stage = '  stage "Drain" {\n    danger "Let sufficient water run. It burns."\n    step set drain closed\n  }';
  expect(accepted(wholeCard(stage), 'prose.vague')).toBe(
    stage.replace('"Drain" {', '"Drain" {\n    accept prose.vague because "It is asked for."'),
  );
  const text = wholeCard('  step "Look."').replace('  number "1"\n', '');
  expect(accepted(text, 'card.missing-field')).toBe(
    '\n  accept card.missing-field because "It is asked for."\n  step "Look."',
  );
});

it('keeps the line ends of the text', () => {
  const crlf = (text: string) => text.replaceAll('\n', '\r\n');
  const after = (text: string, code: string) => {
    const api = checked(text);
    const found = api.check(['c.card']).findings.find((finding) => finding.code === code) as Finding;
    return applyFix(text, acceptFix(found, api.workspace.snapshot('c.card') as Snapshot) as Fix);
  };
  const vague = '"Let sufficient water run.';
  for (const [body, code] of [
    [`  step ${vague}" {\n    set drain closed\n  }`, 'prose.vague'],
    [`  stage "Drain" {\n    danger ${vague} It burns."\n    step set drain closed\n  }`, 'prose.vague'],
    ['  step "Look."', 'card.missing-field'],
  ] as const) {
    const text = wholeCard(body).replace('  number "1"\n', '');
    expect(after(crlf(text), code)).toBe(crlf(after(text, code)));
    const bare = text.replace(/ {2}(?:revision|crew).*\n/g, '');
    expect(after(crlf(bare), code)).toBe(crlf(after(bare, code)));
  }
});

it('is not offered for slips of the pen, nor outside a card', () => {
  const text = `item drain : valv "the drain"\n${wholeCard('  step "Look" "here" set')}`;
  const api = checked(text);
  const snapshot = api.workspace.snapshot('c.card');
  const { findings } = api.check(['c.card']);
  expect(findings.length).toBeGreaterThan(1);
  for (const finding of findings) {
    const isIn = finding.place.start > text.indexOf('card c');
    expect(snapshot && acceptFix(finding, snapshot) !== undefined).toBe(isIn && !finding.code.startsWith('syntax.'));
  }
});
