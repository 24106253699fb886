/** A check with steps of its own for where it fails: they are done, it is asked again, and both ways go on. */
import { describe, expect, test } from 'vitest';
import { walk } from '../../../client/work-copy/walk.ts';
import { check, mainFile, openText } from '../../support/check.ts';
import { asUnit, entriesOf, jobOf, nextOf, unitNamed } from '../../support/job.ts';

const station = `
item inlet : valve "the inlet valve" normally open
item drain : valve "the drain valve" normally closed
item seal  : valve "the seal valve"
item pump  : pump "the pump" normally stopped { duty running at most 30 s, then rest 15 min }
gauge pressure "pressure" in bar { reads 0 to 6 by 0.2   limit idle at most 0.4 bar }
rule sealed "The pump runs only with its seal open" { before pump running require seal open because "It burns." }
rule dry "The pump runs only with its drain closed" { while pump running require drain closed because "It drains." }
`;
const cardOf = (body: string, fields = '') =>
  `${station}card trial "A trial" { number "T-1" revision "A" crew fitter "Fitter" ${fields}\n${body}\n}`;
const checked = (body: string) => check(cardOf(body), { only: ['safety', 'flow', 'duty', 'text', 'syntax'] });

describe('what is asked again', () => {
  test('holds behind it, whether it held at once or was mended', () => {
    checked(`
      step check seal open else { step set seal open }
      step run pump running for 20 s
    `);
  });

  test('holds as well where the steps are for people only: the second answer counts', () => {
    checked(`
      step check seal open else { step "Call the shift." }
      step run pump running for 20 s
    `);
  });

  test('fails always where the steps do not mend it', () => {
    checked(`
      step set seal closed
      step check seal open else { step set drain open   step set drain closed }
      //   ^ flow.never-passes
    `);
  });

  test('leaves what its steps changed as they left it', () => {
    checked(`
      step check seal open else {
        step set seal open
        step set drain open
        //   ^^^^^^^^^^^^^^ safety.left-changed
      }
      step run pump running for 20 s
      //   ^^^^^^^^^^^^^^^^^^^^^^^^^ safety.rule
    `);
  });
});

describe('a wait and an adjustment are asked again like a check', () => {
  test.each([
    'wait until seal open within 1 min else { step set seal open }',
    'wait until seal open within 1 min else { step wait 5 min } else stop "Call the shift."',
    'bring pressure in idle within 1 min else { step set seal open } else finish',
  ])('%s', (action) => {
    checked(`step ${action}\nstep check seal open\nstep run pump running for 20 s`);
  });

  test('what holds behind a wait holds behind its second one', () => {
    checked(`
      step wait until seal open within 1 min else { step "Turn the wheel." }
      step run pump running for 20 s
    `);
  });

  test('a second wait is a step of its own', () => {
    const { html = '' } =
      openText(cardOf('step wait until seal open within 1 min else { step "Turn the wheel." }')).render(mainFile)[0] ??
      {};
    const words = html.replace(/<style.*?<\/style>|<[^>]+>/gs, ' ').replace(/\s+/g, ' ');
    expect(words).toContain('If not: go to step 2.');
    expect(words).toContain('Only if step 1 sends you here:');
  });
});

