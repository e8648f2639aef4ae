import type { Reporter, TestModule } from 'vitest/node';

/** Ends a run with one plain line, `N passed, N failed[, N skipped]`, for whoever reads it by script. */
export default class ClosingReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const counts = { passed: 0, failed: 0, skipped: 0 };
    for (const module of modules) {
      // A file that failed to load holds no test that could have failed.
      if (module.state() === 'failed' && module.errors().length > 0) counts.failed += 1;
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === 'pending') counts.skipped += 1;
        else counts[state] += 1;
      }
    }
    const skipped = counts.skipped > 0 ? `, ${counts.skipped} skipped` : '';
    process.stdout.write(`\n${counts.passed} passed, ${counts.failed} failed${skipped}\n`);
  }
}
