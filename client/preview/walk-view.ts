/** What stands round the card: how much the proof follows, the findings to walk, the path of the one chosen, and what may be so at a step. */
import type { PlaceInFile, PreviewCoverage, PreviewFinding, Situation } from '../../shared/protocol.ts';
import { capital } from '../../shared/text.ts';
import { button, chooser, element } from './elements.ts';
import type { Walk } from './walk.ts';

export interface WalkActions {
  /** Walk the finding with this index; none where undefined. */
  readonly choose: (index: number | undefined) => void;
  readonly walkTo: (at: number) => void;
}

export function drawWalk(
  pane: HTMLElement,
  findings: readonly PreviewFinding[],
  walk: Walk | undefined,
  actions: WalkActions,
): void {
  const choice = walk ? findings.indexOf(walk.finding) : -1;
  const options = [
    { value: '-1', text: findings.length === 0 ? 'No findings' : `Choose one of ${findings.length}` },
    ...findings.map(({ code, message }, index) => ({ value: `${index}`, text: `${code}: ${message}` })),
  ];
  const choose = (value: string) => actions.choose(value === '-1' ? undefined : Number(value));
  const head = element('div', { class: 'pane-head' }, chooser('Walk', options, `${choice}`, choose));
  pane.replaceChildren(head);
  if (!walk) return;

  const last = walk.places.length - 1;
  const back = button('Back', () => actions.walkTo(walk.at - 1), { title: 'One place back (Left arrow)' });
  const on = button('On', () => actions.walkTo(walk.at + 1), { title: 'One place on (Right arrow)' });
  back.disabled = walk.at === 0;
  on.disabled = walk.at === last;
  head.append(back, on, element('span', { class: 'count' }, `${walk.at + 1} of ${last + 1}`));
  const places = walk.places.map(({ text }, index) =>
    element(
      'li',
      index === walk.at ? { class: 'here', attributes: { 'aria-current': 'step' } } : {},
      button(text, () => actions.walkTo(index), { class: 'place' }),
    ),
  );
  pane.append(element('ol', { class: 'path' }, ...places));
  pane.querySelector('.here')?.scrollIntoView({ block: 'nearest' });
}

export function drawSituation(pane: HTMLElement, situation: Situation | undefined): void {
  if (!situation) {
    pane.replaceChildren(element('p', { class: 'quiet' }, 'There is no step here.'));
    return;
  }
  const rows = situation.items.map(({ label, at, states, normal }) =>
    element(
      'tr',
      normal === 'no' || normal === 'perhaps' ? { class: 'changed' } : {},
      element('th', { attributes: { scope: 'row' } }, label, at ? element('small', {}, ` ${at}`) : undefined),
      element('td', {}, states.join(' or ')),
      element('td', {}, normal === 'no' ? 'not as normal' : normal === 'perhaps' ? 'perhaps not as normal' : ''),
    ),
  );
  const drawings = [...situation.supplies, ...situation.runs].map(({ label, svg }) => {
    const picture = element('div', { class: 'drawing' });
    picture.innerHTML = svg;
    return element('figure', {}, picture, element('figcaption', {}, label));
  });
  const table = element(
    'table',
    {},
    element('caption', {}, 'Before this step, over all paths'),
    element('tbody', {}, ...rows),
  );
  pane.replaceChildren(
    rows.length > 0 ? table : element('p', { class: 'quiet' }, 'Nothing has a state here.'),
    ...drawings,
  );
  pane.scrollIntoView({ block: 'start' });
}

/** What opens stays open while the card is written on. */
export function drawCoverage(
  pane: HTMLElement,
  coverage: PreviewCoverage | undefined,
  show: (place: PlaceInFile) => void,
): void {
  const words = capital(coverage?.words ?? '');
  const isOpen = pane.querySelector('details')?.open ?? false;
  const rows = (coverage?.notFollowed ?? []).map(({ number, words: step, why, place }) =>
    element(
      'li',
      {},
      button(`Step ${number}: ${step}`, () => show(place), { class: 'place' }),
      ` ${capital(why)}.`,
    ),
  );
  const list = element('details', {}, element('summary', {}, words), element('ul', {}, ...rows));
  list.open = isOpen;
  pane.replaceChildren(rows.length === 0 ? words : list);
}
