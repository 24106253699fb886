/** The findings: shown at their steps, and listed at the end of a draft. */
import type { Element, ElementContent } from 'hast';
import { h } from 'hastscript';
import type { Finding } from '../../../shared/finding.ts';
import { holds, type Place } from '../../../shared/text.ts';
import { type Context, positionOf } from '../context.ts';
import { inPrintedOrder, type Part } from '../numbering.ts';

/** A draft shows what must and should be mended; the preview does so always. A finished card shows none. */
export function shownFindings({ input, isDraft }: Context): readonly Finding[] {
  return isDraft || input.withPositions ? input.findings.filter(({ level }) => level !== 'hint') : [];
}

/** The findings that stand in this place, but in none of the parts inside it, which show their own. */
export function findingNotes(place: Place, inside: readonly Part[], context: Context): ElementContent[] {
  return shownFindings(context)
    .filter((finding) => holds(place, finding.place) && !inside.some((part) => holds(part.place, finding.place)))
    .map((finding) =>
      h(
        `p.finding.is-${finding.level}`,
        { dir: 'auto', dataCode: finding.code, ...positionOf(finding.place, context) },
        [h('strong', `${levelWord(finding, context)}: `), finding.message],
      ),
    );
}

export function renderFindingList(context: Context): ElementContent[] {
  const shown = shownFindings(context);
  if (!context.isDraft) return [];
  const { back, heading } = context.words;
  return [
    h('section.draft-findings', [
      h('h2', heading.findings),
      h('table', [
        h(
          'thead',
          h(
            'tr',
            [back.where, back.level, context.words.step.finding].map((text) => h('th', { scope: 'col' }, text)),
          ),
        ),
        h(
          'tbody',
          shown.map((finding) => findingRow(finding, context)),
        ),
      ]),
    ]),
  ];
}

function findingRow(finding: Finding, context: Context): Element {
  return h('tr', [
    h('td', { dir: 'auto' }, whereText(finding.place, context)),
    h('td', levelWord(finding, context)),
    h('td', { dir: 'auto' }, [finding.message, ' ', h('code', finding.code)]),
  ]);
}

/** The steps, the stage, the other file, or the whole card. */
export function whereText(place: Place, { input: { card }, numbering, words }: Context): string {
  const steps = numbering.stepsAt(place);
  if (steps.length > 0) return words.grammar.and(steps.map(words.step.step));
  const stage = inPrintedOrder(card).find((part) => part.type === 'stage' && holds(part.place, place));
  if (stage?.type === 'stage') return stage.title;
  return place.file === card.place.file ? words.back.wholeCard : words.back.inFile(fileName(place.file));
}

function levelWord({ level }: Finding, { words }: Context): string {
  return level === 'error' ? words.back.error : words.back.warning;
}

function fileName(path: string): string {
  return path.split(/[\\/]/).at(-1) ?? path;
}
