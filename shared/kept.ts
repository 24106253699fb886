/** What a server that has run keeps for the next start: files that lie beside each other under one name. */

/** What its code was compiled to. */
export const keptCode = (name: string): string => `${name}.code`;

/** Its memory once it had warmed up, from which Node starts it. */
export const keptHeap = (name: string): string => `${name}.heap`;

/** A heap while a server starts from it: one that nobody starts from to the end is not taken again. */
export const heapInTrial = (name: string): string => `${name}.trial`;
