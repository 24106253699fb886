/** Releasing cards, and telling of a released one what it is worth now. */
import { spawnSync } from 'node:child_process';
import { generateKeyPairSync } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { sealed } from '../../client/command-line/seal.ts';
import { type Folder, faultyCard, folder } from './support.ts';

const equipment = `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve" normally closed
`;
const card = (more = '', revision = 'A') => `use "../plant.card"
card wash "Wash" {
  number "W-1"  revision "${revision}" on 2026-10-02  crew mechanic "Mechanic"  ${more}
  step set drain open
  step set drain closed
}
`;

const shop = (text = card()) => folder().write('plant.card', equipment).write('wash/wash.card', text);
const release = (here: Folder, ...more: string[]) => here.run(['release', 'wash', '--to', 'out', ...more]);
const verify = (here: Folder, ...more: string[]) => here.run(['verify', 'out/wash-A.html', ...more]);
const released = (here: Folder) => readFileSync(join(here.path, 'out/wash-A.html'));

describe('a release', () => {
  test('is the card with its work copy, its revision in the name, and what it was made from', async () => {
    const here = shop();
    expect(await release(here)).toEqual({ code: 0, out: 'out/wash-A.html\n', errors: '' });
    const page = released(here).toString();
    expect(page).toContain('/* work copy */');
    expect(page).toMatch(/<dt>Release(?:<\/dt>)?<dd[^>]*>sources (?:[0-9a-f]{4} ?){4}, Cardwright \d/);
    expect(page).toContain('"../plant.card":"kind valve');
  });

  test.each([
    ['an error', faultyCard, {}, 'It has an error. Mend it.'],
    [
      'a warning',
      card('tools "Key"').replace('crew mechanic "Mechanic"', 'crew mechanic "Mechanic", second "Second"'),
      {},
      'It has 2 warnings. Mend or accept them.',
    ],
    [
      'an acceptance without a reason',
      card('')
        .replace('step set drain closed', '')
        .replace('step set', 'accept safety.left-changed because "…"  step set'),
      {},
      'It has an error. Mend it. It has a warning.',
    ],
    ['a check that is off', card(), { levels: { flow: 'off' } }, 'lower checks (flow: off)'],
    ['no revision', card().replace('revision "A" on 2026-10-02', ''), {}, 'It has no revision.'],
    [
      'nobody who answers for it, where the settings ask',
      card(),
      { signOff: 'three people' },
      'It does not say by whom',
    ],
    [
      'one person for two, where the settings ask for three',
      card('prepared by "Ann" on 2026-10-01 checked by "Bo" on 2026-10-02 approved by "ann " on 2026-10-02'),
      { signOff: 'three people' },
      'by fewer than three people',
    ],
  ])('is refused with %s', async (_, text, settings, reason) => {
    const here = shop(text).write('cardwright.json', JSON.stringify(settings));
    const { code, out, errors } = await release(here);
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(errors).toContain('"Wash" is not released.');
    expect(errors).toContain(reason);
  });

  test('goes through where three people answer for it, and a warning is accepted', async () => {
    const people = 'prepared by "Ann" on 2026-10-01 checked by "Bo" on 2026-10-02 approved by "Cy" on 2026-10-02';
    const left = card(people)
      .replace('  step set drain closed\n', '')
      .replace('  step set', '  accept safety.left-changed because "The next card closes it."  step set');
    expect(await release(shop(left).write('cardwright.json', '{"signOff":"three people"}'))).toMatchObject({ code: 0 });
  });

  test('is never replaced by another text of the same revision, under any name', async () => {
    const here = shop();
    await release(here);
    const first = released(here);
    expect(await release(here)).toMatchObject({ code: 0 });
    here.write('wash/wash.card', card('tools "Key"').replace('card wash', 'card clean'));
    const { code, errors } = await release(here);
    expect(code).toBe(1);
    expect(errors).toContain('Revision A of it was released with other contents (out/wash-A.html).');
    here.write('wash/wash.card', card('tools "Key"', 'B'));
    expect(await release(here)).toMatchObject({ code: 0, out: 'out/wash-B.html\n' });
    expect(released(here)).toEqual(first);
  });

  test('has the same bytes from the same sources, in any folder, time zone and way of ending lines', async () => {
    const [one, other] = [shop(), folder()];
    await release(one);
    other.write('deep/er/plant.card', equipment.replaceAll('\n', '\r\n')).write('deep/er/wash/wash.card', card());
    const zone = process.env.TZ;
    process.env.TZ = 'Pacific/Kiritimati';
    try {
      await other.run(['release', 'er/wash/wash.card', '--to', '../out'], 'deep');
    } finally {
      if (zone === undefined) delete process.env.TZ;
      else process.env.TZ = zone;
    }
    expect(released(other).equals(released(one))).toBe(true);
  });
});

