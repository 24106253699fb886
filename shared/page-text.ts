/** A page as one text of which a digest is made: by the renderer of what it writes, and by the page of what a browser reads. */

export interface PageElement {
  readonly name: string;
  readonly attributes: readonly (readonly [name: string, value: string])[];
  readonly children: readonly PageNode[];
}

export type PageNode = PageElement | string;

/** No two pages have one text: in a text, what begins an element stands twice. */
export function pageText(nodes: readonly PageNode[]): string {
  return nodes.map((node) => (typeof node === 'string' ? node.replaceAll('<', '<<') : elementText(node))).join('');
}

function elementText({ name, attributes, children }: PageElement): string {
  const inOrder = attributes.map((attribute) => JSON.stringify(attribute)).sort();
  return `<${name}${inOrder.join('')}>${pageText(children)}</>`;
}

/** Enough of a digest that two cards of one shop never share it, in groups that can be read out. */
export function shortDigest(digest: string): string {
  return digest.slice(0, 16).replace(/(.{4})(?=.)/g, '$1 ');
}

/** Where a page carries its digest, which is not of itself. */
export const digestName = 'digest';
