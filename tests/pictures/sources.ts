/** What the README's pictures show: their samples, the findings in them and the words of the card. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { openWorkspace } from '../../server/api.ts';

const read = (name: string) => readFileSync(`samples/merganser/${name}`, 'utf8');

/** The equipment, a card, and its figure. */
export const clean: Readonly<Record<string, string>> = {
  'merganser.card': read('merganser.card'),
  'marked-area.svg': read('marked-area.svg'),
  'rinse.card': read('rinse.card'),
};

/** The same with a slip in the card. */
export const slipped = {
  ...clean,
  'rinse.card': read('rinse.card').replace('check bus-tie closed', 'set bus-tie pulled'),
};

/** The finished card. */
export function finishedCard(): string {
  const [card] = openFiles(clean).render('rinse.card');
  return card?.html ?? '';
}

/** Changes with whatever the pictures would show otherwise: texts, sentences of findings, words of the card. */
export function stamp(): string {
  const findings = openFiles(slipped)
    .check(['rinse.card'])
    .findings.map(({ message, path }) => [message, path.map(({ text }) => text)]);
  const words = finishedCard()
    .replace(/<(style|script)\b.*?<\/\1>/gs, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');
  return createHash('sha256')
    .update(JSON.stringify([slipped, findings, words]))
    .digest('hex');
}

function openFiles(files: Readonly<Record<string, string>>) {
  const bytes = (name: string) => (files[name] === undefined ? undefined : new TextEncoder().encode(files[name]));
  return openWorkspace({ readText: (name) => files[name], readBytes: bytes });
}
