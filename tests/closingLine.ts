import type { Reporter, TestModule } from 'vitest/node';

/**
 * Ends a run with one plain line, `tests: N passed, N failed, N skipped`. A file that could not be read or an error
 * outside any test counts as a failure, so that the line never looks better than the run was.
 */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]): void {
    const counts = { passed: 0, failed: errors.length, skipped: 0, pending: 0 };
    for (const module of modules) {
      for (const test of module.children.allTests()) counts[test.result().state] += 1;
      const broken =
        module.errors().length > 0 || (module.state() === 'failed' && module.children.size === 0);
      if (broken) counts.failed += 1;
    }
    const failed = counts.failed + counts.pending;
    process.stdout.write(`\ntests: ${counts.passed} passed, ${failed} failed, ${counts.skipped} skipped\n`);
  }
}
