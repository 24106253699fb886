/** The digest by which an exported card tells whether it was altered since. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { type DefaultTreeAdapterTypes, parseFragment } from 'parse5';
import { type PageNode, pageText } from '../../shared/page-text.ts';

type ParsedNode = DefaultTreeAdapterTypes.ChildNode;

/** SHA-256, as hex, of the style and of what a browser makes of the body's markup. */
export function pageDigest(style: string, body: string): string {
  const text = pageText([style, ...parseFragment(body).childNodes.flatMap(pageNode)]);
  return bytesToHex(sha256(new TextEncoder().encode(text)));
}

function pageNode(node: ParsedNode): PageNode[] {
  if (node.nodeName === '#text') return [(node as DefaultTreeAdapterTypes.TextNode).value];
  if (!('tagName' in node)) return [];
  const attributes = node.attrs.map(({ prefix, name, value }): [string, string] => [
    prefix ? `${prefix}:${name}` : name,
    value,
  ]);
  return [{ name: node.tagName, attributes, children: node.childNodes.flatMap(pageNode) }];
}