describe('a released card', () => {
  const said = async (here: Folder, ...more: string[]) => {
    const { code, out } = await verify(here, ...more);
    return { code, out: out.replace('out/wash-A.html: ', '').trim() };
  };

  test('is current while its sources are the same', async () => {
    const here = shop();
    await release(here);
    expect(await said(here)).toEqual({ code: 0, out: 'current. It is revision A, as the sources give it now.' });
  });

  test.each([
    ['the equipment', (here: Folder) => here.write('plant.card', `${equipment} `), ': ../plant.card.'],
    ['the settings', (here: Folder) => here.write('cardwright.json', '{"paper":"A4"}'), ': the settings.'],
    [
      'the revision',
      (here: Folder) => here.write('wash/wash.card', card('', 'B')),
      'It is revision A, and the sources are at revision B. Changed: wash.card.',
    ],
  ])('is older after a change of %s', async (_, change, what) => {
    const here = shop();
    await release(here);
    change(here);
    const { code, out } = await said(here);
    expect({ code, isOlder: out.startsWith('older. ') }).toEqual({ code: 1, isOlder: true });
    expect(out).toContain(what);
  });

  test('tells of a picture that was changed', async () => {
    const picture = (colour: string) =>
      `<svg xmlns="http://www.w3.org/2000/svg"><rect width="9" height="9" fill="${colour}"/></svg>`;
    const here = shop(card().replace('  step', '  figure "a.svg" "The valve"\n  step')).write(
      'wash/a.svg',
      picture('red'),
    );
    expect(await release(here)).toMatchObject({ code: 0 });
    expect(await said(here)).toMatchObject({ code: 0 });
    here.write('wash/a.svg', picture('blue'));
    expect((await said(here)).out).toContain('a.svg');
  });

  test('is altered with any one byte', async () => {
    const here = shop();
    await release(here);
    const bytes = released(here);
    // Each part of the page, and each sign of the seal.
    const places = [...Array(20).keys()].map((part) => Math.floor((part * bytes.length) / 20));
    for (let back = 1; back <= 95; back++) places.push(bytes.length - back);
    const undetected: number[] = [];
    for (const place of places) {
      const changed = Buffer.from(bytes);
      changed[place] = (changed[place] as number) ^ 1;
      here.write('out/wash-A.html', changed);
      if (!/altered|not ours/.test((await said(here)).out)) undetected.push(place);
    }
    expect(undetected).toEqual([]);
  });

  test('is altered where somebody changes it and seals it anew', async () => {
    const here = shop();
    await release(here);
    const forged = released(here)
      .toString()
      .replace('Open the drain valve', 'Open the vent valve')
      .replace(/<!-- sealed .*\n$/, '');
    here.write('out/wash-A.html', sealed(forged));
    expect((await said(here)).out).toBe('altered. It is not what Cardwright makes of the sources that it names.');
  });

  test('of another tool, and one that was only exported, is none of ours', async () => {
    const here = shop();
    await here.run(['export', 'wash', '--to', 'out']);
    expect(await here.run(['verify', 'out/wash.html'])).toMatchObject({
      code: 1,
      out: expect.stringContaining('not ours'),
    });
    expect(await here.run(['verify', 'plant.card'])).toMatchObject({
      code: 1,
      out: expect.stringContaining('not ours'),
    });
    expect(await here.run(['verify', 'nothing.html'])).toMatchObject({
      code: 2,
      errors: 'There is no file "nothing.html".\n',
    });
  });

  test('whose sources are not here is unknown', async () => {
    const here = shop();
    await release(here);
    expect(await said(here, '--sources', 'plant.card')).toMatchObject({
      code: 1,
      out: expect.stringContaining('unknown'),
    });
  });
});

