/** What a server that has run keeps for the next start: files that lie beside each other under one name. */

/** What its code was compiled to. */
export const keptCode = (name: string): string => `${name}.code`;

/** Its memory once it had warmed up, from which Node starts it. */
export const keptHeap = (name: string): string => `${name}.heap`;

/** A heap while a server starts from it: one that nobody starts from to the end is not taken again. */
export const heapInTrial = (name: string): string => `${name}.trial`;

/** Tables in a heap stay as they were laid out: another seed for them costs a tenth of the start, and this one is a secret of the machine. */
const layout = ['--no-rehash-snapshot'];

/** What is no longer used goes sooner: a third less memory, for a fifth more time where a step is added. */
const memory = ['--heap-growing-percent=60', '--max-semi-space-size=8'];

/** What Node is told to make a heap, or to start from it: it takes one only with the options that it was made with. */
export const withHeap = (heap: string): string[] => [...layout, ...memory, '--snapshot-blob', heap];
