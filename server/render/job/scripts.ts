/** The work copy inside the file: its program as data, and the script that runs it. */
import type { Element, ElementContent } from 'hast';
import { h } from 'hastscript';
import type { Job } from '../../../shared/job.ts';
import { packed } from '../../../shared/packed.ts';
import { policyHash, scriptJson, scriptText } from '../encoding.ts';

export function workCopyScripts(
  job: Job,
  script: string,
): { readonly elements: readonly ElementContent[]; readonly policy: string } {
  const text = scriptText(script);
  return {
    elements: [dataElement('job', packed(job)), h('script', text)],
    policy: policyHash(text),
  };
}

/** Data that stands in the page and is shown to nobody. */
export function dataElement(id: string, data: unknown): Element {
  return h('script', { id, type: 'application/json' }, scriptJson(data));
}
