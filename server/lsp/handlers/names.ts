/** From a name to all that it stands for: definition, uses, renaming, calls, and names in the whole workspace. */
import {
  type CallHierarchyItem,
  DocumentHighlightKind,
  type Position,
  ResponseError,
  SymbolKind,
  type TextDocumentPositionParams,
} from 'vscode-languageserver';
import { hiddenShown } from '../../../shared/hidden.ts';
import { contains, type Place } from '../../../shared/text.ts';
import type { References } from '../../binding/bind.ts';
import { type Call, type Callable, callableAt, incoming, outgoing } from '../../features/calls.ts';
import { followMoves } from '../../features/file-renames.ts';
import { links } from '../../features/links.ts';
import { type NamedPlace, nameAt, placesOf, rename, renameObstacle } from '../../features/names.ts';
import { outline } from '../../features/outline.ts';
import { thingOf } from '../../features/things.ts';
import type { Snapshot } from '../../snapshot.ts';
import { toLocation, toWorkspaceEdit } from '../convert/findings.ts';
import { toOffset, toRange } from '../positions.ts';
import type { Session } from '../session.ts';
import { symbolKindOf } from './structure.ts';

/** The code of the protocol for a request that was understood and cannot be done. */
const requestFailed = -32803;

export function handleNames(session: Session): void {
  handleGoing(session);
  handleRenaming(session);
  handleCalls(session);
  session.connection.onWorkspaceSymbol(({ query }) => workspaceSymbols(query, session));
}

function handleGoing(session: Session): void {
  const { connection } = session;
  connection.onDefinition(async (params) => {
    const named = await nameUnder(params, session);
    const place = named?.declared.place ?? (await fileUsedAt(params, session));
    return place && toLocation(place, session);
  });
  connection.onTypeDefinition(async (params) => {
    const named = await nameUnder(params, session);
    const thing = named && thingOf(named.declared, named.snapshot.bound);
    const place =
      thing?.sort === 'item'
        ? thing.item.kind.place
        : thing?.sort === 'limit'
          ? thing.limit.gauge.place
          : named?.declared.owner?.place;
    return place && toLocation(place, session);
  });
  connection.onReferences(async (params) => {
    const named = await nameUnder(params, session);
    const places = named ? placesOf(named.declared, await allTables(session)) : [];
    const wanted = params.context.includeDeclaration ? places : places.slice(1);
    return wanted.map((place) => toLocation(place, session));
  });
  connection.onDocumentHighlight(async (params) => {
    const named = await nameUnder(params, session);
    const places = named ? placesOf(named.declared, [named.snapshot.bound.references]) : [];
    return places
      .filter(({ file }) => file === named?.snapshot.file)
      .map((place) => ({
        range: toRange(session.linesOf(place.file), place),
        kind: highlightKind(place, named as NamedPlace),
      }));
  });
}

function highlightKind(place: Place, { declared }: NamedPlace): DocumentHighlightKind {
  return place.start === declared.place.start && place.file === declared.place.file
    ? DocumentHighlightKind.Write
    : DocumentHighlightKind.Read;
}

/** The beginning of the file that the path of a `use` leads to. */
async function fileUsedAt(
  { textDocument, position }: TextDocumentPositionParams,
  session: Session,
): Promise<Place | undefined> {
  const snapshot = await session.readAsked(textDocument.uri);
  const offset = snapshot ? toOffset(snapshot.lines, position) : 0;
  const link = snapshot && links(snapshot).find(({ span }) => contains(span, offset));
  const isThere = link && session.workspace.textOf(link.file) !== '';
  return isThere ? { file: link.file, start: 0, end: 0 } : undefined;
}

