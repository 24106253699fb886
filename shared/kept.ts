/** What a server that has run keeps for the next start: files that lie beside each other under one name. */

/** What its code was compiled to. */
export const keptCode = (name: string): string => `${name}.code`;

/** Its memory once it had warmed up, from which Node starts it. */
export const keptHeap = (name: string): string => `${name}.heap`;

/** A heap while a server starts from it: one that nobody starts from to the end is not taken again. */
export const heapInTrial = (name: string): string => `${name}.trial`;

/**
 * What Node is told to make a heap, or to start from it: it takes one only with the options that it was made with. The tables in it stay
 * as they were laid out, since another seed for them would cost a tenth of the start, and this one is a secret of the machine already.
 */
export const withHeap = (heap: string): string[] => ['--no-rehash-snapshot', '--snapshot-blob', heap];
