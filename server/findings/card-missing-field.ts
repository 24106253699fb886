import { all } from '../../grammar/navigate.ts';
import type { Card } from '../../grammar/syntax.ts';
import type { Fix, TextEdit } from '../../shared/finding.ts';
import { capital } from '../../shared/text.ts';
import type { FindingSort } from './finding.ts';
import { lineEndOf } from './support/edits.ts';
import { alternatives } from './support/words.ts';

/** The fields that every card has, in their order, by the type of their node. */
const fields = {
  'number-field': 'number',
  revision: 'revision',
  day: 'day of the revision',
  crew: 'crew',
  references: 'references',
} as const;

const ofEveryCard: readonly FieldType[] = ['number-field', 'revision', 'crew'];
/** “std:record” asks for the day of the revision too, and for the manual by which the work is done. */
const ofRecord: readonly FieldType[] = ['number-field', 'revision', 'day', 'crew', 'references'];

type FieldType = keyof typeof fields;

export const cardMissingField: FindingSort = {
  code: 'card.missing-field',
  level: 'warning',
  title: 'A card without number, revision or crew',
  help: {
    what: 'A card lacks one of the fields that tell which card it is, in which state, and who does it; with “std:record” also the day of its revision, and the manual by which the work is done. One finding names all that are missing.',
    why: 'A printed card must be told from the one that it replaces, and each line needs somebody who does it.',
    whatToDo: 'Write the fields at the top of the card; the quick fix writes lines to fill in.',
  },
  sources: [
    {
      title:
        'CAAC AC-145-8, least content of a work card: number, subject, revision and its date, references, signatures',
      status: 'seen',
    },
  ],
  examples: [
    {
      bad: `card wash "Wash" {
  // ^^^^ card.missing-field
  number "1"
  step "Look at the hose."
}`,
      good: `card wash "Wash" {
  number "1"
  revision "A" on 2026-10-02
  crew mechanic "Mechanic"
  step "Look at the hose."
}`,
    },
  ],
  *inFile({ file, parsed, bound }) {
    const asked = bound.files.includes('std:record') ? ofRecord : ofEveryCard;
    for (const card of parsed.file.declarations) {
      if (card.type !== 'card' || !card.name) continue;
      const missing = missingIn(card, asked);
      if (missing.length === 0) continue;
      const names = missing.map((type) => fields[type]);
      yield {
        place: { file, start: card.name.start, end: card.name.end },
        message: `This card has no ${alternatives(names)}. Write ${missing.length > 1 ? 'them' : 'it'} at the top of the card.`,
        fixes: fixesFor(
          file,
          parsed.text,
          card,
          missing.filter((type) => type !== 'day'),
        ),
      };
    }
  },
};

function missingIn(card: Card, asked: readonly FieldType[]): FieldType[] {
  const present = new Set<string>(card.fields.map((field) => field.type));
  if (card.fields.every((field) => field.type !== 'revision' || field.date)) present.add('day');
  return asked.filter((type) => !present.has(type));
}

function fixesFor(file: string, text: string, card: Card, missing: readonly FieldType[]): Fix[] {
  if (missing.length === 0) return [];
  const names = missing.map((type) => fields[type]);
  return [{ title: `Insert ${names.join(', ')}`, edits: insertions(file, text, card, missing) }];
}

/** Each field after the last one that comes before it, or where the card opens. */
function insertions(file: string, text: string, card: Card, missing: readonly FieldType[]): TextEdit[] {
  const opening = text.indexOf('{', (card.title ?? card.name ?? card).end) + 1;
  if (opening === 0) return [];
  const lines = missing.map((type) => `${lineEndOf(text)}  ${fields[type]} ${content(type, card) ?? ''}`);
  return [{ place: { file, start: opening, end: opening }, newText: lines.join('') }];
}

function content(type: FieldType, card: Card): string | undefined {
  switch (type) {
    case 'number-field':
      return `"${card.name?.text.toUpperCase()}"`;
    case 'revision':
      return '"A"';
    case 'crew':
      return crewOf(card);
    case 'day':
      return undefined;
    case 'references':
      return '"Manual, task and revision"';
  }
}

/** The roles that the steps name already, so that the new field explains them all. */
function crewOf(card: Card): string {
  const naming = [...all(card, 'by'), ...all(card, 'inspected'), ...all(card, 'sign'), ...all(card, 'lane')];
  const roles = new Set(naming.flatMap((node) => node.role?.text ?? []));
  if (roles.size === 0) return 'mechanic "Mechanic"';
  return [...roles].map((role) => `${role} "${capital(role)}"`).join(', ');
}
