import { marked } from 'marked';
import { describe, expect, it } from 'vitest';
import { hoverAt } from '../../../server/features/hover/hover.ts';
import { inlayHints } from '../../../server/features/inlay-hints.ts';
import { lenses } from '../../../server/features/lenses.ts';
import { situationAt } from '../../../server/features/situation/situation.ts';
import type { Finding } from '../../../shared/finding.ts';
import { finish } from '../../../shared/parts.ts';
import { defaultSettings } from '../../../shared/settings.ts';
import { card, open } from './support.ts';

function hover(statements: string): string {
  const { snapshot, offset } = open(card(statements));
  return finish(hoverAt(snapshot, offset, defaultSettings))?.markdown ?? '';
}

const entities: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', '#39': "'" };

describe('hover', () => {
  it('tells of an item what it is, and what it may be here over all paths', () => {
    const text = hover(`step set main-switch on
      if "Is it wet?" { step set feed-pump running }
      step set feed-$0pump stopped`);
    expect(text).toContain('**the feed pump**');
    expect(text).toContain('pump: stopped, running');
    expect(text).toContain('needs mains current while running');
    expect(text).toContain('over all paths: **stopped** or **running**');
  });

  it.each([
    'https://example.com/a?b=c#d',
    'www.example.com',
    'mailto:someone@example.com',
    'someone@example.com',
    'file:///etc/passwd',
    '[the manual](https://example.com)',
    '<https://example.com>',
    '<a href="https://example.com">the manual</a>',
    '![](https://example.com/a.png)',
    'command:workbench.action.quit',
    '$(zap) &lt;b&gt; `x` **y**',
  ])('shows %s as it is written, and as no link', async (words) => {
    const { snapshot, offset } = open(`item lid : valve ${JSON.stringify(words).replaceAll('{', '{{')} normally closed
${card('step set li$0d open step set lid closed')}`);
    const markdown = finish(hoverAt(snapshot, offset, defaultSettings))?.markdown ?? '';
    const html = await marked.parse(markdown.split('\n')[0] ?? '', { gfm: true });
    expect(html).not.toMatch(/<(?!\/?(?:p|strong)>)/);
    const read = html.replace(/<.*?>/g, '').replace(/&(lt|gt|amp|quot|#39);/g, (_, name) => entities[name] ?? '');
    expect(read.trim()).toBe(words);
  });

  it('tells of a state how the card prints it', () => {
    expect(hover('step set main-switch o$0n')).toContain('Prints as “Set the main switch to ON.”');
    expect(hover('step check any pump runn$0ing')).toContain('Prints as “Start ….”');
  });

  it('tells a limit in both units, never the looser one, and shows it on its scale', () => {
    const text = hover('step read oil in work$0ing');
    expect(text).toContain('at least 30 psi \\(at least 207 kPa\\)');
    expect(text).toContain('data:image/svg+xml');
  });

  it('tells a quantity in the other system, and a code by its title', () => {
    expect(hover('step read oil at least 3$00 psi')).toContain('**207 kPa**');
    expect(hover('step { set main-switch on accept safety.rul$0e because "so" }')).toContain('**safety\\.rule**');
  });

  it('says nothing where there is nothing to say', () => {
    expect(hover('st$0ep "Look."')).toBe('');
  });
});

it('tells a rule with its reason, where its name is', () => {
  const { others } = open('');
  const plant = others[0] as NonNullable<(typeof others)[0]>;
  const text = finish(hoverAt(plant, plant.text.indexOf('oil-first') + 3, defaultSettings))?.markdown;
  expect(text).toContain('**Oil before the pump runs**');
  expect(text).toContain('A dry bearing seizes\\.');
});

describe('hints between the words', () => {
  const text = card(`step takes 2 min "Look."
    step read oil at least 40 psi
    step run barring-motor turning for 20 s
    step wait 90 s
    step run barring-motor turning for 20 s`);

  function hints(settings = defaultSettings): string[] {
    const { snapshot } = open(text);
    const all = finish(inlayHints(snapshot, { start: 0, end: snapshot.text.length }, settings));
    return all.map(
      ({ text: hint, offset }) => `${snapshot.text.slice(0, offset).split('\n').at(-1)?.trim()} | ${hint}`,
    );
  }

  it('are limits in the other unit, times since the start and rest to spare', () => {
    expect(hints()).toEqual([
      'step read oil at least 40 psi | at least 276 kPa',
      'step read oil at least 40 psi | begins at 2 min',
      'step run barring-motor turning for 20 s | begins at 2 min or later',
      'step wait 90 s | begins at 2 min 20 s or later',
      'step run barring-motor turning for 20 s | begins at 3 min 50 s or later',
      'step run barring-motor turning for 20 s | 30 s rest to spare',
    ]);
  });

  it('are only those that are asked for', () => {
    expect(hints({ ...defaultSettings, hints: [] })).toEqual([]);
    expect(hints({ ...defaultSettings, hints: ['second unit'], secondUnits: 'us' })).toEqual([]);
    expect(hints({ ...defaultSettings, hints: ['rest to spare'] })).toHaveLength(1);
  });
});

describe('hints of times', () => {
  function hintsOf(statements: string, own = ''): string[] {
    const { snapshot } = open(`${own}${card(statements)}`);
    const all = finish(inlayHints(snapshot, { start: 0, end: snapshot.text.length }, defaultSettings));
    return all.map(({ text: hint }) => hint);
  }

  it('let lanes that run together take the longest of them', () => {
    const lanes = `together {
        by fitter { step takes 5 min "Look." step takes 1 min "Look again." }
        by helper { step takes 2 min "Wait." step takes 1 min "Wait again." }
      }
      step "Go on."`;
    expect(hintsOf(lanes)).toEqual(['begins at 5 min', 'begins at 2 min', 'begins at 6 min']);
  });

  it('tell of a step in rounds when it begins first, and of what comes after all of them', () => {
    expect(hintsOf('repeat 3 times { step takes 1 min "Turn." step takes 1 min "Look." } step "Go on."')).toEqual([
      'begins at 1 min',
      'begins at 6 min',
    ]);
  });

  it('tell of each rest that a duty asks for, after every run or after some', () => {
    const own = `kind motor-2 { off "Release {}", turning "Hold {}" }
item crane : motor-2 "the crane" normally off { duty turning at most 2 times, then rest 10 min }
`;
    const runs = 'step run crane turning for 20 s step wait 60 s';
    expect(hintsOf(`${runs} ${runs} step wait 10 min step run crane turning for 20 s`, own)).toEqual([
      'begins at 20 s',
      'begins at 1 min 20 s',
      'begins at 1 min 40 s',
      'begins at 2 min 40 s',
      'begins at 12 min 40 s',
      '1 min rest to spare',
    ]);
  });

  it('tell of a procedure that is done twice from its first time to its last', () => {
    const own = 'procedure look() { step takes 1 min "Look." step takes 1 min "Look again." }\n';
    expect(hintsOf('do look() do look()', own)).toEqual(['begins at 0 s to 2 min', 'begins at 1 min to 3 min']);
  });

  it('count no rest for what was put off and never ran', () => {
    expect(
      hintsOf('step set barring-motor off step takes 5 min "Wait." step run barring-motor turning for 20 s'),
    ).toEqual(['begins at 5 min or later']);
  });
});

describe('what may be so at a step', () => {
  const situation = (statements: string) => {
    const { snapshot, offset } = open(card(statements));
    return finish(situationAt(snapshot, offset, defaultSettings));
  };

  it('has each item with its states, those that are not as normal first', () => {
    const found = situation('step set main-switch on\n step "Lo$0ok."');
    expect(found?.items[0]).toMatchObject({ label: 'the main switch', states: ['on'], normal: 'no' });
    expect(found?.items.find(({ label }) => label === 'the feed pump')).toMatchObject({
      states: ['stopped'],
      normal: 'yes',
    });
  });

  it('has each supply with what it feeds', () => {
    const picture = (statements: string) => situation(statements)?.supplies[0]?.svg ?? '';
    expect(picture('step "Lo$0ok."')).toContain('the feed pump is dead');
    expect(picture('step set main-switch on\n step "Lo$0ok."')).toContain('the feed pump is fed.');
    expect(picture('if "Wet?" { step set main-switch on }\n step "Lo$0ok."')).toContain('the feed pump is fed or dead');
  });

  it('has what each item with a duty has run and rested', () => {
    const [run] = situation('step run barring-motor turning for 20 s\n step wait 90 s\n step "Lo$0ok."')?.runs ?? [];
    expect(run?.svg).toContain('ran 20 s, rested 1 min 30 s');
    expect(situation('step "Lo$0ok."')?.runs).toEqual([]);
  });

  it('has the runs as they are where checks pass and all rounds are done', () => {
    const runs = (statements: string) => situation(statements)?.runs[0]?.svg;
    const round = 'step run barring-motor turning for 20 s step wait 90 s';
    expect(runs(`step check main-switch off else go to end repeat 2 times { ${round} } step end: "Lo$0ok."`)).toContain(
      'ran 20 s, rested 1 min 30 s, ran 20 s, rested 1 min 30 s',
    );
    expect(runs(`repeat 2 times { ${round} step "Lo$0ok." }`)).toContain(
      '"the barring motor: ran 20 s, rested 1 min 30 s"',
    );
    expect(
      runs(`step check main-switch off else stop "Tell." if "Wet?" { step "Wipe." } else { ${round} step "Lo$0ok." }`),
    ).toContain('ran 20 s, rested 1 min 30 s');
  });

  it('lets an item rest while another lane goes on', () => {
    const lanes = `together {
      by fitter { step run barring-motor turning for 20 s }
      by helper { step takes 5 min "Watch." }
    } step "Lo$0ok."`;
    expect(situation(lanes)?.runs[0]?.svg).toContain('ran 20 s, rested 4 min 40 s');
  });

  it('is that of the next step on an admonition, and nothing where no step follows', () => {
    const found = situation('step set main-switch on\n warning "Ho$0t." step set feed-pump running');
    expect(found?.items[0]).toMatchObject({ label: 'the main switch', states: ['on'] });
    expect(situation('step "Look." $0')).toBeUndefined();
  });
});

it('says over a card how long it takes and what was found, and over equipment who uses it', () => {
  const { snapshot, others, workspace } = open(card('step takes 1 min to 2 min "Look."'));
  const everywhere = [snapshot, ...others];
  const context = { findings: [], everywhere, settings: defaultSettings, workspace, releases: [] };
  expect(finish(lenses(snapshot, context)).map(({ title }) => title)).toEqual([
    '1 min to 2 min · no findings',
    'the proof follows 0 of 1 step; 1 is for people only (list it)',
  ]);
  const place = { file: snapshot.file, start: 0, end: 1 };
  const before: Finding = { code: 'state.no-change', level: 'hint', message: '', path: [], fixes: [], place };
  // It stands where a procedure would, outside of the card.
  expect(finish(lenses(snapshot, { ...context, findings: [before] }))[0]?.title).toContain('1 finding');
  const untimed = open(card('step "Look."')).snapshot;
  expect(finish(lenses(untimed, context)).map(({ title }) => title)).toEqual([
    'no findings',
    'the proof follows 0 of 1 step; 1 is for people only (list it)',
  ]);
  const whole = open(card('step set main-switch off')).snapshot;
  expect(finish(lenses(whole, context)).at(-1)).toEqual({
    span: expect.anything(),
    title: 'the proof follows 1 of 1 step',
  });
  expect(finish(lenses(others[0] as typeof snapshot, context)).map(({ title }) => title)).toEqual(['used in 1 card']);
});
