/** The largest dose of each role: which time counts, at which level, and what is not known of it. */
import { expect, test } from 'vitest';
import { dose } from '../../../server/proof/time/dose.ts';
import { doseWithoutEnd, noDose } from '../../../server/proof/time/lane-doses.ts';
import { card, kinds, proofOf } from './prove.ts';

const machine = [
  kinds,
  'item cart : starter "the cart" normally off',
  'item horn : starter "the horn" normally off',
  'item ears : valve "ear defenders" normally open reduces 25 dB',
  'item plugs : valve "ear plugs" normally open reduces 17 dB',
].join('\n');

const loud = (level: number, more = '', item = 'cart') =>
  `hazard ${item}-noise "noise" while ${item} cranking { level ${level} dBA warning "Noise." ${more} }`;

function doses(hazards: string, body: string): string[] {
  const { proof } = proofOf([machine, hazards, card(body)].join('\n'));
  return proof.doses.map(
    ({ role, percent, atLeast }) => `${role.name} ${atLeast ? 'at least ' : ''}${Math.round(percent)}`,
  );
}

const by = (role: string, hours: string) => `step by ${role} { wait ${hours} }`;
const whileOn = (body: string) => `step by one takes 0 s set cart cranking ${body} step by one takes 0 s set cart off`;

test('each role in its own time, and in all of the others’ that goes on around it', () => {
  expect(doses(loud(90), whileOn(by('one', '9 h')))).toEqual(['one 113', 'two 113', 'three 113']);
  expect(doses(loud(90), whileOn(by('one', '8 h')))).toEqual([]);
  expect(doses(loud(90), by('one', '9 h'))).toEqual([]);
});

const lanes = (one: string, two: string, more = '') => `together { by one { ${one} } by two { ${two} } ${more} }`;
const now = (item: string, state: string, role = 'two') => `step by ${role} takes 0 s set ${item} ${state}`;
const runBy = (role: string, hours: string, item = 'cart') => `step by ${role} { run ${item} cranking for ${hours} }`;

test('in lanes, while its own lasts; a role without one, while any does', () => {
  expect(doses(loud(90), whileOn(lanes(by('one', '9 h'), by('two', '1 h'))))).toEqual(['one 113', 'three 113']);
  expect(doses(loud(95), lanes(runBy('one', '5 h'), by('two', '1 h')))).toEqual(['one 125', 'three 125']);
  expect(doses(loud(95), lanes(runBy('one', '5 h'), 'step by two "Look."'))).toEqual(['one 125', 'three 125']);
});

test('noise of another lane lasts no longer than that lets it', () => {
  const beside = (long: string, noise: string, hazards = loud(95)) => doses(hazards, lanes(long, noise));
  expect(beside(by('one', '6 h'), runBy('two', '1 h'))).toEqual([]);
  expect(beside(`${by('one', '3 h')} ${by('one', '3 h')}`, runBy('two', '10 min'))).toEqual([]);
  const both = `${loud(95)} ${loud(100, '', 'horn')}`;
  const inTurn = `${runBy('two', '3 h')} ${runBy('two', '1 h', 'horn')}`;
  expect(beside(by('one', '4 h'), inTurn, both)).toEqual(['one 125', 'two 125', 'three 125']);
  expect(beside(`${by('one', '2 h')} ${by('one', '2 h')}`, inTurn, both)[0]).toBe('one 125');
});

test('noise that a lane leaves on goes on while it waits for the others', () => {
  const after = (first: string, hours: string) =>
    doses(
      loud(95),
      `${lanes(by('one', hours), `${by('two', first)} ${now('cart', 'cranking')}`)} ${now('cart', 'off')}`,
    );
  expect(after('2 h', '7 h')).toEqual(['one 125', 'three 125']);
  expect(after('3 h', '7 h')).toEqual([]);
  expect(after('1 h to 3 h', '7 h')[0]).toBe('one 150');
});

test('in both lanes at once the louder counts', () => {
  const both = `${loud(95)} ${loud(100, '', 'horn')}`;
  const beside = `${by('two', '1 h')} ${runBy('two', '1 h', 'horn')} ${by('two', '2 h')}`;
  expect(doses(both, lanes(runBy('one', '4 h'), beside))).toEqual(['one 125', 'two 125', 'three 125']);
});

