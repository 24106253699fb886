/** What is larger is no card, no picture for one, or no exported card. Bytes. */
export const largestText = 16 * 1024 * 1024;
export const largestFigure = 64 * 1024 * 1024;
export const largestPage = 256 * 1024 * 1024;
