import { all } from '../../grammar/navigate.ts';
import type { Admonition, File, SyntaxNode } from '../../grammar/syntax.ts';
import type { FindingSort } from './finding.ts';

const gravity = { danger: 3, warning: 2, caution: 1, note: 0 } as const;

export const proseAdmonitionOrder: FindingSort = {
  code: 'prose.admonition-order',
  level: 'warning',
  reads: ['words'],
  title: 'A graver admonition stands below a lesser one',
  help: {
    what: 'Of several admonitions in a row, one of a higher level follows one of a lower level. The order is danger, warning, caution, note.',
    why: 'A reader in a hurry reads the first; it should be the one that keeps people unhurt.',
    whatToDo: 'Move the graver admonition up. A quick fix puts those in a row into their order.',
  },
  sources: [
    {
      title: 'MIL-STD-38784, order of warnings, cautions and notes before the text they belong to',
      status: 'from memory',
    },
  ],
  examples: [
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  note "The valve is stiff."
  warning "Hot water burns."
//^^^^^^^ prose.admonition-order
  step "Look at the hose."
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  warning "Hot water burns."
  note "The valve is stiff."
  step "Look at the hose."
}`,
    },
  ],
  *inFile({ file, parsed }) {
    for (const row of rowsOfAdmonitions(parsed.file)) {
      const late = row.findIndex(
        (admonition, index) => index > 0 && isGraver(admonition, row[index - 1] as Admonition),
      );
      const admonition = row[late];
      if (!admonition) continue;
      const before = row[late - 1] as Admonition;
      yield {
        place: { file, start: admonition.start, end: admonition.start + admonition.level.length },
        message: `This ${admonition.level} stands below a ${before.level}. Put it first: danger, warning, caution, note.`,
        fixes: [{ title: 'Put these admonitions into their order', edits: inOrder(file, row, parsed.text) }],
      };
    }
  },
};

function isGraver(a: Admonition, b: Admonition): boolean {
  return gravity[a.level] > gravity[b.level];
}

/** Admonitions that follow each other with nothing between. */
function rowsOfAdmonitions(file: File): Admonition[][] {
  if (all(file, 'admonition').length < 2) return [];
  const blocks = [
    ...all(file, 'card').map(({ body }) => body),
    ...all(file, 'block').map(({ statements }) => statements),
  ];
  return blocks.flatMap(rowsAmong);
}

function rowsAmong(statements: readonly SyntaxNode[]): Admonition[][] {
  const rows: Admonition[][] = [[]];
  for (const statement of statements) {
    if (statement.type === 'admonition') rows.at(-1)?.push(statement as Admonition);
    else rows.push([]);
  }
  return rows.filter((row) => row.length > 1);
}

/** Each place in the row takes the text of the admonition that belongs there; what stands between stays. */
function inOrder(file: string, row: readonly Admonition[], text: string) {
  const ordered = [...row].sort((a, b) => gravity[b.level] - gravity[a.level]);
  return row.map(({ start, end }, index) => {
    const moved = ordered[index] as Admonition;
    return { place: { file, start, end }, newText: text.slice(moved.start, moved.end) };
  });
}
