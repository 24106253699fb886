/** The script of the preview's page: shows what the panel sends, and tells it what the reader does. */
import './page.css';
import type { Configuration, PlaceInFile, Preview } from '../../shared/protocol.ts';
import { blocksOf, drawCard, innermost, measure, spanOf } from './card-view.ts';
import { button, chooser, element } from './elements.ts';
import { readForPage, type ToPage, type ToPanel } from './messages.ts';
import { type Anchor, isWhereItWasPut, offsetAt, topOf } from './scroll.ts';
import { keepWalk, nearest, startWalk, type Walk, walkTo } from './walk.ts';
import { drawCoverage, drawSituation, drawWalk } from './walk-view.ts';

interface Host {
  readonly postMessage: (message: ToPanel) => void;
  readonly setState: (state: { readonly uri: string }) => void;
}

declare function acquireVsCodeApi(): Host;

const host = acquireVsCodeApi();

const older = element('span', { class: 'older', attributes: { role: 'status' } });
const coverage = element('div', { class: 'coverage' });
const choices = element('div', { class: 'choices' });
const bar = element('header', { class: 'bar' }, choices, coverage, older);
const card = element('div', { class: 'card' });
const scroller = element('main', { class: 'scroller' }, card);
const walkPane = element('section', { class: 'walk', attributes: { 'aria-label': 'Walk' } });
const situationPane = element('section', { class: 'situation', attributes: { 'aria-label': 'What may be so' } });
const pane = element('aside', { class: 'pane' }, walkPane, situationPane);
const cardStyle = new CSSStyleSheet();

document.adoptedStyleSheets.push(cardStyle);
document.body.replaceChildren(bar, scroller, pane);

let uri = '';
/** The name that the blocks of this file have for it. */
let file = '';
let shown: Preview | undefined;
let walk: Walk | undefined;
let anchors: Anchor[] = [];
/** The newest version of the text that is told of. */
let textVersion = 0;
/** Where the writer is, as long as the page has not shown it. */
let cursor: { readonly offset: number; readonly version: number } | undefined;
/** Where a scroll of our own has put the page; undefined once a reader has scrolled on. */
let putAt: number | undefined;

// ---------------------------------------------------------------- what the panel says

window.addEventListener('message', ({ data: message }: MessageEvent<unknown>) => {
  const data = readForPage(message);
  switch (data?.type) {
    case 'show':
      if (!waiting) setTimeout(showWaiting);
      waiting = data;
      return;
    case 'newer':
      textVersion = data.version;
      drawOlder();
      return;
    case 'scroll':
      showWaiting();
      return scrollTo(topOf(anchors, data.offset));
    case 'cursor':
      cursor = data;
      return showCursor();
    case 'walk': {
      showWaiting();
      const finding = shown && nearest(shown.findings, data.offset);
      setWalk(finding && startWalk(finding));
      return walkPane.querySelector<HTMLElement>('.here button')?.focus();
    }
    case 'situation':
      showWaiting();
      if (data.situation) markBlock('cw-looked-at', data.situation.place.start);
      return drawSituation(situationPane, data.situation);
  }
});

/** A long card takes longer to draw than a letter to type: of several that have come, the last is drawn. */
let waiting: Extract<ToPage, { type: 'show' }> | undefined;

function showWaiting(): void {
  const last = waiting;
  waiting = undefined;
  if (last) show(last.uri, last.preview);
}

function show(newUri: string, preview: Preview): void {
  if (newUri !== uri) {
    walk = undefined;
    situationPane.replaceChildren();
    scrollTo(0);
    textVersion = preview.version;
  }
  uri = newUri;
  shown = preview;
  drawOlder();
  host.setState({ uri });
  // The style was written for a whole page: here it reaches the card and the drawings alone.
  cardStyle.replaceSync(`@scope (.card, .drawing) { ${preview.style} }`);
  card.lang = preview.language ?? 'en';
  drawCard(card, preview);
  card.dataset.version = `${preview.version}`;
  file = Object.keys(preview.files).find((name) => preview.files[name] === uri) ?? uri;
  anchors = measure(scroller, file);
  drawChoices(preview);
  drawCoverage(coverage, preview.coverage, (place) => reveal(place, false));
  walk = walk && keepWalk(walk, preview.findings);
  drawWalk(walkPane, preview.findings, walk, walkActions);
  showCursor();
}

/** What comes while somebody types is older than the text by a letter or two. */
function drawOlder(): void {
  older.textContent = shown && shown.version < textVersion ? 'Reading the newer text …' : '';
}

function drawChoices(preview: Preview): void {
  const cards = preview.cards.map(({ name, title }) => ({ value: name, text: title }));
  const machines = [
    { value: '', text: 'All machines' },
    ...preview.configurations.map(({ label }, index) => ({ value: `${index}`, text: label })),
  ];
  const chosenMachine = configuration
    ? preview.configurations.findIndex(({ values }) => same(values, configuration))
    : -1;
  choices.replaceChildren(
    ...(cards.length > 1 ? [chooser('Card', cards, preview.card ?? '', (value) => choose(value, undefined))] : []),
    ...(preview.configurations.length > 1
      ? [
          chooser('For', machines, chosenMachine < 0 ? '' : `${chosenMachine}`, (value) =>
            choose(preview.card, value === '' ? undefined : preview.configurations[Number(value)]?.values),
          ),
        ]
      : []),
  );
}

let configuration: Configuration | undefined;

