/** Accepting a finding that is right but has to stay: where the acceptance is written, and how. */
import { innermost, pathAt } from '../../grammar/navigate.ts';
import type { Card, Stage, Step } from '../../grammar/syntax.ts';
import type { Finding, Fix, TextEdit } from '../../shared/finding.ts';
import { canBeAccepted } from '../acceptance.ts';
import { indentAt, lineEndOf } from '../findings/support/edits.ts';
import type { Snapshot } from '../snapshot.ts';

/** Stands for the reason until the writer gives one; an acceptance without one counts for nothing. */
export const reasonToWrite = '…';

/** Writes the acceptance into the step around the finding; where there is none, into the stage, or the card. */
export function acceptFix({ code, place }: Finding, { file, text, parsed }: Snapshot): Fix | undefined {
  if (place.file !== file || !canBeAccepted(code)) return undefined;
  const path = pathAt(parsed.file, place.start);
  const around = innermost(path, 'step') ?? innermost(path, 'stage') ?? innermost(path, 'card');
  const accept = `accept ${code} because "${reasonToWrite}"`;
  const edits = around && insertion(around, accept, text);
  return edits && { title: `Accept ${code} in this ${around.type}, with a reason`, edits: edits.map(inFile) };

  function inFile({ at, newText }: Insertion): TextEdit {
    return { place: { file, start: at, end: at }, newText };
  }
}

interface Insertion {
  readonly at: number;
  readonly newText: string;
}

function insertion(around: Step | Stage | Card, accept: string, text: string): Insertion[] | undefined {
  switch (around.type) {
    case 'step':
      return intoStep(around, accept, text);
    case 'stage':
      return (
        around.body && [
          { at: around.body.start + 1, newText: `${lineEndOf(text)}${indentAt(text, around.start)}  ${accept}` },
        ]
      );
    case 'card':
      return intoCard(around, accept, text);
  }
}

function intoStep({ start, end, braces, actions }: Step, accept: string, text: string): Insertion[] {
  const [first] = actions;
  if (!braces && !first) return [{ at: end, newText: ` { ${accept} }` }];
  if (!braces && first) {
    return [
      { at: first.start, newText: '{ ' },
      { at: end, newText: ` ${accept} }` },
    ];
  }
  const last = actions.at(-1)?.end ?? (braces as NonNullable<typeof braces>).start + 1;
  const isOnOneLine = !text.slice(start, end).includes('\n');
  return [{ at: last, newText: isOnOneLine ? ` ${accept}` : `${lineEndOf(text)}${indentAt(text, start)}  ${accept}` }];
}

function intoCard({ start, fields, body }: Card, accept: string, text: string): Insertion[] | undefined {
  const line = `${lineEndOf(text)}${indentAt(text, start)}  `;
  const last = fields.at(-1);
  if (last) return [{ at: last.end, newText: `${lineEndOf(text)}${line}${accept}` }];
  const [first] = body;
  return first && [{ at: first.start, newText: `${accept}${line}` }];
}
