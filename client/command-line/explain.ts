import { explain, findingSorts } from '../../server/api.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import type { Surroundings } from './surroundings.ts';

export function explainCommand(code: string, { write, complain }: Surroundings): ExitCode {
  const help = explain(code);
  if (help !== undefined) {
    write(help);
    return exitCodes.clean;
  }
  const codes = findingSorts.map((sort) => sort.code).join(', ');
  complain(`There is no finding "${code}". There are: ${codes}.\n`);
  return exitCodes.couldNotRun;
}
