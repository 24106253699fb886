// `npm test`: installs what the tests need, looks at the sources, runs every test, and closes with a line that CI reads.
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { ensureInstalled } from './install.mjs';
import { look } from './look.mjs';
import { ensureDebianPrograms, findBrowser } from './programs.mjs';
import { run, succeeds } from './run.mjs';

const report = '.cache/test-report.json';

function runTests(browser) {
  mkdirSync('.cache', { recursive: true });
  rmSync(report, { force: true });
  console.log('\n── tests');
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
  const passed = succeeds('node_modules/.bin/vitest', ['run', '--project', 'tests', ...reporters], {
    CHROMIUM: browser,
  });
  return countTests(passed);
}

/** A test file that could not even be loaded has no results of its own and counts as one failure. */
function countTests(runnerPassed) {
  if (!existsSync(report)) return { passed: 0, failed: 1, skipped: 0 };
  const results = JSON.parse(readFileSync(report, 'utf8'));
  const unloaded = results.testResults.filter((file) => file.status === 'failed' && file.assertionResults.length === 0);
  const failed = results.numFailedTests + unloaded.length;
  return {
    passed: results.numPassedTests,
    failed: runnerPassed ? failed : Math.max(failed, 1),
    skipped: results.numPendingTests + results.numTodoTests,
  };
}

ensureInstalled();
ensureDebianPrograms();

const browser = findBrowser();
if (!browser) {
  console.error('No Chrome or Chromium found: install one, or name it in the environment variable CHROMIUM.');
  process.exit(1);
}

run('npm', ['run', '--silent', 'package']);
if (existsSync('.ci/real-editor.mjs')) run(process.execPath, ['.ci/real-editor.mjs']);

const looked = look();
const tests = runTests(browser);
for (const name of looked.failed) console.log(`Failed: ${name}`);
const failed = tests.failed + looked.failed.length;
const skipped = tests.skipped > 0 ? `, ${tests.skipped} skipped` : '';
console.log(`\n${tests.passed + looked.passed} passed, ${failed} failed${skipped}`);
process.exit(failed === 0 ? 0 : 1);
