/** What a released card was made from. It stands in the card's page, so that the page can be held against its sources. */

export interface Release {
  readonly tool: {
    readonly version: string;
    /** SHA-256, as hex, of the script of the work copy. */
    readonly workCopy: string;
  };
  /** The names of the card and of its file. */
  readonly card: string;
  readonly file: string;
  readonly number: string;
  readonly revision: string;
  readonly date?: string;
  /** All files and shipped rulebooks, by their way from the card's folder; line ends are LF. */
  readonly texts: Readonly<Record<string, string>>;
  /** SHA-256, as hex, of each picture, by its way from the card's folder. */
  readonly figures: Readonly<Record<string, string>>;
  readonly settings: Readonly<Record<string, unknown>>;
}

/** The element of the page that holds it. */
export const releaseElement = 'release';

const element = new RegExp(`<script id="?${releaseElement}"? type="?application/json"?>(.*?)</script>`, 's');

/** The text in that element; undefined where a page has none. */
export function recordIn(page: string): string | undefined {
  return element.exec(page)?.[1];
}