describe('what is only seen', () => {
  const lit = (steps: string) => {
    check(
      `${cardOf(`step check ready on else {\n${steps}\n}`)}`.replace(
        'item pump',
        'item ready : lamp "the ready lamp"\nitem pump',
      ),
      { only: ['flow', 'syntax', 'name.unknown', 'state'] },
    );
  };

  test.each([
    'step check "Is the plug in?"',
    'step record "Serial number"',
    'step check ready on',
    'if "Is the plug out?" { step check ready on else stop "Change it." }',
    'step check "Is the plug in?" step check ready on else stop "Change it."',
  ])('may have changed by the second look, whatever was done before it: %s', lit);

  test('is looked at a second time, not a third, where the writer says so', () => {
    const steps = (body: string) =>
      openText(cardOf(body))
        .render(mainFile)[0]
        ?.html.match(/data-step|class="step/g)?.length;
    const asked = 'step check seal open else { step set seal open';
    expect(steps(`${asked} step check seal open }`)).toBe(steps(`${asked} }`));
  });
});

test('what is set once more where a look has failed is no slip, as an action and in words', () => {
  check(
    cardOf(`
      step set drain open   step set drain closed
      step check "Is the seat dry?" else { step set drain closed }
      step check "Is the flange dry?" else { step "Close the drain valve again." }
      step check "Is the cover dry?" else { step "Open the drain valve." }
      //                                          ^^^^^^^^^^^^^^^^^^^^^ prose.unsaid-action
      step set drain closed
      //   ^^^^^^^^^^^^^^^^ state.no-change
    `),
    { only: ['state', 'prose'] },
  );
});

describe('steps that lead away', () => {
  test('are not followed by a second question', () => {
    checked(`
      step check seal open else { step set drain open   step set drain closed   stop "Call the shift." }
      step again: read pressure in idle else { step wait 5 min   go to again }
      step run pump running for 20 s
    `);
  });
});

test('what follows in the step is done on both ways, once', () => {
  checked(`
    step {
      check seal open else { step takes 1 min "Find the key."   step set seal open }
      run pump running for 20 s
    }
    step wait 15 min
    step run pump running for 20 s
  `);
  checked(`
    step {
      check seal open else { step set seal open }
      run pump running for 20 s
    }
    step run pump running for 20 s
    //   ^^^^^^^^^^^^^^^^^^^^^^^^^ duty.short-rest
  `);
});

test('several checks of one step mend each what they ask', () => {
  checked(`
    step {
      check drain closed else { step set drain closed }
      check seal open else { step set seal open }
      run pump running for 20 s
    }
  `);
});

describe('on the card', () => {
  const mended = cardOf(`
    step {
      check "Is the seat dry?" else { step "Dry it." } else stop "Change the seat."
      read pressure in idle
    }
    step "Close the cover."
  `);

  test.each([
    ['en', 'Only if step 1 sends you here:', 'If not: go to step 2.', 'If not: STOP. Change the seat.'],
    [
      'de',
      'Nur wenn Schritt 1 hierher führt:',
      'Wenn nicht: weiter mit Schritt 2.',
      'Wenn nicht: ABBRUCH. Change the seat.',
    ],
    ['fr', 'Seulement si l’étape 1 renvoie ici :', 'Sinon : aller à l’étape 2.', 'Sinon : ARRÊTER. Change the seat.'],
  ])('says in %s who is sent where', (language, ...sentences) => {
    const text = mended.replace('crew', `language "${language}" crew`);
    const html = openText(text).render(mainFile)[0]?.html ?? '';
    const words = html.replace(/<style.*?<\/style>|<[^>]+>/gs, ' ').replace(/\s+/g, ' ');
    for (const sentence of sentences) expect(words).toContain(sentence);
  });

  test('the work copy passes the steps by, or does them and asks again', () => {
    const card = openText(mended).workspace.snapshot(mainFile)?.bound.cards[0];
    if (card === undefined) throw new Error('no card');
    const job = jobOf(card);
    const first = unitNamed(job, 'Step 1');
    const [line] = asUnit(job, first).lines;
    const to = line?.type === 'check' ? line.exit.to : undefined;
    if (to === undefined) throw new Error('no way out');
    const sent = { type: 'exit', move: first, to, text: '' } as const;
    const tick = (name: string) => ({ type: 'tick', move: unitNamed(job, name) }) as const;
    expect(nextOf(job, walk(job, entriesOf(tick('Step 1'))))).toEqual(['Step 4']);
    expect(nextOf(job, walk(job, entriesOf(sent)))).toEqual(['Step 2']);
    expect(nextOf(job, walk(job, entriesOf(sent, tick('Step 2'))))).toEqual(['Step 3']);
    expect(asUnit(job, unitNamed(job, 'Step 3')).lines.map(({ type }) => type)).toEqual(['check', 'reading']);
    expect(nextOf(job, walk(job, entriesOf(sent, tick('Step 2'), tick('Step 3'))))).toEqual(['Step 4']);
  });
});
