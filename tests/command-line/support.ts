/** Runs the command line in a folder of its own. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach } from 'vitest';
import { runCommandLine } from '../../client/command-line/run.ts';
import type { Machine } from '../../client/command-line/surroundings.ts';

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly errors: string;
}

export class Folder {
  readonly path = mkdtempSync(join(tmpdir(), 'cardwright-'));

  write(file: string, content: string | Uint8Array): this {
    const path = join(this.path, file);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, content);
    return this;
  }

  read(file: string): string {
    return readFileSync(join(this.path, file), 'utf8');
  }

  /** Runs `cardwright ARGS` here, or in a folder below. */
  async run(args: readonly string[], below = '.', more: Partial<Machine> = {}): Promise<Ran> {
    let out = '';
    let errors = '';
    const code = await runCommandLine(args, {
      folder: join(this.path, below),
      write: (text) => {
        out += text;
      },
      complain: (text) => {
        errors += text;
      },
      workCopy: () => '/* work copy */',
      reportScript: () => '/* report */',
      program: () => 'of a test',
      terminal: false,
      colours: false,
      ...more,
    });
    return { code, out, errors };
  }
}

const made: Folder[] = [];

export function folder(): Folder {
  const fresh = new Folder();
  made.push(fresh);
  return fresh;
}

afterEach(() => {
  for (const { path } of made.splice(0)) rmSync(path, { recursive: true });
});

export const cleanCard = `card wash "Wash" {
  number "1"
  revision "A"
  crew mechanic "Mechanic"
  step "Look at the hose."
}
`;

/** Has one error, with a path and a fix. */
export const faultyCard = `kind breaker { closed "Close {}", pulled "Pull {}" }
item ignition : breaker "the ignition breaker" normally closed
card wash "Wash" {
  number "2"
  revision "A"
  crew mechanic "Mechanic"
  step set ignition pulled
}
`;
