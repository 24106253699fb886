/** Published sources that several findings name, each with the point that is meant. */
import type { Source } from '../finding.ts';

export function STE(point: string, status: Source['status'] = 'seen'): Source {
  return { title: `ASD-STE100 Simplified Technical English, rule ${point}`, status };
}

export function DOE(point: string): Source {
  return { title: `DOE-STD-1029-92, Writer's Guide for Technical Procedures, ${point}`, status: 'from memory' };
}

export function humanFactorsNotes(point: string): Source {
  return { title: `Human factors good practice notes on procedure writing, ${point}`, status: 'seen' };
}