test('a lane whose times are unknown bounds nothing', () => {
  const first = (long: string, noise: string) => doses(loud(95), lanes(long, noise))[0];
  expect(first(by('one', '6 h'), runBy('two', 'at least 1 h'))).toBe('one 150');
  expect(first(`${by('one', '5 h')} step by one "Look."`, runBy('two', '1 h'))).toBe(undefined);
  expect(doses(loud(95), lanes('step by one "Look."', runBy('two', '5 h')))).toEqual(['two 125', 'three 125']);
  expect(doses(loud(95), whileOn(lanes('step by one "Look."', by('two', '5 h'))))).toContain('three at least 125');
});

test('what is awaited of another lane is heard until it comes', () => {
  const waits = 'step by one { wait until horn off within 3 h else stop "Stop." }';
  const both = `${loud(95)} ${loud(95, '', 'horn')}`;
  const body = `${now('horn', 'cranking')} ${lanes(`${waits} ${runBy('one', '2 h')}`, `${by('two', '3 h')} ${now('horn', 'off')}`)}`;
  expect(doses(both, body)).toContain('one 125');
});

test('lanes with too many orders to be timed in each: a role without one is exposed while any lasts', () => {
  const often = (item: string, role: string) => `${now(item, 'cranking', role)} ${now(item, 'off', role)} `.repeat(240);
  const body = lanes(`${often('cart', 'one')} ${runBy('one', '5 h')}`, often('horn', 'two'));
  expect(doses(`${loud(95)} ${loud(95, '', 'horn')}`, body)).toEqual(['one 125', 'three 125']);
});

test('lanes in a lane', () => {
  const inner = `together { by two { ${runBy('two', '5 h')} } by three { ${by('three', '1 h')} } }`;
  const outer = (long: string) => doses(loud(95), `together { by one { ${long} } by two { ${inner} } }`);
  expect(outer(by('one', '9 h'))).toEqual(['one 125', 'two 125']);
  expect(outer(by('one', '2 h'))).toEqual(['two 125']);
});

test('rounds in a lane: those that are counted, or at least what was seen', () => {
  const round = runBy('two', '1 h');
  expect(doses(loud(95), lanes(by('one', '9 h'), `repeat 5 times { ${round} }`))[0]).toBe('one 125');
  const rounds = `step again: ${round.slice('step '.length)} if "Again?" { go to again }`;
  expect(doses(loud(95), lanes(by('one', '9 h'), rounds))).toContain('one 225');
});

test('the most that a time may be; where that is unknown, the least, and at least', () => {
  expect(doses(loud(90), whileOn(by('one', '1 h to 10 h')))[0]).toBe('one 125');
  expect(doses(loud(90), whileOn(by('one', 'at least 9 h')))[0]).toBe('one at least 113');
  expect(doses(loud(90), whileOn(`${by('one', '9 h')} step by one "Look."`))[0]).toBe('one at least 113');
  expect(doses(loud(90), whileOn(`step by one "Look." ${by('one', '9 h')}`))[0]).toBe('one at least 113');
});

test('the loudest of several at once', () => {
  const both = `${loud(90)} ${loud(95, '', 'horn')}`;
  const body = `step by one takes 0 s set horn cranking ${whileOn(by('one', '5 h'))} step by one takes 0 s set horn off`;
  expect(doses(both, body)[0]).toBe('one 125');
  expect(doses(`${loud(95)} ${loud(90, '', 'horn')}`, body)[0]).toBe('one 125');
  expect(doses(`${loud(95)} ${loud(90, '', 'horn')}`, whileOn(by('one', '5 h')))[0]).toBe('one 125');
});

test('the noisiest of several ways', () => {
  const body = `if "A?" { step by one takes 0 s set cart cranking } ${by('one', '9 h')} step by one takes 0 s set cart off`;
  expect(doses(loud(90), body)[0]).toBe('one 113');
});

test('its path is that of the noisiest way, not of the shortest', () => {
  const longer = `if "A?" { ${by('one', '5 h')} ${by('one', '5 h')} }`;
  const { proof } = proofOf([machine, loud(90), card(whileOn(longer))].join('\n'));
  const answers = proof.doses[0]?.path.flatMap(({ happens }) => (happens.type === 'answer' ? happens.answer : []));
  expect(answers).toEqual(['yes']);
});

