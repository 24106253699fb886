/** Walking along the path of a finding: where one is, and how one stays there while the text changes. */
import type { PreviewFinding, WalkPlace } from '../../shared/protocol.ts';

export interface Walk {
  readonly finding: PreviewFinding;
  /** From the start of the card to the finding itself; never empty. */
  readonly places: readonly WalkPlace[];
  /** Index in `places`. */
  readonly at: number;
}

export function startWalk(finding: PreviewFinding): Walk {
  return { finding, places: placesOf(finding), at: 0 };
}

export function walkTo(walk: Walk, at: number): Walk {
  return { ...walk, at: Math.min(Math.max(at, 0), walk.places.length - 1) };
}

/** The same walk in the findings of a newer text; undefined where the finding is mended. */
export function keepWalk(walk: Walk, findings: readonly PreviewFinding[]): Walk | undefined {
  const alike = findings.filter(
    ({ code, place }) => code === walk.finding.code && place.uri === walk.finding.place.uri,
  );
  const same =
    alike.find(({ message }) => message === walk.finding.message) ?? nearest(alike, walk.finding.place.start);
  return same && walkTo(startWalk(same), walk.at);
}

/** The finding that begins nearest to an offset. */
export function nearest(findings: readonly PreviewFinding[], offset: number): PreviewFinding | undefined {
  const distance = ({ place }: PreviewFinding) =>
    place.start <= offset && offset <= place.end ? 0 : Math.abs(place.start - offset);
  return [...findings].sort((a, b) => distance(a) - distance(b))[0];
}

/** The path ends where the finding stands, whether or not the path itself says so. */
function placesOf(finding: PreviewFinding): WalkPlace[] {
  const last = finding.path.at(-1);
  if (last && last.uri === finding.place.uri && last.start === finding.place.start) return [...finding.path];
  return [...finding.path, { ...finding.place, text: finding.message }];
}
