import type { Reporter, TestModule, TestSuite } from 'vitest/node';

/** The outermost suites of a file in which nothing ran. */
function skippedGroups(module: TestModule): string[] {
  const groups: string[] = [];
  const visit = (suite: TestSuite): void => {
    const tests = [...suite.children.allTests()];
    if (tests.length > 0 && tests.every((test) => test.result().state === 'skipped')) groups.push(suite.fullName);
    else for (const child of suite.children.suites()) visit(child);
  };
  for (const suite of module.children.suites()) visit(suite);
  return groups;
}

/** Ends a run with each group that this machine could not run (its title says why), and one line of counts. */
export class ClosingLines implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const counts = { passed: 0, failed: 0, skipped: 0, pending: 0 };
    for (const module of modules) {
      for (const test of module.children.allTests()) counts[test.result().state] += 1;
      for (const group of skippedGroups(module)) console.log(`skipped: ${group}`);
    }
    console.log(`${counts.passed} passed, ${counts.failed} failed, ${counts.skipped} skipped`);
  }
}
