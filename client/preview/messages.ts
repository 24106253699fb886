/** What the panel and its page say to each other. Either side takes what fits, and nothing else. */
import * as v from 'valibot';
import type { Preview, Situation } from '../../shared/protocol.ts';

const offset = v.pipe(v.number(), v.finite());
const place = v.object({ uri: v.string(), start: offset, end: offset });
const names = v.record(v.string(), v.string());

const preview: v.GenericSchema<Preview> = v.object({
  version: v.number(),
  files: names,
  cards: v.array(v.object({ name: v.string(), title: v.string() })),
  card: v.optional(v.string()),
  language: v.optional(v.string()),
  configurations: v.array(v.object({ label: v.string(), values: names })),
  body: v.string(),
  style: v.string(),
  coverage: v.optional(
    v.object({
      words: v.string(),
      notFollowed: v.array(
        v.object({
          number: v.number(),
          words: v.string(),
          sort: v.picklist(['people', 'unseen']),
          why: v.string(),
          place,
        }),
      ),
    }),
  ),
  findings: v.array(
    v.object({
      code: v.string(),
      level: v.picklist(['error', 'warning', 'hint']),
      message: v.string(),
      source: v.optional(v.string()),
      place,
      path: v.array(v.object({ ...place.entries, text: v.string() })),
    }),
  ),
});

const drawings = v.array(v.object({ label: v.string(), svg: v.string() }));

const situation: v.GenericSchema<Situation> = v.object({
  place,
  items: v.array(
    v.object({
      label: v.string(),
      at: v.optional(v.string()),
      states: v.array(v.string()),
      normal: v.optional(v.picklist(['yes', 'perhaps', 'no'])),
    }),
  ),
  supplies: drawings,
  runs: drawings,
});

const toPage = v.variant('type', [
  v.object({ type: v.literal('show'), uri: v.string(), preview }),
  /** The text has changed since the preview was made; a new one is on its way. */
  v.object({ type: v.literal('newer'), version: v.number() }),
  /** The editor's first visible line begins at this offset. */
  v.object({ type: v.literal('scroll'), offset }),
  /** `version` is that of the text in which the cursor has this offset. */
  v.object({ type: v.literal('cursor'), offset, version: v.number() }),
  /** Walk the path of the finding nearest to this offset. */
  v.object({ type: v.literal('walk'), offset }),
  v.object({ type: v.literal('situation'), situation: v.optional(situation) }),
]);

const toPanel = v.variant('type', [
  v.object({ type: v.literal('ready') }),
  v.object({ type: v.literal('scrolled'), offset }),
  /** Show this place in the text; `focus` moves the keyboard there too. */
  v.object({ type: v.literal('reveal'), place, focus: v.boolean() }),
  /** A walk has come to the end of its path. */
  v.object({ type: v.literal('walked') }),
  v.object({ type: v.literal('choose'), card: v.optional(v.string()), configuration: v.optional(names) }),
  v.object({ type: v.literal('situation'), offset }),
]);

export type ToPage = v.InferOutput<typeof toPage>;
export type ToPanel = v.InferOutput<typeof toPanel>;

/** Undefined where it is no message for the page. */
export function readForPage(message: unknown): ToPage | undefined {
  return read(toPage, message);
}

/** Undefined where it is no message for the panel. */
export function readForPanel(message: unknown): ToPanel | undefined {
  return read(toPanel, message);
}

function read<Message>(schema: v.GenericSchema<Message>, message: unknown): Message | undefined {
  const { success, output } = v.safeParse(schema, message);
  return success ? output : undefined;
}

/** The files that a preview shows something of: its page may send a reader to these, and to no others. */
export function filesOf({ files, findings, coverage }: Preview): ReadonlySet<string> {
  const places = [
    ...findings.flatMap((finding) => [finding.place, ...finding.path]),
    ...(coverage?.notFollowed ?? []).map((step) => step.place),
  ];
  return new Set([...Object.values(files), ...places.map(({ uri }) => uri)]);
}