function handleRenaming(session: Session): void {
  const { connection } = session;
  connection.onPrepareRename(async (params) => {
    const named = await nameUnder(params, session);
    if (!named) return null;
    const obstacle = renameObstacle(named.declared);
    if (obstacle) throw new ResponseError(requestFailed, obstacle);
    return { range: toRange(named.snapshot.lines, named.place), placeholder: named.declared.name };
  });
  connection.onRenameRequest(async (params) => {
    const named = await nameUnder(params, session);
    if (!named) return null;
    const renaming = rename(named.declared, params.newName, await session.everywhere(), session.workspace);
    if ('refused' in renaming) throw new ResponseError(requestFailed, renaming.refused);
    return toWorkspaceEdit(renaming.edits, session);
  });
  connection.workspace.onWillRenameFiles(async ({ files }) => {
    const moves = files.map(({ oldUri, newUri }) => ({
      from: session.names.fileOf(oldUri),
      to: session.names.fileOf(newUri),
    }));
    const edits = (await session.everywhere()).flatMap((snapshot) => followMoves(snapshot, moves));
    return edits.length > 0 ? toWorkspaceEdit(edits, session) : null;
  });
}

function handleCalls(session: Session): void {
  const { callHierarchy } = session.connection.languages;
  const ranges = ({ places }: Call) => places.map((place) => toRange(session.linesOf(place.file), place));
  callHierarchy.onPrepare(async ({ textDocument, position }) => {
    const found = await findCallable(textDocument.uri, position, session);
    return found ? [toCallItem(found.callable, session)] : null;
  });
  callHierarchy.onIncomingCalls(async ({ item }) => {
    const found = await findCallable(item.uri, item.selectionRange.start, session);
    const calls = found ? incoming(found.callable, found.everywhere) : [];
    return calls.map((call) => ({ from: toCallItem(call.callable, session), fromRanges: ranges(call) }));
  });
  callHierarchy.onOutgoingCalls(async ({ item }) => {
    const found = await findCallable(item.uri, item.selectionRange.start, session);
    const calls = found ? outgoing(found.callable, found.snapshot, found.everywhere) : [];
    return calls.map((call) => ({ to: toCallItem(call.callable, session), fromRanges: ranges(call) }));
  });
}

async function findCallable(uri: string, position: Position, session: Session) {
  const snapshot = await session.ofThisVersion(uri, () => readWithNames(uri, session));
  const everywhere = await session.everywhere();
  const callable = snapshot && callableAt(snapshot, toOffset(snapshot.lines, position), everywhere);
  return callable && { callable, snapshot, everywhere };
}

function toCallItem({ declared, title, span }: Callable, session: Session): CallHierarchyItem {
  const lines = session.linesOf(declared.place.file);
  return {
    name: declared.name,
    detail: hiddenShown(title),
    kind: declared.sort === 'card' ? SymbolKind.Class : SymbolKind.Function,
    uri: session.names.uriOf(declared.place.file),
    range: toRange(lines, span),
    selectionRange: toRange(lines, declared.place),
  };
}

async function workspaceSymbols(query: string, session: Session) {
  const wanted = query.toLowerCase();
  return (await session.everywhere()).flatMap(({ file, parsed, lines }) =>
    outline(parsed)
      .flatMap((entry) => [entry, ...entry.children.filter(({ sort }) => sort === 'limit' || sort === 'stage')])
      .filter(({ name, detail }) => isSubsequence(wanted, `${name} ${detail}`.toLowerCase()))
      .map(({ name, detail, sort, nameSpan }) => ({
        name,
        kind: symbolKindOf(sort),
        containerName: detail,
        location: { uri: session.names.uriOf(file), range: toRange(lines, nameSpan) },
      })),
  );
}

/** As editors match what is typed: the letters in this order, others between them. */
function isSubsequence(letters: string, text: string): boolean {
  let at = 0;
  for (const letter of letters) {
    at = text.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}

/** Once the workspace has been read: a name may come from a file of it. */
async function readWithNames(uri: string, session: Session): Promise<Snapshot | undefined> {
  await session.ready;
  return session.read(uri);
}

async function nameUnder(
  { textDocument, position }: TextDocumentPositionParams,
  session: Session,
): Promise<(NamedPlace & { readonly snapshot: Snapshot }) | undefined> {
  const snapshot = await session.ofThisVersion(textDocument.uri, () => readWithNames(textDocument.uri, session));
  const named = snapshot && nameAt(snapshot.bound.references, snapshot.file, toOffset(snapshot.lines, position));
  return named && { ...named, snapshot };
}

async function allTables(session: Session): Promise<References[]> {
  return (await session.everywhere()).map(({ bound }) => bound.references);
}
