/** The card on the page: its blocks, the findings that stand at them, and where each block stands. */
import { Idiomorph } from 'idiomorph';
import type { Preview, PreviewFinding } from '../../shared/protocol.ts';
import type { Span } from '../../shared/text.ts';
import { element } from './elements.ts';
import { type Anchor, ascending } from './scroll.ts';

const levelWords = { error: 'Error', warning: 'Warning', hint: 'Hint' } as const;

/** Replaces what has changed and leaves all else as it is, so that nothing flickers and no focus is lost. */
export function drawCard(card: HTMLElement, uri: string, preview: Preview): void {
  const drawn = element('div');
  drawn.innerHTML = preview.body;
  for (const block of blocksOf(drawn, uri)) if (block.matches('[data-step]')) block.tabIndex = -1;
  placeFindings(drawn, uri, preview.findings);
  Idiomorph.morph(card, [...drawn.childNodes], { morphStyle: 'innerHTML' });
}

/** Each finding stands at the end of the innermost block that holds its place; the others stand before the card. */
function placeFindings(card: HTMLElement, uri: string, findings: readonly PreviewFinding[]): void {
  const blocks = blocksOf(card, uri);
  const placed = new Map<HTMLElement | undefined, number[]>();
  for (const [index, finding] of findings.entries()) {
    const block = finding.place.uri === uri ? innermost(blocks, finding.place.start) : undefined;
    placed.set(block, [...(placed.get(block) ?? []), index]);
  }
  for (const [block, indices] of placed) {
    const list = findingList(indices.map((index) => [index, findings[index] as PreviewFinding]));
    if (block) block.append(list);
    else card.prepend(list);
  }
}

function findingList(findings: readonly (readonly [number, PreviewFinding])[]): HTMLElement {
  const notes = findings.map(([index, finding]) =>
    element(
      'button',
      { class: `cw-finding ${finding.level}`, attributes: { type: 'button', 'data-finding': `${index}` } },
      element('strong', {}, levelWords[finding.level]),
      ` ${finding.message} `,
      finding.path.length > 0 ? element('span', { class: 'cw-walk' }, 'Walk the path') : undefined,
    ),
  );
  return element('div', { class: 'cw-findings', attributes: { role: 'note' } }, ...notes);
}

/** The blocks that were made from this file, in the order of the page. */
export function blocksOf(card: ParentNode, uri: string): HTMLElement[] {
  return [...card.querySelectorAll<HTMLElement>('[data-start]')].filter((block) => block.dataset.file === uri);
}

export function spanOf(block: HTMLElement): Span {
  return { start: Number(block.dataset.start), end: Number(block.dataset.end) };
}

/** The smallest block that holds an offset. */
export function innermost(blocks: readonly HTMLElement[], offset: number): HTMLElement | undefined {
  let best: HTMLElement | undefined;
  let bestLength = Number.POSITIVE_INFINITY;
  for (const block of blocks) {
    const { start, end } = spanOf(block);
    if (start <= offset && offset <= end && end - start <= bestLength) {
      best = block;
      bestLength = end - start;
    }
  }
  return best;
}

/** Where each block stands in its scrolling box. */
export function measure(scroller: HTMLElement, uri: string): Anchor[] {
  const origin = scroller.getBoundingClientRect().top - scroller.scrollTop;
  return ascending(
    blocksOf(scroller, uri).map((block) => ({
      offset: spanOf(block).start,
      top: block.getBoundingClientRect().top - origin,
    })),
  );
}
