/** What the samples go on with is what is offered there, and what is offered can be read. */
// biome-ignore-all lint/suspicious/noTemplateCurlyInString: snippets name their places so.
import { describe, expect, it } from 'vitest';
import { expectedAfter } from '../../../grammar/expected.ts';
import { parse } from '../../../grammar/parse.ts';
import { endOf, Ident, lex, type Token } from '../../../grammar/tokens.ts';
import { type Candidate, complete } from '../../../server/features/completion/complete.ts';
import { completionContext } from '../../../server/features/completion/context.ts';
import type { Snapshot } from '../../../server/snapshot.ts';
import { finish } from '../../../shared/parts.ts';
import { defaultSettings } from '../../../shared/settings.ts';
import { cardsIn, folder, openSamples, worlds } from '../../samples/support.ts';

const around = { settings: defaultSettings, files: [], codesHere: [] };
const files = [...worlds, 'recipes'].flatMap((world) => cardsIn(world).map((file) => `${folder}/${world}/${file}`));

function offered(snapshot: Snapshot, offset: number): readonly Candidate[] {
  return finish(complete(snapshot, offset, around)).candidates;
}

/** Names that are given here, and the words of what is given values: only the writer knows them. */
const given = /^(a name for|a word$|the name of a node)/;

function isGiven(text: string, before: readonly Token[], { tokenType }: Token): boolean {
  const expected = expectedAfter(text, before);
  if (expected.some(({ within }) => within[0]?.rule === 'kindState')) return true;
  if (tokenType !== Ident) return false;
  return expected.some(
    ({ wanted, type, within }) =>
      (wanted !== undefined && given.test(wanted)) ||
      within[0]?.rule === 'member' ||
      (wanted === undefined && type.name === 'Name'),
  );
}

/** What is told of any text that ends in the middle. */
const unfinished: readonly string[] = ['syntax.missing', 'syntax.unclosed'];

/** The crew of a procedure is that of the card which does it, in another file; a unit such as `N.m` is offered whole. */
function isElsewhere({ bound }: Snapshot, wanted: string, before: Token | undefined): boolean {
  return (wanted === 'role' && bound.cards.length === 0) || (wanted === 'unit' && before?.image === '.');
}

/** A snippet as it stands once its places are passed over. */
function written({ insert, isSnippet }: Candidate): string {
  if (!isSnippet) return insert;
  return insert
    .replace('${CURRENT_YEAR}-${CURRENT_MONTH}-${CURRENT_DATE}', '2026-11-02')
    .replace(/\$\{\d+:([^}]*)\}|\$\d/g, '$1');
}

describe.each(files)('%s', (file) => {
  const snapshot = openSamples().workspace.snapshot(file) as Snapshot;
  const { tokens } = lex(snapshot.text);
  const words = [...tokens.entries()].filter(([, { image }]) => /^\p{L}/u.test(image));

  it('is offered word for word', () => {
    const missing = words.flatMap(([index, token]) => {
      if (isGiven(snapshot.text, tokens.slice(0, index), token)) return [];
      const { wanted } = completionContext(snapshot.text, token.startOffset);
      if (wanted.some((want) => isElsewhere(snapshot, want.type, tokens[index - 1]))) return [];
      const labels = offered(snapshot, token.startOffset).map(({ label }) => label);
      const isOffered = labels.some(
        (label) => label === token.image || label.startsWith(`${token.image} `) || label.startsWith(`${token.image}.`),
      );
      return isOffered ? [] : [`${token.image} in "${snapshot.text.slice(token.startOffset - 40, endOf(token))}"`];
    });
    expect(missing).toEqual([]);
  });

  it('can be gone on with by whatever is offered', () => {
    const seen = new Set<string>();
    const wrong: string[] = [];
    for (const [, { startOffset }] of words) {
      const { wanted } = completionContext(snapshot.text, startOffset);
      const before = snapshot.text.slice(0, startOffset);
      const key = JSON.stringify(wanted);
      if (seen.has(key)) continue;
      seen.add(key);
      for (const candidate of offered(snapshot, startOffset)) {
        // A bound “exactly” is one before its number only.
        const { problems } = parse(before + written(candidate).replace(/^exactly$/, 'exactly 1'));
        const slip = problems.find(({ code, span }) => span.end > startOffset && !unfinished.includes(code));
        if (slip) wrong.push(`${before.slice(-40)}▮${candidate.label}: ${slip.message}`);
      }
    }
    expect(wrong).toEqual([]);
  });
});