describe('a signature', () => {
  const pair = () => {
    const { privateKey, publicKey } = generateKeyPairSync('ed25519');
    const pem = {
      privateKey: privateKey.export({ type: 'pkcs8', format: 'pem' }),
      publicKey: publicKey.export({ type: 'spki', format: 'pem' }),
    };
    return pem;
  };

  test('is made with a private key and checked with the public one', async () => {
    const ours = pair();
    const here = shop()
      .write('private.pem', ours.privateKey)
      .write('public.pem', ours.publicKey)
      .write('other.pem', pair().publicKey);
    expect(await release(here, '--key', 'private.pem')).toMatchObject({ code: 0 });
    expect(await verify(here, '--key', 'public.pem')).toMatchObject({
      code: 0,
      out: expect.stringContaining('It is signed with the key'),
    });
    expect(await verify(here, '--key', 'other.pem')).toMatchObject({
      code: 1,
      out: expect.stringContaining('signed with another key'),
    });
    expect(await verify(here)).toMatchObject({ code: 0, out: expect.stringContaining('check that with --key') });
  });

  test('is asked for where a key is named', async () => {
    const here = shop().write('public.pem', pair().publicKey);
    await release(here);
    expect(await verify(here, '--key', 'public.pem')).toMatchObject({
      code: 1,
      out: expect.stringContaining('It is not signed.'),
    });
  });

  /** As `ssh-keygen` makes it; undefined where this machine has none. */
  const sshKey = (here: Folder, name: string, sort: string, passphrase = '') =>
    spawnSync('ssh-keygen', ['-q', '-t', sort, '-N', passphrase, '-C', 'shop', '-f', join(here.path, name)]).status;

  test('is made and checked with a pair of keys for SSH, and with no other', async ({ skip }) => {
    const here = shop();
    if (sshKey(here, 'ours', 'ed25519') !== 0) return skip('needs ssh-keygen');
    sshKey(here, 'other', 'ed25519');
    sshKey(here, 'locked', 'ed25519', 'secret');
    sshKey(here, 'ec', 'ecdsa');
    expect(await release(here, '--key', 'ours')).toMatchObject({ code: 0 });
    expect(await verify(here, '--key', 'ours.pub')).toMatchObject({ code: 0 });
    expect(await verify(here, '--key', 'other.pub')).toMatchObject({ code: 1 });
    for (const [name, why] of [
      ['locked', 'passphrase'],
      ['ec', 'not Ed25519'],
      ['ours.pub', 'it is a public key'],
    ] as const)
      expect(await release(here, '--key', name)).toMatchObject({ code: 2, errors: expect.stringContaining(why) });
  });

  test('needs a key for Ed25519', async () => {
    const { privateKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' });
    const here = shop()
      .write('ec.pem', privateKey.export({ type: 'pkcs8', format: 'pem' }))
      .write('no.pem', 'nothing');
    expect(await release(here, '--key', 'ec.pem')).toMatchObject({
      code: 2,
      errors: expect.stringContaining('not Ed25519'),
    });
    expect(await release(here, '--key', 'no.pem')).toMatchObject({
      code: 2,
      errors: expect.stringContaining('cannot be read'),
    });
  });
});
