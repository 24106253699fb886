/** Judges exported HTML by html-validate. */
import type { Element, Nodes } from 'hast';
import { fromHtml } from 'hast-util-from-html';
import { HtmlValidate } from 'html-validate';

const validator = new HtmlValidate({
  extends: ['html-validate:standard', 'html-validate:a11y'],
  rules: {
    // Questions of style, which do not touch a reader: one long line of markup is smaller.
    'long-title': 'off',
    'no-trailing-whitespace': 'off',
    'no-inline-style': 'error',
    'prefer-native-element': 'error',
    'require-sri': 'off',
  },
});

export function elementsIn(node: Nodes): Element[] {
  const own = node.type === 'element' ? [node] : [];
  return 'children' in node ? [...own, ...node.children.flatMap(elementsIn)] : own;
}

/** Those with one of these classes or names, in the order of the page. */
export const found = (html: string | Nodes, ...names: readonly string[]): Element[] =>
  elementsIn(typeof html === 'string' ? fromHtml(html) : html).filter(({ tagName, properties }) =>
    names.some((name) => name === tagName || [properties.className].flat().includes(name)),
  );

/** As it reads: what keeps a number and its unit together is a blank like others. */
export const asRead = (text: string): string => text.replaceAll('\u00a0', ' ');

export const textIn = (node: Nodes): string =>
  node.type === 'text' ? asRead(node.value) : 'children' in node ? node.children.map(textIn).join('') : '';

/** What is wrong with a document, as one text a fault. */
export async function htmlFaults(html: string): Promise<readonly string[]> {
  const report = await validator.validateString(html);
  return report.results.flatMap(({ messages }) =>
    messages.map(({ ruleId, message, line, column }) => `${ruleId} at ${line}:${column}: ${message}`),
  );
}
