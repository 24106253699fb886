/** Digests: whether this page is as it was exported, and whether a record is as it was saved. */
import { digestName, type PageNode, pageText } from '../../shared/page-text.ts';
import type { Doubt, RecordFile } from './entries.ts';

/** SHA-256 as hex; undefined where the browser gives a page no means for it. */
export async function digestOf(text: string): Promise<string | undefined> {
  const subtle = globalThis.crypto?.subtle as SubtleCrypto | undefined;
  if (subtle === undefined) return undefined;
  const digest = await subtle.digest('SHA-256', new TextEncoder().encode(text));
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** The page as one text; to be taken before anything is put on it. */
export function shownText(): string {
  return pageText([document.querySelector('style')?.textContent ?? '', ...nodesIn(document.body)]);
}

function nodesIn(parent: Node): readonly PageNode[] {
  return Array.from(parent.childNodes).flatMap((node): PageNode[] => {
    if (node instanceof Text) return [node.data];
    if (!(node instanceof Element)) return [];
    const attributes = Array.from(node.attributes, ({ name, value }): [string, string] => [name, value]);
    return [{ name: node.localName, attributes, children: nodesIn(node) }];
  });
}

/** What the page says its digest is. */
export function statedDigest(): string {
  return document.querySelector<HTMLMetaElement>(`meta[name="${digestName}"]`)?.content ?? '';
}

/** With a digest of what it says, where the browser can make one. */
export async function sealed(record: RecordFile): Promise<RecordFile> {
  const digest = await recordDigest(record);
  return digest === undefined ? record : { ...record, digest };
}

const recordDigest = ({ card, entries }: RecordFile) => digestOf(JSON.stringify([card, entries]));

/** Why a record is not to be taken as it is. */
export async function doubtOf(record: RecordFile): Promise<Doubt | undefined> {
  const digest = await recordDigest(record);
  if (digest === undefined || record.digest === undefined) return 'unchecked';
  if (digest !== record.digest) return 'changed';
  return record.card.digest === statedDigest() ? undefined : 'other-copy';
}
