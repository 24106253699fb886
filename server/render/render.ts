/**
 * A card as the crew holds it: one HTML document for paper, screen and work copy, and the same body for the preview.
 * Pure functions: what a card says becomes text and attributes through a library that escapes them, never markup.
 */
import type { ElementContent } from 'hast';
import { h } from 'hastscript';
import { finish, type InParts } from '../../shared/parts.ts';
import { releaseElement } from '../../shared/release.ts';
import { type Context, contextOf } from './context.ts';
import { bodyMarkup, renderDocument } from './document.ts';
import type { RenderInput } from './input.ts';
import { compileJob, type Program } from './job/compile.ts';
import { dataElement, workCopyScripts } from './job/scripts.ts';
import { typeset, typesetTexts } from './language/typeset.ts';
import { renderBack } from './parts/back.ts';
import { renderFailures } from './parts/failures.ts';
import { renderFindingList } from './parts/findings.ts';
import { renderBeforeYouStart, renderHead } from './parts/front.ts';
import { renderOverview, renderWay } from './parts/overview.ts';
import { renderBodyParts, renderStopPage, renderWholeCardAdmonitions } from './parts/statements.ts';

/** One self-contained HTML document, with the work copy where its script is given. */
export function renderCard(input: RenderInput): string {
  const context = contextOf(input);
  const program = compileJob(context);
  const made = releaseData(input);
  if (context.workCopy === undefined)
    return renderDocument([...typeset(finish(cardContent(context, program)), context.words), ...made], context);
  const scripts = workCopyScripts(typesetTexts(program.job, context.words), context.workCopy);
  const { anchors, onlys } = program;
  const content = typeset(finish(cardContent({ ...context, anchors, onlys }, program)), context.words);
  return renderDocument([...content, ...made, ...scripts.elements], context, scripts.policy);
}

function releaseData({ release }: RenderInput): ElementContent[] {
  return release ? [dataElement(releaseElement, release.made)] : [];
}

/** What stands in the body of a document without work copy, for the preview. */
export function* renderBody(input: RenderInput): InParts<string> {
  const context = contextOf(input);
  const program = compileJob(context);
  yield;
  const content = yield* cardContent(context, program);
  return yield* bodyMarkup(typeset(content, context.words));
}

function* cardContent(context: Context, program: Program): InParts<ElementContent[]> {
  const sections: readonly (() => readonly ElementContent[])[] = [
    () => [renderBeforeYouStart(context)],
    () => renderWholeCardAdmonitions(context),
    () => renderOverview(context),
    () => renderBodyParts(context),
    () => renderWay(program, context),
    () => renderFailures(context),
    () => renderBack(context),
    () => renderFindingList(context),
    () => renderStopPage(context),
  ];
  const main = h(context.input.card.crew.length > 1 ? 'main' : 'main.one-role');
  for (const render of sections) {
    for (const part of render()) main.children.push(part);
    yield;
  }
  return [renderHead(context), main];
}
