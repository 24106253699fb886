/** How items, gauges, kinds and states are named on paper. */

export type Placing = 'name' | 'name and place';

/** `the left wash valve (left nacelle)` */
export function labelText(thing: { readonly label: string; readonly at?: string }, placing: Placing): string {
  return placing === 'name and place' && thing.at ? `${thing.label} (${thing.at})` : thing.label;
}

/** A name as a reader would say it: without the hyphens of the language. */
export function spoken(name: string): string {
  return name.replaceAll('-', ' ');
}

/** Begins a sentence with a capital. Only the first letter is touched: the rest is the writer's. */
export function capitalised(text: string, language: string): string {
  const [first = ''] = text;
  return first.toLocaleUpperCase(language) + text.slice(first.length);
}

/** Ends a sentence, unless the writer already did. */
export function ended(text: string): string {
  return /[.!?。！？؟:…]\s?["”“»)]?$/u.test(text.trimEnd()) ? text : `${text}.`;
}
