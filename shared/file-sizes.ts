/** What is larger is no card, or no picture for one. Bytes. */
export const largestText = 16 * 1024 * 1024;
export const largestFigure = 64 * 1024 * 1024;
