/** The work copy inside the file: its program as data, and the script that runs it. */
import type { ElementContent } from 'hast';
import { h } from 'hastscript';
import type { Job } from '../../../shared/job.ts';
import { policyHash, scriptJson, scriptText } from '../encoding.ts';

export function workCopyScripts(
  job: Job,
  script: string,
): { readonly elements: readonly ElementContent[]; readonly policy: string } {
  const text = scriptText(script);
  return {
    elements: [h('script', { id: 'job', type: 'application/json' }, scriptJson(job)), h('script', text)],
    policy: policyHash(text),
  };
}