function choose(cardName: string | undefined, chosen: Configuration | undefined): void {
  configuration = chosen;
  host.postMessage({ type: 'choose', card: cardName, configuration: chosen });
}

function same(one: Configuration, other: Configuration | undefined): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

// ---------------------------------------------------------------- scrolling and places

function scrollTo(top: number): void {
  scroller.scrollTop = top;
  putAt = scroller.scrollTop;
}

/** Places are those of one version of the text: what was written since has moved them. */
function showCursor(): void {
  if (cursor === undefined || cursor.version !== shown?.version) return;
  bringIntoView(wholeStep(markBlock('cw-cursor', cursor.offset)));
  cursor = undefined;
}

/** A stage around the cursor is no place to scroll to: it may be longer than the window. */
function wholeStep(block: HTMLElement | undefined): HTMLElement | undefined {
  return block?.closest<HTMLElement>('[data-step]') ?? (block?.querySelector('[data-offset]') ? undefined : block);
}

/** Scrolls no further than it takes to see the block. */
function bringIntoView(block: HTMLElement | undefined): void {
  block?.scrollIntoView({ block: 'nearest' });
  putAt = scroller.scrollTop;
}

let frame = 0;

scroller.addEventListener('scroll', () => {
  cancelAnimationFrame(frame);
  if (isWhereItWasPut(putAt, scroller.scrollTop)) return;
  putAt = undefined;
  frame = requestAnimationFrame(() =>
    host.postMessage({ type: 'scrolled', offset: offsetAt(anchors, scroller.scrollTop) }),
  );
});

new ResizeObserver(() => {
  anchors = measure(scroller, file);
}).observe(card);

function markBlock(name: string, offset: number): HTMLElement | undefined {
  for (const marked of card.querySelectorAll(`.${name}`)) marked.classList.remove(name);
  const block = innermost(blocksOf(card, file), offset);
  block?.classList.add(name);
  return block;
}

function placeOf(block: HTMLElement): PlaceInFile {
  return { uri: shown?.files[block.dataset.file ?? ''] ?? uri, ...spanOf(block) };
}

function reveal(place: PlaceInFile, focus: boolean): void {
  host.postMessage({ type: 'reveal', place, focus });
}

// ---------------------------------------------------------------- walking

const walkActions = {
  choose: (index: number | undefined) => {
    const finding = index === undefined ? undefined : shown?.findings[index];
    setWalk(finding && startWalk(finding));
  },
  walkTo: (at: number) => setWalk(walk && walkTo(walk, at)),
};

function setWalk(next: Walk | undefined): void {
  walk = next;
  drawWalk(walkPane, shown?.findings ?? [], walk, walkActions);
  const place = walk?.places[walk.at];
  bringIntoView(markBlock('cw-walked', place?.uri === uri ? place.start : -1));
  if (place) reveal(place, false);
  if (walk && walk.at === walk.places.length - 1) host.postMessage({ type: 'walked' });
}

// ---------------------------------------------------------------- pointer and keyboard

// A click shows the place in the text and leaves the keyboard here, so that the next key does not write into the text.
card.addEventListener('click', (event) => {
  const target = event.target as Element;
  const finding = target.closest<HTMLElement>('[data-finding]');
  if (finding) return walkActions.choose(Number(finding.dataset.finding));
  const block = target.closest<HTMLElement>('[data-offset]');
  if (!block || !document.getSelection()?.isCollapsed) return;
  block.closest<HTMLElement>('[data-step]')?.focus({ preventScroll: true });
  reveal(placeOf(block), false);
});

card.addEventListener('dblclick', (event) => {
  const block = (event.target as Element).closest<HTMLElement>('[data-offset]');
  if (block) reveal(placeOf(block), true);
});

window.addEventListener('keydown', (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey || (event.target as Element).matches('select')) return;
  if (walk && (event.key === 'ArrowRight' || event.key === 'ArrowLeft')) {
    walkActions.walkTo(walk.at + (event.key === 'ArrowRight' ? 1 : -1));
  } else if (event.key === 'n' || event.key === 'p') focusStep(event.key === 'n' ? 1 : -1);
  else if (event.key === 'Enter' && (event.target as Element).matches('[data-finding]'))
    (event.target as HTMLElement).click();
  else if (event.key === 'Enter' && focusedStep()) reveal(placeOf(focusedStep() as HTMLElement), true);
  else if (event.key === 's' && focusedStep()) askSituation(focusedStep() as HTMLElement);
  else return;
  event.preventDefault();
});

function steps(): HTMLElement[] {
  return blocksOf(card, file).filter((block) => block.matches('[data-step]'));
}

function focusedStep(): HTMLElement | undefined {
  return steps().find((step) => step === document.activeElement);
}

/** Moves the keyboard to the next step or the one before. */
function focusStep(by: 1 | -1): void {
  const all = steps();
  const next = all.indexOf(focusedStep() as HTMLElement) + by;
  all[Math.min(Math.max(next, 0), all.length - 1)]?.focus();
}

function askSituation(step: HTMLElement): void {
  host.postMessage({ type: 'situation', offset: spanOf(step).start });
}

bar.append(
  button(
    'States here',
    () => {
      const step = focusedStep() ?? card.querySelector<HTMLElement>('.cw-cursor') ?? steps()[0];
      if (step) askSituation(step);
    },
    { title: 'What may be so at the step where the cursor is (s)' },
  ),
);

host.postMessage({ type: 'ready' });
