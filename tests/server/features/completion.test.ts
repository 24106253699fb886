import { describe, expect, it } from 'vitest';
import { type Candidate, complete } from '../../../server/features/completion/complete.ts';
import { finish } from '../../../shared/parts.ts';
import { defaultSettings } from '../../../shared/settings.ts';
import { card, open } from './support.ts';

function candidates(marked: string, files: Readonly<Record<string, string>> = {}): Candidate[] {
  const { snapshot, offset, others } = open(marked, files);
  const around = { settings: defaultSettings, files: others.map(({ file }) => file), codesHere: ['supply.not-fed'] };
  const ranked = [...finish(complete(snapshot, offset, around)).candidates];
  return ranked.sort((a, b) => (a.rank ?? 1) - (b.rank ?? 1));
}

const labels = (marked: string) => candidates(marked).map(({ label }) => label);

describe('completion', () => {
  it('offers items, and after an item its states with the words that the card prints', () => {
    expect(labels(card('step set $0'))).toEqual(['main-switch', 'feed-pump', 'barring-motor']);
    expect(candidates(card('step set feed-pump $0')).map(({ label, detail }) => `${label}: ${detail}`)).toEqual([
      'stopped: Stop the feed pump',
      'running: Start the feed pump',
    ]);
  });

  it('offers after a gauge its limits, and its own unit before the others', () => {
    expect(labels(card('step read oil in $0'))).toEqual(['working']);
    expect(labels(card('step read oil at least 30 $0')).slice(0, 2)).toEqual(['psi', 'kPa']);
  });

  it('offers the hazards that fit the signal word, first the one that still lacks its admonition', () => {
    const hazards = `hazard cold "cold" while main-switch on { danger "Cold." }
hazard wet "water" while main-switch on { note "Wet." }
use`;
    const [first] = candidates(card('danger $0\n step set feed-pump running').replace('use', hazards));
    expect(first).toMatchObject({ label: 'turning', rank: 0 });
    expect(first?.detail).toContain('no admonition yet');
    expect(labels(card('danger $0').replace('use', hazards))).toEqual(['turning', 'cold']);
    expect(labels(card('note $0').replace('use', hazards))).toEqual(['wet']);
  });

  it.each([
    ['repeat $0', ['at most', '2 times { …', 'at most 3 times until an-item on { …']],
    [
      'step by fitter tighten $0',
      ['main-switch', 'feed-pump', 'barring-motor', '"the cover bolts" to 25 N.m +/- 2 N.m'],
    ],
    ['step { check main-switch on else stop $0 }', ['"…"']],
    ['step by fitter run $0', ['main-switch', 'feed-pump', 'barring-motor', 'an-item on for 30 s']],
  ])('goes on with what a word asks for: %s', (body, offered) => {
    expect(labels(card(body)).sort()).toEqual([...offered].sort());
  });

  it('begins a step on a new line, and goes on with one on its own', () => {
    expect(labels(card('step by fitter "Look."\n  $0'))[0]).toBe('step');
    expect(labels(card('step by fitter "Look." $0'))[0]).toBe('by');
  });

  it('offers after go to the title of a stage that has no name', () => {
    const titled =
      'card t "T" { stage "Clean" { step check "Clean?" else go to $0 } stage end "End" { step "Done." } }';
    expect(labels(titled)).toEqual(['"Clean"', 'end']);
  });

  it('offers labels after go to, roles after by, procedures after do with fitting arguments', () => {
    expect(labels(card('step again: "Look."\n step { check main-switch on else go to $0 }'))).toEqual([
      'work',
      'again',
    ]);
    expect(labels(card('step by $0'))).toEqual(['fitter']);
    const start = 'procedure start(which: pump) "Start" { step "Go." }\n';
    expect(labels(start + card('do $0'))).toContain('start');
    expect(labels(start + card('do start($0'))).toEqual(['feed-pump']);
    expect(labels(`use "plant.card" procedure start(which: pump) "Start" { step set which $0 }`)).toEqual([
      'stopped',
      'running',
    ]);
  });

  it('offers files after use, codes after accept with those found here first, and slots in texts', () => {
    expect(labels('use "$0"')).toEqual(expect.arrayContaining(['plant.card', 'std:kinds']));
    expect(labels(card('accept $0'))[0]).toBe('supply.not-fed');
    expect(labels(card('step "Look at {$0}."'))).toEqual(['main-switch', 'feed-pump', 'barring-motor', 'oil']);
    expect(labels(card('step "Read {oil.$0}."'))).toEqual(['working']);
  });

  it('offers what may begin here, as snippets', () => {
    expect(labels('$0')).toEqual(expect.arrayContaining(['card', 'item', 'rule']));
    expect(labels(card('$0'))).toEqual(expect.arrayContaining(['step', 'if', 'repeat', 'warning']));
    expect(labels('card c "C" {\n  $0\n}')).toEqual(expect.arrayContaining(['number', 'crew', 'stage']));
    expect(labels('rule r "R" {\n  $0\n}')).toEqual(expect.arrayContaining(['before', 'while', 'at end']));
    expect(labels('rule r "R" {\n  before pump running\n  $0\n}')).toContain('require');
  });

  it('replaces what is typed so far, and never throws in half a card', () => {
    const { snapshot, offset } = open(card('step set main$0'));
    const { span } = finish(complete(snapshot, offset, { settings: defaultSettings, files: [], codesHere: [] }));
    expect(snapshot.text.slice(span.start, span.end)).toBe('main');
    const whole = card('step { set main-switch on read oil in working else go to work }\n do start(feed-pump)');
    for (let end = 0; end <= whole.length; end++) candidates(`${whole.slice(0, end)}$0`);
  });
});
