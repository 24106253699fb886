/** The command that compares: what it takes, and how it says it. */
import type { Element } from 'hast';
import { describe, expect, test } from 'vitest';
import { cleanCard, faultyCard, folder } from '../command-line/support.ts';
import { found, textIn } from '../support/html.ts';

const revised = cleanCard
  .replace('revision "A"', 'revision "B"')
  .replace('Look at the hose.', 'Look at the long hose.');
const change = 'Step 1 is reworded: Look at the long hose. It was: Look at the hose.';

describe('cardwright compare', () => {
  test('tells the revisions and each change, and ends with 1', async () => {
    const here = folder().write('old.card', cleanCard).write('new.card', revised);
    expect(await here.run(['compare', 'old.card', 'new.card'])).toEqual({
      code: 1,
      out: `1 · Wash: revision A to revision B. One change. The new card: clean.\n  ${change}\n`,
      errors: '',
    });
  });

  test('ends with 0 where nothing is otherwise', async () => {
    const here = folder().write('old.card', cleanCard).write('new.card', `// again\n${cleanCard}`);
    expect(await here.run(['compare', 'old.card', 'new.card'])).toMatchObject({ code: 0 });
  });

  test('takes a released card with all that it was made from', async () => {
    const here = folder().write('cards/wash.card', cleanCard);
    await here.run(['release', 'cards', '--to', 'out']);
    here.write('cards/wash.card', revised);
    expect((await here.run(['compare', 'out/wash-A.html', 'cards/wash.card'])).out).toContain(change);
  });

  test('finds a card again by its number, in folders, and tells those that are new or gone', async () => {
    const other = cleanCard.replace('card wash', 'card dry').replace('"1"', '"2"').replace('"Wash"', '"Dry"');
    const here = folder()
      .write('old/a.card', cleanCard)
      .write('old/b.card', other)
      .write('new/z.card', revised.replace('card wash', 'card rinse'))
      .write('new/c.card', other.replace('"2"', '"3"').replace('card dry', 'card air'));
    const lines = (await here.run(['compare', 'old', 'new'])).out.split('\n');
    expect(lines).toEqual([
      '3 · Dry: revision – to revision A. The card is new. The new card: clean.',
      '',
      '1 · Wash: revision A to revision B. One change. The new card: clean.',
      `  ${change}`,
      '',
      '2 · Dry: revision A to revision –. The card is gone.',
      '',
    ]);
  });

  test('as JSON gives each change its sort and its places', async () => {
    const here = folder().write('old.card', cleanCard).write('new.card', revised);
    expect(JSON.parse((await here.run(['compare', 'old.card', 'new.card', '--format', 'json'])).out)).toEqual({
      cards: [
        {
          title: '1 · Wash',
          old: 'A',
          now: 'B',
          stands: { errors: 0, warnings: 0, accepted: 0, lowered: 0 },
          changes: [{ sort: 'wording', text: change, was: 'old.card:5', now: 'new.card:5' }],
        },
      ],
    });
  });

  test('says how the new card stands, and of a folder which cards have changed', async () => {
    const accepting = faultyCard
      .replace('"2"', '"3"')
      .replace('card wash', 'card dry')
      .replace('step set', 'accept safety.left-changed because "The next card does it." step set');
    const here = folder()
      .write('old/a.card', cleanCard)
      .write('old/b.card', faultyCard)
      .write('new/a.card', cleanCard)
      .write('new/b.card', faultyCard.replace('step set', 'step "Look." set'))
      .write('new/c.card', accepting);
    const { out } = await here.run(['compare', 'old', 'new', '--format', 'html']);
    const rows = found(found(out, 'tbody')[0] as Element, 'tr').map((row) => found(row, 'th', 'td').map(textIn));
    expect(rows.map((cells) => cells.slice(2))).toEqual([
      ['Nothing is otherwise for whoever works with it.', 'clean'],
      ['One change.', '1 error'],
      ['The card is new.', 'clean 1 accepted'],
    ]);
    expect(found(out, 'h2').map(textIn)).toEqual(['2 · Wash', '3 · Wash']);
    const worse = await here.run(['compare', 'old/a.card', 'new/b.card', '--format', 'html']);
    expect(found(worse.out, 'bad').map(textIn)).toEqual(['1 error', 'new error']);
    expect((await here.run(['compare', 'old', 'new'])).out).toContain('One change. The new card: 1 error.');
  });

  test('as a page asks nothing of the network and makes no markup of a text', async () => {
    const here = folder()
      .write('old.card', cleanCard)
      .write('new.card', revised.replace('the long hose', 'the <b onclick=x>long hose'));
    const { out } = await here.run(['compare', 'old.card', 'new.card', '--format', 'html']);
    expect(out).toContain('Look at the &#x3C;b onclick=x>long hose.');
    expect(out).toContain('default-src &#x27;none&#x27;');
    expect(out).not.toContain('<script');
  });

  test('has the new card printed with bars beside what has changed, and the list under its revisions', async () => {
    const here = folder()
      .write('old.card', cleanCard.replace('step "Look', 'step "Close the gate."\n  step "Look'))
      .write('new.card', revised.replace('\n}', '\n  step "Shut the door."\n}'));
    await here.run(['export', 'new.card', '--since', 'old.card']);
    const page = here.read('wash.html');
    const bars = found(page, 'is-changed').map(({ properties }) => properties.id);
    expect(bars).toEqual(['step-1', 'step-2']);
    expect(page).toContain('<h3>Changes since revision A</h3>');
    expect(found(found(page, 'changes')[0] as Element, 'li').map(textIn)).toEqual([
      change,
      'Step 2 is new: Shut the door.',
      'Step 1 of the old card is gone: Close the gate.',
    ]);
    await here.run(['export', 'new.card']);
    expect(here.read('wash.html')).not.toMatch(/class=[^>]*is-changed|Changes since/);
  });

  test('has bars beside the steps that print a limit which has changed', async () => {
    const gauge = 'gauge heat "heat" in K { limit warm above 300 K  limit cold below 280 K }\n';
    const old = gauge + cleanCard.replace('\n}', '\n  step read heat in cold\n  step read heat in warm\n}');
    const here = folder().write('old.card', old).write('new.card', old.replace('300', '310'));
    await here.run(['export', 'new.card', '--since', 'old.card']);
    const bars = found(here.read('wash.html'), 'is-changed').map(({ properties }) => properties.id);
    expect(bars).toEqual(['step-3']);
  });

  test.each([
    [
      'de',
      'Änderungen seit Ausgabe A',
      ['Schritt 1, Dauer: 2 min. Bisher: keine.', 'Schritt 2 ist neu: Shut the door.'],
    ],
    [
      'fr',
      'Modifications depuis la révision A',
      ['Étape 1, durée\u202f: 2 min. Auparavant\u202f: aucune.', 'Étape 2, ajoutée\u202f: Shut the door.'],
    ],
  ])('has that list in the language of the card, without the findings (%s)', async (language, heading, list) => {
    const old = cleanCard.replace('number', `language "${language}" number`);
    const here = folder()
      .write('old.card', old)
      .write(
        'new.card',
        old
          .replace('step "Look', 'step takes 2 min "Look')
          .replace('\n}', '\n  step "Shut the door." accept safety.rule because "Nothing."\n}'),
      );
    await here.run(['export', 'new.card', '--since', 'old.card']);
    const page = here.read('wash.html');
    expect(page).toContain(`<h3>${heading}</h3>`);
    expect(found(found(page, 'changes')[0] as Element, 'li').map(textIn)).toEqual(list);
  });

  test('says what is no card', async () => {
    const here = folder().write('old.card', cleanCard).write('page.html', '<p>No card</p>').write('kinds.card', '');
    for (const [path, reason] of [
      ['page.html', '"page.html" is no released card.'],
      ['nothing.card', 'There is no file or folder "nothing.card".'],
      ['kinds.card', 'There is no card in "kinds.card".'],
    ] as const)
      expect(await here.run(['compare', 'old.card', path])).toMatchObject({
        code: 2,
        errors: expect.stringContaining(reason),
      });
  });
});
