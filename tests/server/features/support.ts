/** Marked cards for the features: equipment of a small plant, and a card with a cursor. */
import { openWorkspace } from '../../../server/api.ts';
import type { Snapshot } from '../../../server/snapshot.ts';
import type { Workspace } from '../../../server/workspace.ts';
import { readMarks } from '../../support/marks.ts';

export const plant = `kind pump { stopped "Stop {}", running "Start {}" }
kind motor { off "Release {}", turning "Hold {}" }
item main-switch : switch "the main switch" at "panel P1" normally off
item feed-pump : pump "the feed pump" normally stopped needs mains while running
item barring-motor : motor "the barring motor" normally off {
  duty turning at most 30 s, then rest 60 s
}
gauge oil "oil pressure" in psi {
  reads 0 to 100 by 5
  limit working at least 30 psi
}
supply mains "mains current" {
  source grid
  link grid -> feed-pump when main-switch on
}
hazard turning "turning parts" while feed-pump running {
  danger "The pump starts without a warning. Keep clear."
}
rule oil-first "Oil before the pump runs" {
  before feed-pump running
  require oil in working
  because "A dry bearing seizes."
}
`;

export interface Scene {
  readonly snapshot: Snapshot;
  /** Of the `$0` in the card; the end of the text where there is none. */
  readonly offset: number;
  readonly others: readonly Snapshot[];
  readonly workspace: Workspace;
}

/** Opens a card beside the plant's equipment, and other files with it. */
export function open(marked: string, files: Readonly<Record<string, string>> = {}): Scene {
  const { text, cursors } = readMarks(marked);
  const all: Readonly<Record<string, string>> = { '/plant.card': plant, '/here.card': text, ...files };
  const { workspace } = openWorkspace({ readText: (file) => all[file] });
  const snapshots = Object.keys(all).flatMap((file) => workspace.snapshot(file) ?? []);
  const snapshot = snapshots.find(({ file }) => file === '/here.card') as Snapshot;
  return {
    snapshot,
    workspace,
    offset: cursors[0] ?? text.length,
    others: snapshots.filter((other) => other !== snapshot),
  };
}

/** A whole card of these statements, by one mechanic. */
export function card(statements: string): string {
  return `use "plant.card"
card serve "Serve the pump" {
  number "P-1" revision "A" on 2026-03-04
  crew fitter "Fitter"
  stage work "Work" {
${statements}
  }
}
`;
}
