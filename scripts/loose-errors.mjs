import { writeFileSync } from 'node:fs'

/** Reporter for vitest: what was thrown outside of every test goes to the file that LOOSE_ERRORS names, a text each. */
export default class LooseErrors {
  /**
   * @param {unknown} _modules
   * @param {readonly { name?: string, message: string }[]} errors
   */
  onTestRunEnd(_modules, errors) {
    const path = process.env.LOOSE_ERRORS
    if (path === undefined || errors.length === 0) return
    writeFileSync(path, JSON.stringify(errors.map(({ name, message }) => `${name ?? 'error'}: ${message}`)))
  }
}
