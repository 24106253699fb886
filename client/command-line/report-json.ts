import type { Finding } from '../../shared/finding.ts';
import { hiddenEscaped } from '../../shared/hidden.ts';
import type { Report } from './report.ts';

/** One object with all findings and a summary. */
export function jsonReport(report: Report): string {
  const findings = report.findings.map((finding) => toJson(finding, report));
  return `${hiddenEscaped(JSON.stringify({ findings, summary: report.summary }, null, 2))}\n`;
}

function toJson({ place, code, level, message, rule, source, path, fixes }: Finding, { regionOf }: Report) {
  return {
    ...regionOf(place),
    code,
    level,
    message,
    ...(rule !== undefined && { rule }),
    ...(source !== undefined && { source }),
    path: path.map((step) => {
      const { file, line } = regionOf(step.place);
      return { file, line, text: step.text };
    }),
    fixes: fixes.map(({ title }) => ({ title })),
  };
}
