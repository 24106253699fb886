/** Judges exported HTML by html-validate. */
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

/** What is wrong with a document, as one text a fault. */
export async function htmlFaults(html: string): Promise<readonly string[]> {
  const report = await validator.validateString(html);
  return report.results.flatMap(({ messages }) =>
    messages.map(({ ruleId, message, line, column }) => `${ruleId} at ${line}:${column}: ${message}`),
  );
}
