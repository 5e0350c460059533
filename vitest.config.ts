import { defineConfig } from 'vitest/config';

/** Asked for by `npm test -- --without-postgres`, which says so at its end. */
const withoutPostgres = process.env['VATSIDE_WITHOUT_POSTGRES'] === undefined ? [] : ['**/*postgres*.test.ts'];
const inFull = process.env['VATSIDE_MATRIX'] === 'all';

/** A page shares its processor with another, and all of them with whatever the machine does beside: what fails is tried once more, and the report says so. */
const ONCE_MORE = 1;
/** What a page comes to show is waited for: a slow machine is no fault of the page's. */
const PATIENT = { poll: { timeout: 15_000 } };

/** Two kinds of test: pure code in threads without isolation (fast), and everything that owns a process, a port or a page. */
export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'pure',
          include: [
            'src/{numbers,science,make,forecast,record,exchange}/**/*.test.ts',
            'tests/{published,reference,properties,fuzz,golden,calibration,failures}/**/*.test.ts',
            'tests/*.test.ts',
            // What the screens say, worked out without one: view models and what they stand on.
            'src/doors/web/**/*.test.ts',
          ],
          pool: 'threads',
          // Left to itself the runner keeps one of two cores idle.
          maxWorkers: 2,
          isolate: false,
          testTimeout: 30_000,
          hookTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'shell',
          include: ['src/{store,doors}/**/*.test.ts', 'tests/{store,faults,cli}/**/*.test.ts'],
          exclude: ['src/doors/web/**', ...withoutPostgres],
          pool: 'forks',
          maxWorkers: 2,
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'browser',
          include: ['tests/browser/*.test.ts'],
          exclude: ['tests/browser/*.timed.test.ts'],
          pool: 'forks',
          maxWorkers: 2,
          retry: ONCE_MORE,
          expect: PATIENT,
          testTimeout: 240_000,
          hookTimeout: 240_000,
        },
      },
      {
        // What is measured in moments (an alarm within its second, a band at once) has the machine to itself.
        test: {
          name: 'timed',
          include: ['tests/browser/*.timed.test.ts'],
          retry: ONCE_MORE,
          expect: PATIENT,
          pool: 'forks',
          fileParallelism: false,
          testTimeout: 180_000,
          hookTimeout: 180_000,
        },
      },
      {
        // The usability script, by keys alone too; wet fingers, and all of it on harder places, by `npm run browser:all`.
        test: {
          name: 'tasks',
          include: ['tests/browser/tasks/*.test.ts'],
          exclude: inFull ? [] : ['tests/browser/tasks/slips.test.ts'],
          pool: 'forks',
          maxWorkers: 2,
          retry: ONCE_MORE,
          expect: PATIENT,
          testTimeout: 240_000,
          hookTimeout: 240_000,
        },
      },
      {
        // Every screen once under each hardship, one after the other in one page; two files, as long as each other.
        test: {
          name: 'conditions',
          include: ['tests/browser/conditions/*.test.ts'],
          pool: 'forks',
          maxWorkers: 2,
          retry: ONCE_MORE,
          expect: PATIENT,
          testTimeout: 300_000,
          hookTimeout: 120_000,
        },
      },
      {
        // Budgets are of a quiet machine: `npm run budgets`, not part of the ordinary run.
        test: {
          name: 'budgets',
          include: ['tests/budgets/**/*.test.ts'],
          pool: 'forks',
          fileParallelism: false,
          testTimeout: 900_000,
          hookTimeout: 900_000,
        },
      },
    ],
  },
});
