/** The card on the page: its blocks, the findings that stand at them, and where each block stands. */
import { Idiomorph } from 'idiomorph';
import type { Preview, PreviewFinding } from '../../shared/protocol.ts';
import type { Span } from '../../shared/text.ts';
import { element } from './elements.ts';
import { type Anchor, ascending } from './scroll.ts';

/** Replaces what has changed and leaves all else as it is, so that nothing flickers and no focus is lost. */
export function drawCard(card: HTMLElement, preview: Preview): void {
  const drawn = element('div');
  drawn.innerHTML = preview.body;
  for (const block of blocksOf(drawn)) if (block.matches('[data-step]')) block.tabIndex = -1;
  makeFindingsWalkable(drawn, preview.findings);
  Idiomorph.morph(card, [...drawn.childNodes], { morphStyle: 'innerHTML' });
}

/** The notes that the card shows can be walked from; a finding that stands in no part of the card is told before it. */
function makeFindingsWalkable(card: HTMLElement, findings: readonly PreviewFinding[]): void {
  const notes = [...card.querySelectorAll<HTMLElement>('.finding[data-code]')];
  const homeless = [...findings.entries()].filter(([index, finding]) => {
    const own = notes.filter((note) => isNoteOf(note, finding));
    for (const note of own) makeWalkable(note, index, finding);
    return own.length === 0 && finding.level !== 'hint';
  });
  card.prepend(...homeless.map(([index, finding]) => homelessNote(index, finding)));
}

function isNoteOf(note: HTMLElement, { code, place }: PreviewFinding): boolean {
  return (
    note.dataset.code === code && Number(note.dataset.offset) === place.start && Number(note.dataset.end) === place.end
  );
}

function homelessNote(index: number, finding: PreviewFinding): HTMLElement {
  const word = element('strong', {}, finding.level === 'error' ? 'Error: ' : 'Warning: ');
  const note = element('p', { class: `finding is-${finding.level}` }, word, finding.message);
  makeWalkable(note, index, finding);
  return note;
}

function makeWalkable(note: HTMLElement, index: number, { path }: PreviewFinding): void {
  note.dataset.finding = `${index}`;
  note.tabIndex = 0;
  note.setAttribute('role', 'button');
  if (path.length > 0) note.append(' ', element('span', { class: 'walk-link' }, 'Walk the path'));
}

/** The blocks that were made from the text, or from one file of it, in the order of the page. */
export function blocksOf(card: ParentNode, file?: string): HTMLElement[] {
  const blocks = [...card.querySelectorAll<HTMLElement>('[data-offset]:not(.finding)')];
  return file === undefined ? blocks : blocks.filter((block) => block.dataset.file === file);
}

export function spanOf(block: HTMLElement): Span {
  return { start: Number(block.dataset.offset), end: Number(block.dataset.end) };
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
export function measure(scroller: HTMLElement, file: string): Anchor[] {
  const origin = scroller.getBoundingClientRect().top - scroller.scrollTop;
  return ascending(
    blocksOf(scroller, file).map((block) => ({
      offset: spanOf(block).start,
      top: block.getBoundingClientRect().top - origin,
    })),
  );
}
