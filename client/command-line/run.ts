/** The commands and their options. Gives the exit code: 0 clean, 1 findings, 2 could not run. */
import { availableParallelism } from 'node:os';
import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import manifest from '../../package.json' with { type: 'json' };
import { hiddenShown } from '../../shared/hidden.ts';
import { checkCommand } from './check.ts';
import { compareCommand } from './compare.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { explainCommand } from './explain.ts';
import { exportCommand } from './export.ts';
import { keptFolder } from './folder/kept.ts';
import type { Shard } from './folder/shard.ts';
import { formatCommand } from './format.ts';
import { releaseCommand } from './release.ts';
import { reportCommand } from './report-command.ts';
import { sourcesCommand } from './sources.ts';
import { StatusLine } from './status-line.ts';
import { CannotRun, type Machine, type Surroundings } from './surroundings.ts';
import { verifyCommand } from './verify.ts';

/** One core is left to the compiler and collector of the program itself: of two cores a second thread gains nothing. */
const mostThreads = Math.max(1, availableParallelism() - 1);

export async function runCommandLine(args: readonly string[], { status, ...machine }: Machine): Promise<ExitCode> {
  const line = new StatusLine(status);
  const afterWiping = (write: (text: string) => void) => (text: string) => {
    line.wipe();
    write(text);
  };
  const surroundings: Surroundings = {
    ...machine,
    write: afterWiping(machine.write),
    complain: afterWiping((text) => machine.complain(hiddenShown(text))),
    tell: (doing, number, of) => line.tell(doing, number, of),
  };
  let code: ExitCode = exitCodes.clean;
  const program = commands(surroundings, (ended) => {
    code = ended;
  });
  try {
    await program.parseAsync(args, { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CannotRun || isOfTheSystem(error)) surroundings.complain(`${error.message}\n`);
    else if (!(error instanceof CommanderError)) throw error;
    else if (error.exitCode === 0) return exitCodes.clean;
    return exitCodes.couldNotRun;
  } finally {
    line.wipe();
  }
}

/** What a file or a folder does not let us do: a fault of neither the cards nor this program. */
function isOfTheSystem(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && 'syscall' in error;
}

function commands(surroundings: Surroundings, ends: (code: ExitCode) => void): Command {
  const program = new Command('cardwright')
    .description('Checks, prints and formats maintenance task cards. A folder stands for all *.card files in it.')
    .version(manifest.version, '-v, --version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand(false)
    .configureOutput({ writeOut: surroundings.write, writeErr: surroundings.complain })
    .exitOverride();
  const command = (name: string, description: string) =>
    program.command(name).description(description).helpOption('-h, --help', 'print this help').exitOverride();

  command('check', 'prove cards on every path, and say what is wrong with them')
    .argument('<path...>', "cards, folders, patterns ('**/*.card'), or - for standard input")
    .addOption(new Option('--format <format>', 'how to say it').choices(['text', 'json', 'sarif']).default('text'))
    .option('--strict', 'end with exit code 1 for warnings and hints too')
    .option('--not-followed', 'list the steps that the proof does not follow, and why (in json they always are)')
    .option('--changed [since]', 'only what Git says has changed since a commit (HEAD), and all cards that use it')
    .addOption(new Option('--shard <part>', 'only one part of the files, such as 2/8').argParser(readShard))
    .option('--watch', 'check again whenever a file changes, until you stop it')
    .addOption(new Option('--threads <count>', 'how many cores to use').argParser(readCount).default(mostThreads))
    .option('--no-cache', `neither take nor keep results of unchanged files in ${keptFolder}`)
    .addHelpText(
      'after',
      examples("cardwright check '**/*.card' --format sarif --strict", 'cardwright check . --changed origin/main'),
    )
    .action(async (paths, options) => ends(await checkCommand(paths, options, surroundings)));

  command('export', 'write each card as one HTML file, to print and to work from')
    .argument('<card...>', 'files with cards, folders or patterns')
    .option('--to <folder>', 'where to write them', '.')
    .option('--draft', 'write cards with errors too, marked as drafts on every page')
    .option('--since <old>', 'mark and list what is otherwise than in this card or released card')
    .option('--compact', 'print small and in two columns, for whoever wants one sheet')
    .addHelpText('after', examples('cardwright export rinse.card --to out', 'cardwright export . --to drafts --draft'))
    .action((paths, options) => ends(exportCommand(paths, options, surroundings)));

  command('release', 'write each card as a release, with a digest of all that it was made from')
    .argument('<card...>', 'files with cards, folders or patterns')
    .requiredOption('--to <folder>', 'where the releases are kept: a revision in it is never replaced by another text')
    .option('--key <file>', 'sign it with this Ed25519 key (PEM, or SSH without a passphrase)')
    .addHelpText(
      'after',
      examples('cardwright release rinse.card --to released', 'cardwright release . --to released --key private.pem'),
    )
    .action((paths, options) => ends(releaseCommand(paths, options, surroundings)));

  command('verify', 'say of released cards whether they are current, older, altered, or none of ours')
    .argument('<file...>', 'released cards')
    .option('--sources <path...>', 'where the cards are that they were made from', ['.'])
    .option('--key <file>', 'ask for a signature with the key that belongs to this public one (PEM or SSH)')
    .addHelpText(
      'after',
      examples(
        'cardwright verify released/rinse-left-B.html',
        'cardwright verify released/*.html --sources cards --key public.pem',
      ),
    )
    .action((paths, options) => ends(verifyCommand(paths, options, surroundings)));

  command('compare', 'say what another revision changes for whoever works with the card')
    .argument('<old>', 'a card, a folder of cards or a released card')
    .argument('<new>', 'the same, as it is now')
    .addOption(new Option('--format <format>', 'how to say it').choices(['text', 'json', 'html']).default('text'))
    .addHelpText(
      'after',
      examples(
        'cardwright compare released/rinse-left-B.html rinse.card',
        'cardwright compare before/cards cards --format html > changes.html',
      ),
    )
    .action((old, now, options) => ends(compareCommand(old, now, options, surroundings)));

  command('report', 'write one page on how all cards stand: findings, acceptances, rules, releases')
    .argument('<path...>', 'cards, folders or patterns')
    .option('--to <file>', 'the page to write', 'report.html')
    .option('--released <folder>', 'where releases are kept: says of each card whether it has changed since')
    .addHelpText(
      'after',
      examples('cardwright report .', 'cardwright report cards --released released --to report.html'),
    )
    .action((paths, options) => ends(reportCommand(paths, options, surroundings)));

  command('sources', 'say what hangs on which source: steps, limits, rules and admonitions that name one')
    .argument('<path...>', 'cards, folders or patterns')
    .option('--from <words>', 'only what comes from sources with these words, such as a manual whose revision changed')
    .option('--none', 'only what names no source')
    .addHelpText('after', examples('cardwright sources .', 'cardwright sources cards --from "Manual 12-3"'))
    .action((paths, options) => ends(sourcesCommand(paths, options, surroundings)));

  command('format', 'bring cards into the usual layout; without an option, print it')
    .argument('<path...>', 'cards, folders, patterns, or - for standard input')
    .option('--write', 'change the files')
    .option('--check', 'only say which files would change, with exit code 1 if one would')
    .addHelpText('after', examples('cardwright format rinse.card --write', 'cardwright format . --check'))
    .action((paths, options) => ends(formatCommand(paths, options, surroundings)));

  command('explain', 'say what a finding means, why it matters and what to do')
    .argument('<code>', 'the code of a finding, such as safety.rule, or a family, such as safety')
    .addHelpText('after', examples('cardwright explain safety.rule', 'cardwright explain duty'))
    .action((code) => ends(explainCommand(code, surroundings)));
  return program;
}

function examples(...lines: readonly string[]): string {
  return `\nExamples:\n${lines.map((line) => `  ${line}\n`).join('')}`;
}

function readCount(text: string): number {
  if (!/^[1-9]\d{0,3}$/.test(text)) throw new InvalidArgumentError('Give a number from 1, such as 2.');
  return Number(text);
}

function readShard(text: string): Shard {
  const [, number = '', of = ''] = /^(\d{1,4})\/(\d{1,4})$/.exec(text) ?? [];
  const shard = { number: Number(number), of: Number(of) };
  if (shard.number < 1 || shard.number > shard.of)
    throw new InvalidArgumentError('Give which part of how many, such as 2/8.');
  return shard;
}
