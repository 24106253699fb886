/** What a text must have to count. */

/** Somebody can be found by it. */
export function isName(text: string): boolean {
  return /\p{L}.*\p{L}/u.test(text);
}

/** However it is written. */
export function isSameName(one: string, other: string): boolean {
  const plain = (name: string) => name.normalize('NFKC').toLowerCase().replace(/[\s.]/g, '');
  return plain(one) === plain(other);
}

/** More than a word or two: what was found, and why it may be so. Writings without blanks have their letters counted. */
export function isSubstantial(text: string): boolean {
  const words = text.match(/\p{L}{2,}/gu) ?? [];
  const letters = words.join('').length;
  return (words.length >= 3 && letters >= 10) || /\p{Script=Han}{6,}|\p{Script=Thai}{10,}/u.test(text);
}