test('what is worn takes off (its rating - 7) / 2, where it is surely worn; the best of two', () => {
  const worn = (protect: string, before: string) =>
    doses(
      loud(100, protect),
      `${before} ${whileOn(by('one', '6 h'))} step by one takes 0 s { set ears open set plugs open }`,
    )[0];
  expect(worn('', '')).toBe('one 300');
  expect(worn('protect ears closed', '')).toBe('one 300');
  expect(worn('protect ears closed', 'step by one takes 0 s set ears closed')).toBe(undefined);
  expect(worn('protect plugs closed', 'step by one takes 0 s set plugs closed')).toBe('one 150');
  expect(worn('protect plugs closed', 'if "A?" { step by one takes 0 s set plugs closed }')).toBe('one 300');
  expect(
    worn('protect plugs closed and ears closed', 'step by one takes 0 s { set plugs closed set ears closed }'),
  ).toBe(undefined);
});

test('of several that would do, what is not on takes nothing off', () => {
  const worn = (protect: string, on: string) =>
    doses(
      loud(100, `protect ${protect}`),
      `${on} ${whileOn(by('one', '260 min'))} step by one takes 0 s { set ears open set plugs open }`,
    )[0];
  const plugs = 'step by one takes 0 s set plugs closed';
  const ears = 'step by one takes 0 s set ears closed';
  expect(worn('ears closed or plugs closed', plugs)).toBe('one 108');
  expect(worn('ears closed or plugs closed', ears)).toBe(undefined);
  expect(worn('ears closed or plugs closed', `${ears} ${plugs}`)).toBe(undefined);
  expect(worn('ears closed or plugs closed', `if "A?" { ${ears} } else { ${plugs} }`)).toBe('one 108');
  expect(worn('any valve closed', plugs)).toBe('one 108');
  expect(worn('ears closed or not plugs open', plugs)).toBe('one 108');
  expect(worn('not (ears open and plugs open)', plugs)).toBe('one 108');
  expect(worn('not ears open', ears)).toBe(undefined);
});

test('rounds that nothing counts go on for at least what was seen', () => {
  const rounds = `step again: by one { wait 9 h } if "Again?" { go to again }`;
  const [first] = doses(loud(90), whileOn(rounds));
  expect(first).toMatch(/^one at least \d+$/);
  expect(doses(loud(90), whileOn(`repeat 3 times { ${by('one', '3 h')} }`))[0]).toBe('one 113');
});

test('a level under 80 dBA counts nothing, however long it lasts and however unknown that is', () => {
  expect(dose(79.9, 1e6)).toBe(0);
  expect(dose(80, 32 * 3600)).toBe(100);
  expect(doses(loud(79), whileOn(by('one', 'at least 40 h')))).toEqual([]);
  const both = `${loud(79)} ${loud(90, '', 'horn')}`;
  const horn = 'step by one takes 0 s set horn cranking';
  const body = `${horn} ${by('one', '9 h')} step by one takes 0 s set horn off ${whileOn(by('one', 'at least 1 h'))}`;
  expect(doses(both, body)[0]).toBe('one 113');
});

test('rounds in silence add nothing, and are not “at least”', () => {
  const silent = 'step again: by one { wait 1 h } if "Again?" { go to again }';
  expect(doses(loud(90), `${whileOn(by('one', '9 h'))} ${silent}`)[0]).toBe('one 113');
});

test('protection without a rating, or with one under 7 dB, takes nothing off', () => {
  const worn = (reduces: string) => {
    const gear = `item hood : valve "the hood" normally closed ${reduces}`;
    return proofOf(
      [machine, gear, loud(100, 'protect hood closed'), card(whileOn(by('one', '6 h')))].join('\n'),
    ).proof.doses.map(({ percent }) => Math.round(percent))[0];
  };
  expect(worn('')).toBe(300);
  expect(worn('reduces 5 dB')).toBe(300);
  expect(worn('reduces 17 dB')).toBe(150);
});

test('“at least” is said of the way that is the noisiest', () => {
  const ways = (first: string, second: string) =>
    doses(loud(90), whileOn(`if "A?" { ${by('one', first)} stop "Done." } ${by('one', second)}`))[0];
  expect(ways('10 h', 'at least 1 h')).toBe('one 125');
  expect(ways('at least 10 h', '1 h')).toBe('one at least 125');
});

test('a lane that goes on growing round after round has no end, and begins when it began', () => {
  const known = { ...noDose, least: 1, most: 2 };
  expect(doseWithoutEnd(known, { ...known, most: 3 })).toEqual({ ...known, most: Number.POSITIVE_INFINITY });
  expect(doseWithoutEnd(known, { ...known, percent: 5 })).toEqual({ ...known, atLeast: true });
});
