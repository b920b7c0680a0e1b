/** Numbers from 0 to 1, the same every time for one seed text. */
export function seeded(seed: string): () => number {
  let state = [...seed].reduce((h, c) => (Math.imul(h, 31) + c.charCodeAt(0)) | 0, 17)
  return () => {
    state = (Math.imul(state ^ (state >>> 15), 0x2c1b3c6d) + 0x6d2b79f5) | 0
    const mixed = Math.imul(state ^ (state >>> 12), 0x297a2d39)
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32
  }
}
