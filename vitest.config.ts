import { defineConfig } from 'vitest/config'

const journeys = 'web/**/*.journey.test.ts'

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'unit',
          include: ['{engine,host,web,scripts,verification,bench}/**/*.test.{ts,tsx}'],
          exclude: [journeys, '**/node_modules/**', 'web/dist/**'],
          setupFiles: ['scripts/properties.ts'],
          // both cores of a small machine: of two, one is kept back unless told
          maxWorkers: 2,
          // a limit against hanging, not on speed: a loaded machine is several times slower
          testTimeout: 300_000,
          hookTimeout: 300_000,
        },
      },
      {
        test: {
          name: 'journey',
          include: [journeys],
          exclude: ['**/node_modules/**'],
          globalSetup: ['web/journeys/build.ts'],
          fileParallelism: false,
          testTimeout: 300_000,
          hookTimeout: 120_000,
          // what is asked for again and again, as well
          expect: { poll: { timeout: 30_000 } },
        },
      },
    ],
  },
})
