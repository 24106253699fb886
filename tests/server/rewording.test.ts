/** Where only words change, a snapshot goes on with all that was worked out, and says what a new one would. */
import { describe, expect, test } from 'vitest';
import { all } from '../../grammar/navigate.ts';
import { parse } from '../../grammar/parse.ts';
import type { Api } from '../../server/api.ts';
import { allFindings } from '../../server/findings/all.ts';
import type { Proof } from '../../server/proof/facts.ts';
import type { Card } from '../../shared/card.ts';
import { finish } from '../../shared/parts.ts';
import { defaultSettings } from '../../shared/settings.ts';
import { samples } from '../fuzz/texts.ts';
import { mainFile, openFiles, openText } from '../support/check.ts';
import { readMarks } from '../support/marks.ts';

const files = Object.fromEntries(samples.map(({ file, text }) => [file, text]));

/** In how many rounds a sample is typed into, and compared with one opened anew after each. */
const rounds = 3;

describe.each(samples.map(({ file }) => file))('%s', (file) => {
  test('says what it would if it were opened anew, whatever words were typed', () => {
    const kept = openFiles(files);
    for (let round = 0; round < rounds; round++) {
      for (const at of wordsOf(textOf(kept, file)).filter((_, index) => index % rounds === round)) {
        const text = textOf(kept, file);
        const offset = text.indexOf(at);
        kept.workspace.setText(file, `${text.slice(0, offset)}x${at}${text.slice(offset + at.length)}`);
        kept.check([file]);
      }
      const anew = openFiles({ ...files, [file]: textOf(kept, file) });
      expect(told(kept, file)).toEqual(told(anew, file));
    }
  });
});

/** A stretch of each text and each comment that stands there once. */
function wordsOf(text: string): string[] {
  const { file, comments } = parse(text);
  const spans = [...all(file, 'text'), ...comments].map(({ start, end }) => text.slice(start + 3, end - 3));
  return spans.filter((words) => words.length > 0 && text.split(words).length === 2);
}

const examples = allFindings.flatMap(({ code, examples }) =>
  examples.flatMap(({ given = '', bad }, index) => [[`${code} ${index}`, `${given}\n${readMarks(bad).text}`] as const]),
);

test.each(examples)('%s is found in other words where it would be in a text opened anew', (_, example) => {
  const kept = openText(example);
  for (const words of wordsOf(example)) {
    const text = kept.workspace.textOf(mainFile);
    kept.workspace.setText(
      mainFile,
      text.replace(words, () => `${words.slice(0, 1)}x${words.slice(1)}`),
    );
    const now = kept.workspace.textOf(mainFile);
    expect(kept.check([mainFile])).toEqual(openText(now).check([mainFile]));
  }
});

function textOf({ workspace }: Api, file: string): string {
  return workspace.textOf(file);
}

function told({ check, workspace }: Api, file: string) {
  const { findings, accepted, cards } = check([file]);
  const snapshot = workspace.snapshot(file);
  const bound = snapshot?.bound;
  const proofs = bound?.cards.map((card) => saidOf(snapshot?.proof(card, defaultSettings) as Proof, card));
  return { findings, accepted, cards, proofs, bound, uses: bound?.references.uses, parsed: snapshot?.parsed };
}

function saidOf(proof: Proof, card: Card) {
  finish(proof.workOut());
  const { statesAt, workOut: _, isUnderWay: __, ...facts } = proof;
  const steps = card.body.flatMap((part) => (part.type === 'stage' ? part.body : [part]));
  return { ...facts, states: steps.map(({ place }) => finish(statesAt(place, card.equipment.items))) };
}
