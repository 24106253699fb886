/** The text of the page, made from the cards of the folder. */
export function recipesPage(folder: string): string;
