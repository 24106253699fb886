/** How a page says that it was made here: nothing else is written over without being asked for. */
const generators = {
  card: 'Cardwright',
  /** A page for whoever reviews. */
  review: 'Cardwright review',
} as const;

export type MadePage = keyof typeof generators;

/** What stands in the head of the page, as the `content` of a `generator`. */
export function generatorOf(sort: MadePage): string {
  return generators[sort];
}

export function isMadeHere(html: string, sort: MadePage): boolean {
  return html.includes(`<meta name="generator" content="${generators[sort]}">`);
}
