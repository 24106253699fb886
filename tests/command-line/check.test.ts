import { execFileSync } from 'node:child_process';
import { mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { cleanCard, faultyCard, folder } from './support.ts';

test('a clean card gives exit code 0', async () => {
  const { code, out, errors } = await folder().write('a.card', cleanCard).run(['check', 'a.card']);
  expect({ code, out, errors }).toEqual({
    code: 0,
    out: '0 errors, 0 warnings, 0 hints in 1 file with 1 card; the proof follows 0 of 1 step; 1 is for people only.\n',
    errors: '',
  });
});

test('a finding is shown with its lines, its path and its fix', async () => {
  const { code, out } = await folder().write('a.card', faultyCard).run(['check', 'a.card']);
  expect(code).toBe(1);
  expect(out).toMatchInlineSnapshot(`
    "a.card:7:8: error safety.left-changed: The ignition breaker may still be pulled when the card finishes. Set ignition closed before that, or say “leaves ignition …” and why.
      7 |   step set ignition pulled
        |        ^^^^^^^^^^^^^^^^^^^
      path:
        1. a.card:7:8 the ignition breaker: pulled
        2. a.card:3:6 the card finishes here
      fix: Insert: step set ignition closed

    1 error, 0 warnings, 0 hints in 1 file with 1 card; the proof follows 1 of 1 step.
    "
  `);
});

test('a fix says which lines it changes, where they are others', async () => {
  const { out } = await folder()
    .write(
      'a.card',
      `item drain, lid : valve normally closed
rule lid-first "The lid first" { before drain open require lid open }
card a "A" {
  number "1" revision "A" crew f "Fitter"
  step set drain open
  step set drain closed
}
`,
    )
    .run(['check', 'a.card']);
  expect(out).toMatch(/^ {2}fix \(lines 5, 6\): Insert: step set lid open, and later: step set lid closed$/m);
});

test('the steps that the proof does not follow are listed where they are asked for, each with its reason', async () => {
  const here = folder().write(
    'a.card',
    `item drain : valve "the drain" normally closed
card a "A" {
  number "1" revision "A" crew f "Fitter"
  step "Agree on the hand signals."
  step "Open the drain."
  accept prose.unsaid-action because "It is shown."
}
`,
  );
  const { out } = await here.run(['check', 'a.card', '--not-followed']);
  expect(out).toBe(
    `a.card:4:3: not followed: step 1, “Agree on the hand signals.”: words for whoever does the work: no item is to be made up for them.
a.card:5:3: not followed: step 2, “Open the drain.”: only words, which the proof does not see: say it as set drain open.
0 errors, 0 warnings, 0 hints in 1 file with 1 card; the proof follows 0 of 2 steps; 1 is for people only, 1 says what it does not see.
`,
  );
  const { summary } = JSON.parse((await here.run(['check', 'a.card', '--format', 'json'])).out);
  expect(summary.coverage[0].notFollowed.map(({ line, sort }: { line: number; sort: string }) => [line, sort])).toEqual(
    [
      [4, 'people'],
      [5, 'unseen'],
    ],
  );
});

test('json has the findings with lines and columns from 1, and a summary', async () => {
  const { code, out } = await folder().write('sub/a.card', faultyCard).run(['check', 'sub', '--format', 'json']);
  expect(code).toBe(1);
  expect(JSON.parse(out)).toMatchInlineSnapshot(`
    {
      "findings": [
        {
          "code": "safety.left-changed",
          "column": 8,
          "endColumn": 27,
          "endLine": 7,
          "file": "sub/a.card",
          "fixes": [
            {
              "title": "Insert: step set ignition closed",
            },
          ],
          "level": "error",
          "line": 7,
          "message": "The ignition breaker may still be pulled when the card finishes. Set ignition closed before that, or say “leaves ignition …” and why.",
          "path": [
            {
              "file": "sub/a.card",
              "line": 7,
              "text": "the ignition breaker: pulled",
            },
            {
              "file": "sub/a.card",
              "line": 3,
              "text": "the card finishes here",
            },
          ],
        },
      ],
      "summary": {
        "cards": 1,
        "coverage": [
          {
            "card": "wash",
            "followedItems": 1,
            "followedSteps": 1,
            "items": 1,
            "notFollowed": [],
            "steps": 1,
          },
        ],
        "errors": 1,
        "files": 1,
        "hints": 0,
        "warnings": 0,
      },
    }
  `);
});

/** A finished card is done by another, with a role that it has not got itself: only the other fix is sound. */
const doneByAnother = `card sub "Sub" {
  number "1" revision "A" crew a "Ann"
  step "Look."
}
card whole "Whole" {
  number "2" revision "A" crew a "Ann", b "Bea"
  step by b "Wait for Ann."
  do sub
}
`;

test.each(['text', 'json', 'sarif'])('a fix that brings an error is left out (%s)', async (format) => {
  const { out } = await folder().write('a.card', doneByAnother).run(['check', 'a.card', '--format', format]);
  expect(out).toContain('crew.missing');
  expect(out).toContain('Let Ann do this step');
  expect(out).not.toContain('Let Bea do this step');
});

test('files are named from the folder that it runs in, those outside it too', async () => {
  const here = folder().write('a.card', faultyCard).write('below/b.card', 'use "../a.card"');
  const { findings } = JSON.parse((await here.run(['check', 'b.card', '--format', 'json'], 'below')).out);
  expect(findings.map(({ file }: { file: string }) => file)).toEqual(['../a.card']);
});

test('used files count, and so do their findings', async () => {
  const here = folder().write('a.card', faultyCard).write('b.card', 'use "a.card"');
  const { findings, summary } = JSON.parse((await here.run(['check', 'b.card', '--format', 'json'])).out);
  expect(findings).toHaveLength(1);
  expect(summary).toEqual({ files: 2, cards: 1, errors: 1, warnings: 0, hints: 0, coverage: expect.any(Array) });
});

test('hints and warnings count where it is strict', async () => {
  const here = folder().write('a.card', cleanCard.replace('at the hose', 'at sufficient hoses'));
  expect((await here.run(['check', 'a.card'])).code).toBe(0);
  expect((await here.run(['check', 'a.card', '--strict'])).code).toBe(1);
});

test('folders are searched, and hidden ones left alone', async () => {
  const here = folder()
    .write('one/two/a.card', cleanCard)
    .write('.old/b.card', faultyCard)
    .write('node_modules/c.card', faultyCard);
  expect((await here.run(['check', '.'])).out).toContain('in 1 file with 1 card');
});

test('the settings of the nearest folder above are used', async () => {
  const here = folder()
    .write('cardwright.json', '{ "levels": { "safety": "warning" } }')
    .write('a/a.card', faultyCard)
    .write('b/cardwright.json', '{ "levels": { "safety": "off" }, "speed": 3 }')
    .write('b/b.card', faultyCard.replace('"2"', '"3"'));
  const { code, out, errors } = await here.run(['check', '.']);
  expect(code).toBe(0);
  expect(out).toContain('0 errors, 1 warning, 0 hints');
  expect(errors).toContain('There is no setting "speed". The default is used.');
});

test('the word list that the settings name is read from beside them, and what is wrong with it is told', async () => {
  const here = folder()
    .write('cardwright.json', '{ "wordList": "shop.words" }')
    .write('shop.words', 'kettle -> bowl\n-> nothing\n')
    .write('sub/a.card', 'card a "A" { number "1" revision "A" crew f "F" step "Lift the kettle." }');
  const { out, errors } = await here.run(['check', '.']);
  expect(out).toContain('“kettle” is not an approved word here. Write “bowl”.');
  expect(errors).toContain('cardwright.json: shop.words: Line 2: write a word');
  here.write('cardwright.json', '{ "wordList": "gone.words" }');
  const without = await here.run(['check', '.']);
  expect(without.out).not.toContain('kettle');
  expect(without.errors).toContain('There is no file “gone.words” that can be read.');
});

test('settings that are no JSON end the run', async () => {
  const here = folder().write('cardwright.json', '{').write('a.card', cleanCard);
  const { code, errors } = await here.run(['check', '.']);
  expect(code).toBe(2);
  expect(errors).toContain('cardwright.json is no JSON');
});

test.each([
  ['a missing file', ['check', 'none.card'], 'There is no file or folder "none.card".'],
  ['an empty folder', ['check', 'empty'], 'There is no *.card file in the folder "empty".'],
  ['a binary file', ['check', 'binary.card'], '"binary.card" is no text'],
  ['another encoding', ['check', 'latin.card'], '"latin.card" is not saved as UTF-8'],
  ['a format that is none', ['check', 'a.card', '--format', 'xml'], 'Allowed choices are text, json, sarif'],
  ['no path', ['check'], "missing required argument 'path'"],
  ['a command that is none', ['chek', 'a.card'], "unknown command 'chek'"],
])('%s gives exit code 2 and says why', async (_, args, reason) => {
  const here = folder()
    .write('a.card', cleanCard)
    .write('binary.card', new Uint8Array([0x63, 0x00, 0x01, 0xff]))
    .write('latin.card', new Uint8Array([0x2f, 0x2f, 0xe4, 0x0a]));
  mkdirSync(join(here.path, 'empty'));
  const { code, errors } = await here.run(args);
  expect(code).toBe(2);
  expect(errors).toContain(reason);
});

test('what can be read is checked even where something else cannot', async () => {
  const { code, out, errors } = await folder().write('a.card', faultyCard).run(['check', 'a.card', 'none.card']);
  expect(code).toBe(2);
  expect(out).toContain('safety.left-changed');
  expect(errors).toContain('none.card');
});

test('a byte order mark and line ends of Windows change no place', async () => {
  const windows = `\uFEFF${faultyCard.replaceAll('\n', '\r\n')}`;
  const plain = await folder().write('a.card', faultyCard).run(['check', 'a.card', '--format', 'json']);
  expect((await folder().write('a.card', windows).run(['check', 'a.card', '--format', 'json'])).out).toBe(plain.out);
});

test('a line of 5 MB is read, and its writer told that not all of it is', async () => {
  const long = cleanCard.replace('Look at the hose.', 'Look at the hose. '.repeat(290_000));
  const { code, out } = await folder().write('a.card', long).run(['check', 'a.card']);
  expect(code).toBe(0);
  expect(out).toContain('only the first 50000 characters are read');
});

test('what a report would show of a file that is no card is not read from elsewhere', async () => {
  const here = folder()
    .write('secret.txt', 'item the-secret : valve "x"\nsecret §§§\n')
    .write('below/a.card', `use "../secret.txt"\nuse "linked.card"\n${cleanCard}`);
  symlinkSync(join(here.path, 'secret.txt'), join(here.path, 'below/linked.card'));
  const { out } = await here.run(['check', 'a.card'], 'below');
  expect(out.match(/There is no file/g)).toHaveLength(2);
  expect(out).not.toMatch(/the-secret|§/);
});

test('a settings file that is a pipe is not waited for', async () => {
  const here = folder().write('a.card', cleanCard);
  execFileSync('mkfifo', [join(here.path, 'cardwright.json')]);
  expect(await here.run(['check', 'a.card'])).toMatchObject({ code: 2, out: '' });
});

test('a card to which links lead too is one card, also where folders go in a circle', async () => {
  const here = folder().write('real.card', cleanCard).write('sub/b.card', cleanCard.replaceAll('"1"', '"2"'));
  symlinkSync('real.card', join(here.path, 'a.card'));
  symlinkSync('..', join(here.path, 'sub/up'));
  for (const path of ['.', '**/*.card']) {
    const { code, out } = await here.run(['check', path]);
    expect(out).toMatch(/^0 errors, 0 warnings, 0 hints in 2 files/);
    expect(code).toBe(0);
  }
});

test('a level for a finding that there is not is told', async () => {
  const here = folder().write('a.card', cleanCard).write('cardwright.json', '{ "levels": { "duty.take": "error" } }');
  const { errors } = await here.run(['check', '.']);
  expect(errors).toContain('There is no finding "duty.take": did you mean "duty.takes"?');
});

test('what cannot be read in a folder is told, not passed over', async () => {
  const here = folder().write('real.card', cleanCard).write('sub/b.card', faultyCard);
  symlinkSync('real.card', join(here.path, 'good.card'));
  symlinkSync('nowhere.card', join(here.path, 'gone.card'));
  symlinkSync('round.card', join(here.path, 'round.card'));
  execFileSync('mkfifo', [join(here.path, 'sub/pipe.card')]);
  symlinkSync('pipe.card', join(here.path, 'sub/to-pipe.card'));
  for (const path of ['.', '**/*.card']) {
    const { code, out, errors } = await here.run(['check', path]);
    expect(code).toBe(2);
    expect(out).toContain('in 2 files');
    const told = errors
      .trim()
      .split('\n')
      .map((line) => line.split(' ').slice(0, 4).join(' '));
    expect(told).toEqual(['gone.card', 'round.card', 'sub/pipe.card'].map((file) => `"${file}" cannot be read:`));
  }
  expect((await here.run(['check', 'gone.card'])).errors).toMatch(/^"gone.card" cannot be read/);
  expect((await here.run(['check', 'round.card'])).errors).toMatch(/^"round.card" cannot be read/);
});

test('help and version are no failures', async () => {
  expect((await folder().run(['--help'])).code).toBe(0);
  expect((await folder().run(['check', '--help'])).out).toContain('prove cards on every path');
  expect((await folder().run(['--version'])).out).toMatch(/^\d+\.\d+\.\d+\n$/);
});

test('a pattern in quotation marks stands for the files that fit', async () => {
  const here = folder().write('one/a.card', cleanCard).write('two/b.card', faultyCard.replace('"2"', '"3"'));
  expect((await here.run(['check', '**/*.card'])).out).toContain('in 2 files with 2 cards');
  expect(await here.run(['check', 'three/*.card'])).toMatchObject({
    code: 2,
    errors: 'No file fits "three/*.card".\n',
  });
});

test('a text with nothing in it is not called clean', async () => {
  const here = folder().write('a.card', ' \n').write('b.card', cleanCard);
  expect(await here.run(['check', 'a.card'])).toMatchObject({
    code: 2,
    out: '',
    errors: 'There is nothing to check in "a.card".\n',
  });
});

test('a card only mentions files: a pipe or a device among them is not waited for', async () => {
  const here = folder().write('a.card', `use "/dev/zero"\nuse "pipe.card"\n${cleanCard}`);
  execFileSync('mkfifo', [join(here.path, 'pipe.card')]);
  const { code, out } = await here.run(['check', 'a.card']);
  expect(code).toBe(1);
  expect(out.match(/name\.unknown/g)).toHaveLength(2);
});

test('nothing found is no all-clear where settings switch checks off', async () => {
  const here = folder().write('cardwright.json', '{ "levels": { "safety": "off" } }').write('a.card', faultyCard);
  const { code, out, errors } = await here.run(['check', 'a.card']);
  expect({ code, found: out.includes('0 errors') }).toEqual({ code: 0, found: true });
  expect(errors).toContain('switch off or lower checks (safety: off)');
  const exported = await here.run(['export', 'a.card']);
  expect(exported.code).toBe(0);
  expect(here.read(exported.out.trim())).toContain('draft-mark');
});

test('what a folder above switches off is told too', async () => {
  const here = folder()
    .write('cardwright.json', '{ "levels": { "safety": "off" } }')
    .write('one/two/a.card', faultyCard);
  expect((await here.run(['check', 'a.card'], 'one/two')).errors).toContain('switch off or lower checks (safety: off)');
  const { out } = await here.run(['export', 'a.card'], 'one/two');
  expect(here.read(`one/two/${out.trim()}`)).toContain('draft-mark');
});

test.each(['check', 'export', 'release', 'verify', 'compare', 'report', 'format', 'explain'])(
  'the help of %s shows two examples',
  async (name) => {
    const { out } = await folder().run([name, '--help']);
    expect(out.split('Examples:\n')[1]?.match(new RegExp(`^  cardwright ${name} `, 'gm'))).toHaveLength(2);
  },
);
