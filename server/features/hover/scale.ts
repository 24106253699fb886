/** A limit as a picture of its gauge's scale. */
import { toHtml } from 'hast-util-to-html';
import type { Limit } from '../../../shared/card.ts';
import type { Settings } from '../../../shared/settings.ts';
import { fixedWords } from '../../render/language/fixed-words.ts';
import { gaugeScale } from '../../render/pictures/scale.ts';
import { picture } from '../markdown.ts';

/** The colours of the card's pictures, which are not at hand in a hover; a light ground makes them readable in every theme. */
const style =
  'svg{background:#fff;font:10px sans-serif}.scale-line,.mark{stroke:#111;fill:none}.band{fill:#9cc79f;stroke:#111}';

/** Undefined where the gauge's scale is not known, or the limit depends on another gauge. */
export function scaleMarkdown(limit: Limit, settings: Settings): string | undefined {
  const asked = { type: 'limit', gauge: limit.gauge, limit, place: limit.place } as const;
  const drawn = gaugeScale(limit.gauge, asked, { words: fixedWords(undefined), input: { settings } });
  if (!drawn) return undefined;
  const svg = toHtml({ ...drawn, properties: { ...drawn.properties, xmlns: 'http://www.w3.org/2000/svg' } });
  return picture(svg.replace('>', `><style>${style}</style>`), `${limit.name} on the scale`);
}
