/** Admonitions: the signal words are those of ANSI Z535.4 for injury, and `note` for everything else. */
import type { Element, ElementContent } from 'hast';
import { h, s } from 'hastscript';
import type { Admonition } from '../../../shared/card.ts';
import { anchorOf, barOf, type Context, positionOf } from '../context.ts';
import { findingNotes } from './findings.ts';
import { onlyFor } from './text.ts';

export function renderAdmonition(admonition: Admonition, context: Context): Element {
  return h(
    `div.admonition.is-${admonition.level}${isNotice(admonition) ? '.is-notice' : ''}`,
    {
      role: 'note',
      ...barOf(admonition.place, context),
      ...positionOf(admonition.place, context),
      ...anchorOf(admonition, context),
    },
    [
      signal(admonition.level, context),
      h('div.admonition-text', { dir: 'auto' }, [
        ...onlyFor(admonition, context),
        ...admonitionTexts(admonition).map((text) => h('p', text)),
        ...findingNotes(admonition.place, [], context),
      ]),
    ],
  );
}

/** What damages things only has the colours of a notice, and no alert symbol. */
function isNotice({ level, hazard }: Admonition): boolean {
  return level === 'note' && hazard?.harm?.outcome === 'damage';
}

/** What a hazard says comes first, then what is said about it here. */
export function admonitionTexts({ hazard, texts }: Admonition): readonly string[] {
  return [...(hazard ? [hazard.text] : []), ...texts.map(({ text }) => text)];
}

function signal(level: Admonition['level'], { words }: Context): Element {
  const symbol: ElementContent[] = level === 'note' ? [] : [alertSymbol()];
  return h('p.signal', [...symbol, words.signal[level]]);
}

/** The safety alert symbol: a triangle with an exclamation mark, in the colours of the words beside it. */
function alertSymbol(): Element {
  return s('svg', { viewBox: '0 0 24 22', ariaHidden: 'true', className: ['alert'] }, [
    s('path', { d: 'M12 1 23.4 21H.6z', fill: 'currentColor' }),
    s('path', { d: 'M10.7 7.5h2.6l-.5 7h-1.6zm0 8.5h2.6v2.5h-2.6z', className: ['alert-mark'] }),
  ]);
}
