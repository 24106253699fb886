/** What a file looks like: outline, folding, growing selections, colours, links. */
import {
  type DocumentSymbol,
  FoldingRangeKind,
  type SelectionRange,
  SemanticTokensBuilder,
  type SemanticTokensLegend,
  SymbolKind,
} from 'vscode-languageserver';
import type { LineTable } from '../../../shared/text.ts';
import type { Sort } from '../../binding/bind.ts';
import { folds } from '../../features/folding.ts';
import { links } from '../../features/links.ts';
import { type OutlineEntry, type OutlineSort, outline } from '../../features/outline.ts';
import { selectionsAt } from '../../features/selection.ts';
import { colouredNames } from '../../features/semantic-colours.ts';
import { toOffset, toPosition, toRange } from '../positions.ts';
import type { Session } from '../session.ts';

export function handleStructure(session: Session): void {
  const { connection } = session;
  connection.onDocumentSymbol(async ({ textDocument }) => {
    const snapshot = await session.read(textDocument.uri);
    return snapshot && outline(snapshot.parsed).map((entry) => toSymbol(entry, snapshot.lines));
  });
  connection.onFoldingRanges(async ({ textDocument }) => {
    const snapshot = await session.read(textDocument.uri);
    return snapshot && folds(snapshot.parsed).map((fold) => toFold(fold, snapshot.lines));
  });
  connection.onSelectionRanges(async ({ textDocument, positions }) => {
    const snapshot = await session.readAsked(textDocument.uri);
    if (!snapshot) return undefined;
    return positions.map((position) => {
      const spans = selectionsAt(snapshot.parsed, toOffset(snapshot.lines, position));
      return spans.reduceRight<SelectionRange | undefined>(
        (parent, span) => ({ range: toRange(snapshot.lines, span), parent }),
        undefined,
      ) as SelectionRange;
    });
  });
  connection.languages.semanticTokens.on(async ({ textDocument }) => {
    const snapshot = await session.read(textDocument.uri);
    const builder = new SemanticTokensBuilder();
    for (const { start, end, sort, isDeclaration } of snapshot ? colouredNames(snapshot) : []) {
      const { line, character } = toPosition((snapshot as { lines: LineTable }).lines, start);
      builder.push(line, character, end - start, legend.tokenTypes.indexOf(tokenTypes[sort]), isDeclaration ? 1 : 0);
    }
    return { data: builder.build().data };
  });
  connection.onDocumentLinks(async ({ textDocument }) => {
    const snapshot = await session.read(textDocument.uri);
    return (
      snapshot &&
      links(snapshot).map(({ span, file }) => ({
        range: toRange(snapshot.lines, span),
        target: session.names.uriOf(file),
      }))
    );
  });
}

const symbolKinds: Readonly<Record<OutlineSort, SymbolKind>> = {
  kind: SymbolKind.Enum,
  item: SymbolKind.Variable,
  gauge: SymbolKind.Number,
  limit: SymbolKind.Constant,
  supply: SymbolKind.Interface,
  hazard: SymbolKind.Event,
  rule: SymbolKind.Boolean,
  variant: SymbolKind.TypeParameter,
  procedure: SymbolKind.Function,
  card: SymbolKind.Class,
  stage: SymbolKind.Namespace,
  step: SymbolKind.Method,
  block: SymbolKind.Object,
};

export function symbolKindOf(sort: OutlineSort): SymbolKind {
  return symbolKinds[sort];
}

function toSymbol(entry: OutlineEntry, lines: LineTable): DocumentSymbol {
  return {
    name: entry.name,
    detail: entry.detail,
    kind: symbolKinds[entry.sort],
    range: toRange(lines, entry.span),
    selectionRange: toRange(lines, entry.nameSpan),
    children: entry.children.map((child) => toSymbol(child, lines)),
  };
}

const foldKinds = { block: undefined, comment: FoldingRangeKind.Comment, uses: FoldingRangeKind.Imports };

/** The line of a closing brace stays visible. */
function toFold({ sort, start, end }: ReturnType<typeof folds>[number], lines: LineTable) {
  const last = lines.positionAt(end).line;
  return {
    startLine: lines.positionAt(start).line,
    endLine: sort === 'block' ? last - 1 : last,
    kind: foldKinds[sort],
  };
}

/** Of the protocol's own sorts of names, the one that themes colour fittingly. */
const tokenTypes: Readonly<Record<Sort, string>> = {
  kind: 'enum',
  state: 'enumMember',
  item: 'variable',
  node: 'variable',
  gauge: 'property',
  limit: 'enumMember',
  supply: 'interface',
  hazard: 'event',
  rule: 'macro',
  variant: 'typeParameter',
  value: 'enumMember',
  procedure: 'function',
  parameter: 'parameter',
  card: 'class',
  role: 'type',
  label: 'label',
};

export const legend: SemanticTokensLegend = {
  tokenTypes: [...new Set(Object.values(tokenTypes))],
  tokenModifiers: ['declaration'],
};
