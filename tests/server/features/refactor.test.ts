import { describe, expect, it } from 'vitest';
import { refactorings } from '../../../server/features/refactor/all.ts';
import type { Snapshot } from '../../../server/snapshot.ts';
import type { TextEdit } from '../../../shared/finding.ts';
import { readMarks } from '../../support/marks.ts';
import { card, open } from './support.ts';

/** The titles that are offered, and the files after the first of them. */
function refactor(marked: string, files: Readonly<Record<string, string>> = {}) {
  const { snapshot, offset, others } = open(marked, files);
  const selection = readMarks(marked).ranges[0] ?? { start: offset, end: offset };
  const offered = refactorings({ snapshot, selection, others });
  const after = (file: Snapshot) => applied(file, offered[0]?.edits ?? []);
  return { titles: offered.map(({ title }) => title), here: after(snapshot), plant: after(others[0] as Snapshot) };
}

function applied({ file, text }: Snapshot, edits: readonly TextEdit[]): string {
  const here = edits.filter(({ place }) => place.file === file).sort((a, b) => b.place.start - a.place.start);
  return here.reduce((now, { place, newText }) => now.slice(0, place.start) + newText + now.slice(place.end), text);
}

describe('a procedure of steps', () => {
  it('takes whole statements out of the card', () => {
    const { titles, here } = refactor(
      card(`    step "Look."
    $[step set main-switch on
    step by fitter {
      set feed-pump running
    }$]
    step "Leave."`),
    );
    expect(titles).toEqual(['Make a procedure of these steps']);
    expect(here).toContain(`procedure new-procedure() "New procedure" {
  step set main-switch on
  step by fitter {
    set feed-pump running
  }
}

card serve`);
    expect(here).toContain('    step "Look."\n    do new-procedure\n    step "Leave."');
  });

  it.each([
    ['half a step', 'step $[set main-switch on$]'],
    ['a finish, which would only go back to the card', '$[step "Look." finish$]'],
    ['a jump out of it', '$[step { check main-switch on else go to work }$]'],
    ['a jump into it', '$[step again: "Look."$]\n step { check main-switch on else go to again }'],
    ['what does not parse', 'step set main-switch main-switch $[on$]'],
    ['a line that does not parse to its end', '$[step set main-switch on on$]'],
    ['something to keep, which holds to the end of its block', '$[keep main-switch on$]'],
  ])('is not made of %s', (_, statements) => {
    expect(refactor(card(statements)).titles).toEqual([]);
  });

  it('is written out again with its arguments', () => {
    const procedures = { '/other.card': '' };
    const { titles, here } = refactor(
      `procedure start(which: pump) "Start one" {
  step "Go to {which}."
  step set which running
}
${card('    do star$0t(feed-pump)')}`,
      procedures,
    );
    expect(titles).toEqual(['Write start out here']);
    expect(here).toContain('    step "Go to {feed-pump}."\n    step set feed-pump running\n');
  });
});

describe('a procedure is not written out where a name would stand for something else', () => {
  const text = (body: string, statements: string) =>
    `procedure look(w: valve) "Look" { ${body} }\nitem v, q : valve normally open\n${card(statements)}`;
  const offered = (body: string, statements: string) => refactor(text(body, statements)).titles;

  it.each([
    ['an argument, in its rounds', 'for each v in valve { step set w closed }', 'd$0o look(v)'],
    ['an item that it names, in a round', 'step set q closed', 'for each q in valve { d$0o look(q) }'],
    ['an item that its words name', 'step "Look at {q}."', 'for each q in valve { d$0o look(v) }'],
  ])('as %s', (_, body, statements) => {
    expect(offered(body, statements)).toEqual([]);
  });

  it('as an item that it names, for a parameter', () => {
    const other = 'procedure other(q: valve) "Other" { d$0o look(q) }';
    expect(refactor(`${text('step set q closed', 'do other(v)')}\n${other}`).titles).toEqual([]);
  });

  it.each([
    ['rounds of its own', 'for each u in valve { step set u closed step set w open }', 'd$0o look(v)'],
    ['its parameter called as the round around it', 'step set w open', 'for each w in valve { d$0o look(w) }'],
  ])('but with %s', (_, body, statements) => {
    expect(offered(body, statements)).toEqual(['Write look out here']);
  });
});

describe('line ends', () => {
  const crlf = (text: string) => text.replaceAll('\n', '\r\n');
  const refactored = (marked: string, files = {}) => {
    const { here, plant } = refactor(marked, files);
    return here + plant;
  };

  it.each([
    ['a procedure', card('    $[step set main-switch on\n    step "Leave."$]')],
    ['what is written out', `procedure p() {\n  step "Look."\n  step "Leave."\n}\n${card('    do p$0')}`],
    [
      'a limit',
      `gauge lube "lube" in psi {\n  limit low at least 3 psi\n}\n${card('    step read lube at lea$0st 40 psi')}`,
    ],
  ])('are those of the text in %s', (_, marked) => {
    const withLineFeeds = { '/plant.card': '' };
    expect(refactored(crlf(marked), withLineFeeds)).toBe(crlf(refactored(marked, withLineFeeds)));
  });

  it('are those of the text into which a procedure is written out from another', () => {
    const files = { '/plant.card': 'procedure p() {\n  step "Look."\n  step "Leave."\n}\n' };
    expect(refactor(crlf(card('    do p$0')), files).here).toBe(crlf(refactor(card('    do p$0'), files).here));
  });
});

describe('a named limit', () => {
  it('is made of a written-out bound, in the file of the gauge', () => {
    const { titles, here, plant } = refactor(card('step read oil at lea$0st 40 psi'));
    expect(titles).toEqual(['Put this bound into a named limit of the gauge']);
    expect(here).toContain('step read oil in new-limit');
    expect(plant).toContain('  limit working at least 30 psi\n  limit new-limit at least 40 psi\n}');
  });

  it('is taken where there is one already', () => {
    const { titles, here, plant } = refactor(card('step check oil at lea$0st 30 psi'));
    expect(titles).toEqual(['Use the limit working']);
    expect(here).toContain('step check oil in working');
    expect(plant).not.toContain('new-limit');
  });
});
